# SPDX-License-Identifier: MIT
"""The page to print is the program's."""

from __future__ import annotations

import html
import os
import pickle
import re
import subprocess

import pytest
from conftest import EXAMPLES, bar, job

import libflow as lf

BAR, SHORT, DAY = (EXAMPLES / name for name in ("equal_hoses.toml", "short_hoses.toml", "catch_day.csv"))
TWO_TANKS = EXAMPLES / "two_tanks.toml"


def programs_page(*arguments: object) -> str:
    done = subprocess.run(
        [os.environ["LIBFLOW_APP"], "report", *map(str, arguments), "--date", "2026-11-26"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr
    return done.stdout


def of(*files: object) -> dict[str, str]:
    """File and date as the program prints them."""
    return {"file": ", ".join(file.name for file in files), "date": "2026-11-26"}


@pytest.fixture(scope="module")
def page(short_bar):
    return lf.report(short_bar, **of(SHORT))


def test_one_layout(page):
    assert page.html == programs_page(SHORT)
    assert page.complete


def test_another_system_of_units():
    page = lf.report(lf.read_layout(TWO_TANKS), units="metric", **of(TWO_TANKS))
    assert page.html == programs_page(TWO_TANKS, "--units", "metric")


def test_several_layouts(equal_bar, short_bar):
    assert lf.report([equal_bar, short_bar], **of(BAR, SHORT)).html == programs_page(BAR, SHORT)


def test_cups_on_the_page(equal_bar):
    low = EXAMPLES / "catch_day_low.csv"
    cups = [lf.read_catch(DAY, gauge="39 psi"), lf.read_catch(low, gauge="15 psi")]
    both = lf.report(equal_bar, catches=cups, orifice_bores=["0.042 in", "0.052 in"], units="us", **of(BAR)).html
    assert both == programs_page(BAR, "--catch", DAY, "--gauge", "39 psi", "--second", low, "--second-gauge", "15 psi",
                                 "--orifices", "0.042 in, 0.052 in", "--units", "us")  # fmt: skip
    one = lf.report(equal_bar, catches=cups[0], **of(BAR)).html
    assert one == programs_page(BAR, "--catch", DAY, "--gauge", "39 psi")


def test_it_saves_whole_and_never_over_a_file(page, tmp_path):
    path = tmp_path / "bar.html"
    page.save(path)
    assert path.read_text() == page.html
    path.write_text("mine")
    with pytest.raises(lf.InputError, match="exists already.*another name, or overwrite=True"):
        page.save(path)
    assert path.read_text() == "mine"
    page.save(str(path), overwrite=True)
    assert path.read_text() == page.html
    with pytest.raises(lf.InputError, match="is a folder"):
        page.save(tmp_path, overwrite=True)
    with pytest.raises(lf.InputError, match="there is no folder"):
        page.save(tmp_path / "no" / "such" / "folder.html")
    assert os.listdir(tmp_path) == ["bar.html"]


def test_a_notebook_shows_it_in_a_frame_of_its_own(page):
    shown = page._repr_html_()
    inside = re.fullmatch(r'<iframe [^>]*sandbox="" srcdoc="([^"]*)" [^>]*></iframe>', shown).group(1)
    assert html.unescape(inside) == page.html
    assert pickle.loads(pickle.dumps(page)).html == page.html
    assert "kB" in repr(page)


def test_progress_stops_it(short_bar):
    seen = []

    def stop(done, total):
        seen.append((done, total))
        return done < 2

    part = lf.report(short_bar, progress=stop)
    assert seen == [(1, 5), (2, 5)]
    assert not part.complete
    assert "stopped by the user" in part.html
    assert "not complete" in repr(part)


def test_wrong_use(equal_bar, short_bar):
    cups = lf.read_catch(DAY)
    for use, says in (
        (lambda: lf.report(bar()), "where a layout is wanted"),
        (lambda: lf.report([equal_bar]), "two layouts or more"),
        (lambda: lf.report([equal_bar, bar()]), "where a layout is wanted"),
        (lambda: lf.report([equal_bar, short_bar], catches=cups), "there are several layouts"),
        (lambda: lf.report(equal_bar, catches=[cups] * 3), "3 catches"),
        (lambda: lf.report(equal_bar, units="metrik"), "did you mean 'metric'"),
        (lambda: lf.report(equal_bar, catches="cups.csv"), "where readings are wanted"),
    ):
        with pytest.raises(lf.InputError) as raised:
            use()
        assert says in str(raised.value)
    shut = lf.Layout(job=job(pressure="1 psi"), plumbing=bar())
    with pytest.raises(lf.Error):
        lf.report(shut, catches=cups)
