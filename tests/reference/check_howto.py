#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs what the how-to pages show and compares it with what they say the program prints.

    check_howto.py LIBFLOW_PROGRAM EXAMPLES_FOLDER PAGE...

In a block that begins with "$ libflow ...", a line "..." stands for any lines, also none. The commands of one page run one
after another in one copy of the examples. Exit code 0 when every block agrees, 1 when one does not or none was found.
"""

import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

BLOCK = re.compile(r"^```text\n\$ libflow ([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def first_missing(shown, printed):
    """First shown line that the printed ones do not have where it should be; None: they agree."""
    at, anywhere = 0, False
    for line in shown:
        if line == "...":
            anywhere = True
            continue
        if anywhere and line in printed[at:]:
            at = printed.index(line, at)
        if at >= len(printed) or printed[at] != line:
            return line
        at, anywhere = at + 1, False
    return None if anywhere or at == len(printed) else "(the end)"


def main():
    program, examples, *pages = sys.argv[1:]
    program = str(Path(program).resolve())
    found = wrong = 0
    for page in pages:
        text = Path(page).read_text(encoding="utf-8")
        with tempfile.TemporaryDirectory() as folder:
            for file in Path(examples).iterdir():
                if file.suffix in (".toml", ".csv"):
                    shutil.copy(file, folder)
            for command, shown in BLOCK.findall(text):
                found += 1
                run = subprocess.run([program, *shlex.split(command)], cwd=folder, capture_output=True, text=True,
                                     env={**os.environ, "COLUMNS": "100"})
                printed = [line.rstrip() for line in run.stdout.splitlines()]
                missing = first_missing([line.rstrip() for line in shown.splitlines()], printed)
                if missing is not None:
                    wrong += 1
                    print("%s: libflow %s\n    does not print: %s\n%s" % (Path(page).name, command, missing, run.stderr))
    print("%d commands on %d pages, %d differ" % (found, len(pages), wrong))
    return 1 if wrong or found == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
