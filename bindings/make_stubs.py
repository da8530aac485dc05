#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes the type stubs of the extension module from the installed package: make_stubs.py [FOLDER].

FOLDER (default: libflow/_libflow beside this script) gets __init__.pyi and physics.pyi. A test compares the committed
ones with fresh ones.
"""

from __future__ import annotations

import pathlib
import re
import subprocess
import sys
import tempfile


def write(folder: pathlib.Path) -> None:
    """Writes the stubs into a folder."""
    with tempfile.TemporaryDirectory() as work:
        subprocess.run(
            [sys.executable, "-m", "pybind11_stubgen", "libflow._libflow", "--output-dir", work, "--root-suffix", ""],
            check=True, cwd=work, stdout=subprocess.DEVNULL,
        )  # fmt: skip
        made = pathlib.Path(work) / "libflow" / "_libflow"
        folder.mkdir(parents=True, exist_ok=True)
        for path in made.glob("*.pyi"):
            text = path.read_text()
            # The version has one home, libflow/version.hpp.
            text = re.sub(r"^__version__: str = .*$", "__version__: str", text, flags=re.MULTILINE)
            head = "# SPDX-License-Identifier: MIT\n# Written by bindings/make_stubs.py from the C++ sources.\n"
            (folder / path.name).write_text(head + text)


if __name__ == "__main__":
    write(pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else pathlib.Path(__file__).parent / "libflow" / "_libflow")
