# SPDX-License-Identifier: MIT
"""The Python of the how-to pages runs, and prints what they say."""

from __future__ import annotations

import contextlib
import io
import re

import pytest
from conftest import ROOT


@pytest.mark.parametrize("page", ["howto-agronomist.md", "howto-student.md"])
def test_page_prints_what_it_says(page, monkeypatch):
    monkeypatch.chdir(ROOT)
    text = (ROOT / "libflow/docs" / page).read_text(encoding="utf-8")
    code = re.findall(r"^```python\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    shown = re.findall(r"^```text\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    shown += [line + "\n" for line in re.findall(r"^prints `([^`]*)`", text, re.MULTILINE)]
    assert len(code) >= 3
    assert len(shown) >= 3
    printed = io.StringIO()
    names: dict[str, object] = {}
    with contextlib.redirect_stdout(printed):
        for block in code:
            exec(compile(block, page, "exec"), names)
    for block in shown:
        assert block in printed.getvalue()
