#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Prints what the benchmarks found: libflow's times, the other solvers' as multiples, growth, and the goals.

    python3 ratios.py FOLDER      with the *.json of one benchmarks/run

Times are processor times; a ratio is one of medians of the same run.
"""

import json
import math
import re
import statistics
import sys
from pathlib import Path

UNITS = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}


def load(folder):
    """Name to runs, each with seconds and counters."""
    runs = {}
    for path in sorted(folder.glob("*.json")):
        for row in json.loads(path.read_text(encoding="utf-8"))["benchmarks"]:
            if row.get("run_type") != "iteration":
                continue
            name = re.sub(r"/(iterations|repeats):\d+", "", row.get("run_name", row["name"]))
            if path.stem == "bar_benchmark":
                name = "own/" + name
            if path.stem.startswith("scenarios_"):
                name = path.stem.removesuffix("benchmark").removesuffix("_") + "/" + name
            if "cpu_time" in row:
                row["seconds"] = row["cpu_time"] * UNITS[row["time_unit"]]
            runs.setdefault(name, []).append(row)
    return runs


def seconds(runs, name):
    return statistics.median(row["seconds"] for row in runs[name])


def pretty(t):
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("us", 1e-6)):
        if t >= size:
            return f"{t / size:.3g} {unit}"
    return f"{t * 1e9:.3g} ns"


def failed(runs, name):
    return next((row["error_message"] for row in runs[name] if row.get("error_occurred")), None)


def own(runs):
    print("libflow, 16 rows and 48 rows with three manifolds (median, least)")
    for name in sorted(n for n in runs if n.startswith("own/")):
        least = min(row["seconds"] for row in runs[name])
        steps = f"{runs[name][0]['newton_steps']:.0f} steps" if "newton_steps" in runs[name][0] else ""
        print(f"  {name[4:]:36}{pretty(seconds(runs, name)):>10}{pretty(least):>10}  {steps}")


def rate(runs, name):
    """Scenarios a second: of the processor's time, or of the clock's where all threads work. The fastest repetition: what
    is slower was disturbed."""
    clock = "real_time" if name.endswith("real_time") else "cpu_time"
    return max(row["scenarios"] / (row[clock] * UNITS[row["time_unit"]]) for row in runs[name])


def builds(runs):
    """Builds of the scenarios' benchmark, narrowest registers first."""
    found = {n.split("/")[0] for n in runs if n.startswith("scenarios")}
    return [b for b in ("scenarios", "scenarios_avx2", "scenarios_avx512") if b in found]


def scenarios(runs):
    """Scenarios per second by build and product."""
    for build in builds(runs):
        for product in ("viscous", "water"):
            start = f"{build}/scenarios16/{product}/"
            names = sorted(n for n in runs if n.startswith(start))
            if not names:
                continue
            base = rate(runs, start + "scalar_core")
            print(f"\n{build}, 16 rows, {product}: scenarios a second; over the scalar core from nothing")
            for name in sorted(names, key=lambda n: rate(runs, n)):
                what = name.removeprefix(start).removesuffix("/process_time/real_time")
                print(f"  {what:24}{rate(runs, name):12,.0f}{rate(runs, name) / base:8.2f} x")
            share = rate(runs, start + "packed") / rate(runs, start + "floor")
            print(f"  floor: the laws' arithmetic alone, as often as a solve needs it; packed reaches {share:.0%} of it")
            rows = sorted((int(n.rsplit("/", 1)[1]), rate(runs, n)) for n in runs
                          if n.startswith(f"{build}/scenario_rows/{product}/"))
            print("  us a scenario:  " + ",  ".join(f"{n} rows {1e6 / r:.3g}" for n, r in rows))


def against(runs):
    """Tables of multiples; one a case."""
    for mine in sorted(n for n in runs if n.endswith("/libflow") and not n.startswith("crack/")):
        case = mine.removesuffix("libflow")
        if failed(runs, mine):
            print(f"\n{case[:-1]}: libflow FAILED: {failed(runs, mine)}")
            continue
        base = seconds(runs, mine)
        print(f"\n{case[:-1]}: libflow {pretty(base)}; others as multiples of it")
        rest = [n for n in runs if n.startswith(case) and n != mine]
        for name in sorted(rest, key=lambda n: math.inf if failed(runs, n) else seconds(runs, n)):
            what = failed(runs, name) or f"{seconds(runs, name) / base:.3g} x"
            print(f"  {name.removeprefix(case):44} {what}")


def near_crack(runs):
    print("\n16-row bar on a slope, 6,001 supply pressures from 5 to 305 kPa: failed, wrong though called solved")
    for name in (n for n in runs if n.startswith("crack/")):
        row = runs[name][0]
        where = f"   from {row['from_kPa']:.5g} to {row['to_kPa']:.5g} kPa" if "from_kPa" in row else ""
        print(f"  {name[6:]:63}{row['failed']:8.2%}{row['wrong']:8.2%}{where}")


def exponent(points):
    """Least-squares slope of log time against log size."""
    x, y = [[math.log(v) for v in column] for column in zip(*points)]
    mx, my = statistics.fmean(x), statistics.fmean(y)
    return sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x)


