# SPDX-License-Identifier: MIT
"""The physics formulas one by one, SI, over arrays.

Arguments are numbers, arrays (which broadcast as in NumPy) or text with a unit; each formula names its source and the
range in which it holds, and refuses what is outside.
"""

from __future__ import annotations

from ._help import make_readable as _make_readable
from ._libflow import physics as _physics
from ._libflow.physics import *  # noqa: F403

__all__ = sorted(name for name in dir(_physics) if not name.startswith("_"))
_make_readable(__all__, globals(), __name__)
