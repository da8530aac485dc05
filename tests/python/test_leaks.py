# SPDX-License-Identifier: MIT
"""Ten thousand solves leave nothing behind: neither memory nor references."""

from __future__ import annotations

import gc
import pathlib
import sys

from conftest import two_rows

import libflow as lf


def resident() -> int:
    """Memory of this process in bytes."""
    pages = int(pathlib.Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096


def work(n, cold, times):
    for _ in range(times):
        s = lf.solve(n, cold)
        assert s.usable
        assert s.flow[0] > 0
        try:
            lf.Hose(length="14", bore=1.0)
        except lf.InputError:
            pass


def test_ten_thousand_solves(cold):
    n = two_rows()
    work(n, cold, 500)
    gc.collect()
    before, references, objects = resident(), sys.getrefcount(n), len(gc.get_objects())
    work(n, cold, 10_000)
    gc.collect()
    assert sys.getrefcount(n) == references
    assert len(gc.get_objects()) - objects < 200
    # A solution holds some 3 kB: 10,000 of them, or even one leaked double each beyond 40 words, would show.
    assert resident() - before < 3_000_000
    del n


def test_arrays_and_answers_are_let_go(short_bar):
    def once():
        a = lf.main_job(short_bar)
        return a.rate.sum() + a.solution.flow.sum()

    for _ in range(20):
        once()
    gc.collect()
    before, none = resident(), sys.getrefcount(None)
    for _ in range(200):
        once()
    gc.collect()
    assert resident() - before < 3_000_000
    # None has no count of its own in CPython 3.12 and later.
    assert sys.version_info >= (3, 12) or abs(sys.getrefcount(None) - none) < 100
