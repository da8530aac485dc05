# SPDX-License-Identifier: MIT
"""libflow: does the plumbing of a liquid-fertilizer toolbar give every row the same rate, why not, and what to change?

Quantities are SI numbers or text with a unit ("14 ft", "5 gal/ac", "40 F"); results are SI numbers and NumPy arrays.
Wrong input raises InputError (a ValueError) that says where, what, what is allowed and the nearest valid name.

    >>> import libflow
    >>> answer = libflow.main_job(libflow.read_layout("examples/equal_hoses.toml"))
    >>> answer.even
    True

Where to look: Liquid and liquids(); the parts (Hose, Orifice, CheckValve ...); Network and solve() for any plumbing;
Toolbar, Job, Layout, read_layout() and main_job() for a bar; compare(), solve_many() and the studies for questions;
plan_catch(), read_catch() and diagnose() for a catch test; report() for the page to print;
libflow.physics for the formulas one by one; libflow.plot for pictures.

Pressure, chemicals and crop injury: labels, local code and licensed practice decide, not a computation.
"""

from __future__ import annotations

from . import _libflow
from ._catch import *  # noqa: F403
from ._catch import __all__ as _catch_names
from ._errors import Error, IllPosedError, InputError
from ._help import make_readable as _make_readable
from ._libflow import *  # noqa: F403
from ._libflow import __version__
from ._many import ManyResults, solve_many
from ._page import *  # noqa: F403
from ._page import __all__ as _page_names
from ._studies import *  # noqa: F403
from ._studies import __all__ as _studies_names

del physics  # noqa: F821  the extension module's; the package's own is documented
from . import physics  # noqa: E402

_OWN = ["Error", "IllPosedError", "InputError", "ManyResults", "physics", "solve_many"]
_OWN += [*_catch_names, *_page_names, *_studies_names]
__all__ = sorted(
    [name for name in dir(_libflow) if not name.startswith("_") and name not in ("physics", "ScenarioResults")] + _OWN
)
_make_readable(__all__, globals(), __name__)