def growth(runs):
    """Tables by size. Returns shape to (exponent, rows)."""
    found = {}
    for shape in ("grid", "tree"):
        rows = sorted((r for n in runs if re.fullmatch(rf"scale/{shape}/\d+", n) for r in runs[n]),
                      key=lambda r: r.get("parts", 0))
        bad = [r for r in rows if r.get("error_occurred")]
        rows = [r for r in rows if not r.get("error_occurred")]
        print(f"\n{shape}: from network to solution")
        print("      parts     time   compile     solve  steps  peak MB  us/part")
        for r in rows:
            print(f"  {r['parts']:9.0f}{r['seconds']:8.3f}s{r['compile_s']:9.3f}s{r['solve_s']:9.3f}s"
                  f"{r['newton_steps']:7.0f}{r['peak_MB']:9.0f}{1e6 * r['seconds'] / r['parts']:9.2f}")
        for r in bad:
            print(f"  {r['name']} FAILED: {r['error_message']}")
        points = [(r["parts"], r["seconds"]) for r in rows]
        if len(points) > 1:
            found[shape] = exponent(points), rows
            print(f"  time grows with parts to the power {found[shape][0]:.2f}; "
                  f"{exponent(points[-2:]):.2f} between the two largest")
    return found


def study_goals(runs, goal):
    for product, wanted in (("viscous", 3.0), ("water", 4.0)):
        for name in (n for n in runs if re.search(rf"/million/{product}/", n)):
            clock = min(row["real_time"] * UNITS[row["time_unit"]] for row in runs[name])
            goal(f"{name.split('/')[0]}, {product}: a study of 2^20 machines, seconds by the clock", clock, wanted, False)
    for product in ("viscous", "water"):
        start = f"own/bar16/{product}/"
        if start + "derivatives" in runs:
            goal(f"{product}: all derivatives of all rows over one solve", seconds(runs, start + "derivatives")
                 / seconds(runs, start + "solve_cold"), 3.0, False)  # fmt: skip


def scenario_goals(runs, goal, fastest):
    if "scenarios_avx2" not in builds(runs):
        return
    for product, least, over_scalar, over_kinsol in (("viscous", 5e5, 3.0, 50.0), ("water", 1.5e5, 2.5, 20.0)):
        start = f"scenarios_avx2/scenarios16/{product}/"
        packed = rate(runs, start + "packed")
        goal(f"AVX2, {product}: scenarios a second and core", packed, least, True)
        goal(f"AVX2, {product}: packed over scalar, both from the layout's answer",
             packed / rate(runs, start + "scalar_core_warm"), over_scalar, True)
        goal(f"AVX2, {product}: packed over scalar, both from nothing",
             rate(runs, start + "packed_cold") / rate(runs, start + "scalar_core"), over_scalar, True)
        for pattern, wanted, what in (("kinsol_mixed.*_whole", over_kinsol, "fastest mixed KINSOL"),
                                      ("scipy_plain_root", 1e4, "a plain SciPy root loop"),
                                      ("scipy_root", None, "the fastest SciPy root, in arrays and with Jacobian")):
            best = fastest(f"bar16/{product}/cold/", pattern)
            if best:
                over = best[1] * rate(runs, start + "packed_cold")
                line = f"AVX2, {product}: packed from nothing over {what}"
                if wanted:
                    goal(line, over, wanted, True)
                else:
                    print(f"  no goal {line}: {over:.3g}")
                # From nothing no solver that evaluates these laws as often is faster than the floor: what the opponent
                # leaves to be won.
                print(f"          were it at the floor of its arithmetic: {best[1] * rate(runs, start + 'floor'):.3g}")


def goals(runs, growths):
    print("\ngoals")

    def goal(text, value, wanted, more):
        good = value >= wanted if more else value <= wanted
        off = "" if good else f": {wanted / value if more else value / wanted:.2g} times short"
        shown = f"{value:.3g}", f"{wanted:.3g}"
        limit = f"{'at least' if more else 'at most'} {shown[1]}"
        print(f"  {'met' if good else 'MISSED':7}{text}: {shown[0]} ({limit}){off}")

    def fastest(start, pattern):
        times = {n: seconds(runs, n) for n in runs
                 if n.startswith(start) and re.search(pattern, n) and not failed(runs, n)}
        return min(times.items(), key=lambda item: item[1], default=None)

    for product, wanted in (("viscous", 15.0), ("water", 8.0)):
        start = f"bar16/{product}/cold/"
        if start + "libflow" not in runs:
            continue
        mine, core = seconds(runs, start + "libflow"), seconds(runs, start + "libflow_core")
        for pattern, what in (("kinsol_mixed.*_whole", "of the whole network"),
                              ("kinsol_mixed.*_collapsed", "with series runs collapsed for it")):
            best = fastest(start, pattern)
            if best:
                name = f"{product}: fastest mixed KINSOL {what} ({best[0].removeprefix(start)}) over libflow"
                goal(name, best[1] / mine, wanted, True)
                goal(f"{name} without certificate and report", best[1] / core, wanted, True)
        best = fastest(start, "scipy_root")
        if best:
            what = best[0].removeprefix(start)
            goal(f"{product}: fastest SciPy root ({what}) over libflow", best[1] / mine, 2000.0, True)
    scenario_goals(runs, goal, fastest)
    study_goals(runs, goal)
    for shape, wanted in (("grid", 1.2), ("tree", 1.1)):
        if shape in growths:
            goal(f"{shape}: growth exponent", growths[shape][0], wanted, False)
    if "grid" in growths and growths["grid"][1][-1]["parts"] > 9e5:
        last = growths["grid"][1][-1]
        goal("grid of a million parts, seconds", last["seconds"], 7.0, False)
        goal("grid of a million parts, peak MB", last["peak_MB"], 3000.0, False)


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    runs = load(Path(sys.argv[1]))
    own(runs)
    scenarios(runs)
    against(runs)
    near_crack(runs)
    goals(runs, growth(runs))


if __name__ == "__main__":
    main()
