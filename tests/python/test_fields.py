# SPDX-License-Identifier: MIT
"""Nothing of a C++ struct is left behind in Python: what is not bound is lost in a pickle, and a layout with it."""

from __future__ import annotations

import pickle
import re

import pytest
from conftest import EXAMPLES, ROOT, bar, job

import libflow as lf

# Fields of structs in namespaces of their own, or that Python has under another name or by a conversion of its own.
ELSEWHERE = {
    ("Layout", "plumbing"),
    ("Tank", "shape"),
    ("Row", "number"), ("Row", "orifice"), ("Row", "check_valve"), ("Row", "crack"), ("Row", "manifold"),
    ("Row", "port_x"),
}  # fmt: skip


def fields_of(body: str) -> list[str]:
    """Names of the data members of a struct."""
    found, depth = [], 0
    field = re.compile(r"([\w:<>, ]*[\w>&*]) (\w+)(\{.*\}| = [^;]*)?((?:, \w+[^;]*)?);")
    for line in re.sub(r"//.*", "", body).splitlines():
        word = line.strip().split(" ")[0]
        if depth == 0 and word not in ("static", "using", "friend", "return", "template", "explicit", "[[nodiscard]]"):
            if match := field.match(line.strip()):
                found += [match[2], *re.findall(r", (\w+)", match[4] or "")]
        depth += line.count("{") - line.count("}")
    return found


def test_every_field_of_a_record_is_bound():
    source = "\n".join(path.read_text() for path in (ROOT / "bindings" / "src").glob("*.*pp"))
    bound = set(re.findall(r"&(\w+)::(\w+)", source))
    names = set(re.findall(r"Record<(\w+)>", source)) | set(re.findall(r"struct State<(\w+)>", source))
    assert len(names) > 60
    seen, missing = set(), []
    for header in (ROOT / "libflow").rglob("*.hpp"):
        for name, body in re.findall(r"\nstruct (\w+) \{(.*?)\n\};", header.read_text(), re.DOTALL):
            if name not in names:
                continue
            seen.add(name)
            missing += [(name, f) for f in fields_of(body) if (name, f) not in bound and (name, f) not in ELSEWHERE]
    assert {"Toolbar", "CheckValveChoice", "PositivePump", "Tee", "ViscosityEnd"} <= seen
    assert missing == []


def test_pickles_keep_what_a_layout_file_says():
    text = (EXAMPLES / "pump_and_tank_bar.toml").read_text()
    text = text.replace("[hose]\n", "[hose]\nwall_thickness = \"3 mm\"\nmodulus = \"30 MPa\"\n")
    text = text.replace("rated_loss = \"2 psi\"", "rated_loss = \"2 psi\"\ncrack_spread = \"0.5 psi\"", 1)
    layout = lf.parse_layout(text)
    assert layout.plumbing.check_valve.crack_spread == pytest.approx(0.5 * 6894.757, rel=1e-6)
    assert layout.plumbing.hose_modulus == pytest.approx(30e6)
    again = pickle.loads(pickle.dumps(layout))
    assert again == layout
    assert lf.main_job(again).to_json() == lf.main_job(layout).to_json()
    assert lf.stop_dribble(again, pressure="30 psi") == lf.stop_dribble(layout, pressure="30 psi")
    assert lf.stop_dribble(again, pressure="30 psi")["relaxed"] > 0


def test_what_python_can_say_of_a_bar():
    plain = lf.Layout(job=job(), plumbing=bar())
    sprung = lf.CheckValveChoice(crack="4 psi", rated_flow="0.5 gpm", rated_loss="2 psi", full_open="8 psi")
    slower = lf.main_job(plain.replace(plumbing=bar(check_valve=sprung)))
    assert slower.check_valve_drop[0] != lf.main_job(plain).check_valve_drop[0]
    hanging = bar(outlet_bore="0.5 in", outlet_fall="2 ft")  # too wide to run full
    vented = hanging.replace(outlet_vented=True)
    falls = [lf.main_job(plain.replace(plumbing=b)) for b in (hanging, vented)]
    for answer in falls:
        assert pickle.loads(pickle.dumps(answer.layout)) == answer.layout
        # Of the 2 ft that the tube hangs down, less what its own friction takes.
        assert ((0.0 < answer.unused_fall) & (answer.unused_fall < answer.liquid.density * 9.80665 * 2 * 0.3048)).all()
    assert "runs-partly-full" in [c.code for c in falls[0].cautions]
    assert "runs-partly-full" not in [c.code for c in falls[1].cautions]
    pump = lf.CentrifugalPump(shutoff="70 psi", free_flow="40 gpm", efficiency=0.5)
    assert pickle.loads(pickle.dumps(pump)).efficiency == 0.5
    with pytest.raises(lf.InputError, match="efficiency"):
        lf.CentrifugalPump(shutoff="70 psi", free_flow="40 gpm", efficiency=1.5)


def test_the_verdicts_word_and_as_built(program):
    answer = lf.main_job(lf.read_layout(EXAMPLES / "equal_hoses.toml"))
    assert answer.even
    assert answer.verdict_word == "EVEN, not sure"  # the thick end of the band needs more than the supply gives
    assert answer.verdict.startswith(answer.verdict_word + ": ")
    assert answer.rate_reached
    assert answer.as_built is None
    said = program("solve", EXAMPLES / "equal_hoses.toml")["evenness"]
    assert (said["verdict"], said["rate_reached"], said["as_built"]) == ("EVEN, not sure", True, None)
    with_tolerances = lf.main_job(lf.read_layout(EXAMPLES / "as_built.toml"))
    built = with_tolerances.as_built
    said = program("solve", EXAMPLES / "as_built.toml")["evenness"]["as_built"]
    assert said["share_of_machines_even"] == built["share_of_machines_even"]
    assert said["mean_coefficient_of_variation"] == built["mean_cv"]
    assert 0.0 < built["share_of_machines_even"] <= 1.0
    again = pickle.loads(pickle.dumps(with_tolerances))
    assert again.as_built == built


def test_the_verdict_over_the_viscositys_band(short_bar, program):
    answer = lf.main_job(short_bar)
    low, high = answer.viscosity_band
    assert (low.upper, high.upper) == (False, True)
    assert low.viscosity == answer.liquid.viscosity_low < answer.liquid.viscosity < high.viscosity
    assert high.solved
    # Thicker product: a longer hose counts for more.
    assert abs(high.worst_deviation) > abs(low.worst_deviation)
    there = short_bar.job.liquid.with_viscosity(high.viscosity, at=short_bar.job.temperature)
    alone = lf.main_job(short_bar.replace(job=short_bar.job.replace(liquid=there)))
    assert high.cv == pytest.approx(alone.cv, rel=1e-12)
    assert high.even == alone.even
    assert max(abs(alone.deviation)) == pytest.approx(abs(high.worst_deviation), rel=1e-12)
    assert alone.viscosity_band == []
    again = pickle.loads(pickle.dumps(answer))
    assert again.viscosity_band == answer.viscosity_band
    assert pickle.loads(pickle.dumps(high)) == high != low
    assert "not even" in repr(high) or "not reached" in repr(high)
    assert answer.reference
    said = program("solve", EXAMPLES / "short_hoses.toml")["evenness"]["over_viscosity_band"]
    assert [end["viscosity_Pa_s"] for end in said] == [low.viscosity, high.viscosity]
