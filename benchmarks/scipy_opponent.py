#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The 16-row bar in SciPy: the whole network, all laws in arrays, as one who knows NumPy well would write it; and plain,
part by part, as an agronomist would.

    /usr/bin/python3 scipy_opponent.py BARS_JSON OUT_JSON

BARS_JSON comes from bar_equations: the parts' numbers and libflow's answer. Each way of solving must agree with it to
1e-8 of the largest flow before its time counts. OUT_JSON has the form of Google Benchmark's.

Unknown are the flows of all parts and the potentials of all places (the mixed system), both scaled to about one:
- plain: root as it comes (hybr, no Jacobian), the laws in a loop over the parts;
- root(hybr), root(lm), root(krylov) of scipy.optimize, with and without the exact Jacobian;
- Newton with the exact sparse Jacobian of the mixed system (splu);
- Newton with the flows taken out of each linear step: splu of the places' matrix, or dense Cholesky.
"""

import json
import math
import sys
import time

import numpy as np
from scipy.linalg import cho_factor, cho_solve
from scipy.optimize import root
from scipy.sparse import coo_matrix, csc_matrix, diags
from scipy.sparse.linalg import splu

LN10 = np.log(10.0)


def plain_friction(t, re):
    """Darcy friction factor of one tube."""
    if re < 2000.0:
        return 64.0 / re
    if re <= 4000.0:
        u, f0, m0 = (re - 2000.0) / 2000.0, 0.032, -0.032
        f1, m1 = t["f_4000"], t["slope_4000"] * 2000.0
        return f0 + u * (m0 + u * (3 * (f1 - f0) - 2 * m0 - m1 + u * (m0 + m1 - 2 * (f1 - f0))))
    x = -2.0 * math.log10(t["rel_roughness"] / 3.7 + 5.74 / re**0.9)
    for _ in range(8):
        x = -2.0 * math.log10(t["rel_roughness"] / 3.7 + 2.51 * x / re)
    return 1.0 / x**2


def plain_drop(part, q):
    """Pressure drop of one part, Pa."""
    dp, x = part["threshold"], abs(q)
    if "friction" in part and x > 0.0:
        t = part["friction"]
        re = x * t["re_per_flow"]
        dp += math.copysign(t["scale"] * plain_friction(t, re) * re * re, q)
    if "hole" in part:
        h = part["hole"]
        w = 1.0 / (1.0 + x * h["re_per_flow"] / 450.0)
        dp += q * (h["creeping"] + h["inertia"] * x * (1.0 - h["uncontracted"] * w * w))
    return dp


class Bar:
    def __init__(self, data):
        parts = data["parts"]
        self.m, self.n = len(parts), data["unknowns"]
        self.span, self.q0 = data["span_Pa"], data["flow_scale_m3_per_s"]
        self.outlets = np.array(data["outlets"])
        self.truth = np.array(data["outflow_m3_per_s"])
        self.threshold = np.array([p["threshold"] for p in parts])
        self.tubes = np.array([e for e, p in enumerate(parts) if "friction" in p])
        self.holes = np.array([e for e, p in enumerate(parts) if "hole" in p])
        self.t = {k: np.array([parts[e]["friction"][k] for e in self.tubes]) for k in parts[self.tubes[0]]["friction"]}
        self.h = {k: np.array([parts[e]["hole"][k] for e in self.holes]) for k in parts[self.holes[0]]["hole"]}
        ends = np.array([[p["from"], p["to"]] for p in parts])
        held = np.array(data["held_Pa"])
        self.parts, self.held = parts, data["held_Pa"]
        incidence = coo_matrix((np.repeat([1.0, -1.0], self.m), (np.tile(np.arange(self.m), 2), ends.T.ravel())),
                               shape=(self.m, self.n + len(held))).tocsc()
        self.A = incidence[:, :self.n].tocsc()  # drop of a part = A p + fixed
        self.A_dense, self.At = self.A.toarray(), self.A.T.tocsc()
        self.fixed = incidence[:, self.n:] @ held
        self.jacobian_fixed = np.zeros((self.m + self.n, self.m + self.n))
        self.jacobian_fixed[:self.m, self.m:] = -self.A_dense
        self.jacobian_fixed[self.m:, :self.m] = self.A_dense.T
        self.start = np.concatenate([np.ones(self.m), np.full(self.n, held[0] / self.span)])

    def laws(self, q):
        """Drop and slope of every part."""
        dp, slope = self.threshold.copy(), np.empty(self.m)
        t, x = self.t, np.abs(q[self.tubes])
        re = x * t["re_per_flow"]
        laminar = re < 2000.0
        safe = np.maximum(re, 1.0)
        f, df = 64.0 / safe, -64.0 / safe**2
        middle = ~laminar & (re <= 4000.0)
        if middle.any():
            u, f0, m0 = (re[middle] - 2000.0) / 2000.0, 0.032, -0.032
            f1, m1 = t["f_4000"][middle], t["slope_4000"][middle] * 2000.0
            c2, c3 = 3 * (f1 - f0) - 2 * m0 - m1, m0 + m1 - 2 * (f1 - f0)
            f[middle] = f0 + u * (m0 + u * (c2 + u * c3))
            df[middle] = (m0 + u * (2 * c2 + u * 3 * c3)) / 2000.0
        rough = re > 4000.0
        if rough.any():
            r = re[rough]
            a, b = r * t["rel_roughness"][rough] * LN10 / 18.574, np.log(r * LN10 / 5.02)
            F = b - np.log(a + b)
            for _ in range(3):
                s = a + F
                g, g1, g2 = F + np.log(s) - b, 1 + 1 / s, -1 / s**2
                F -= 2 * g * g1 / (2 * g1 * g1 - g * g2)
            f[rough] = LN10**2 / (4 * F * F)
            df[rough] = -2 * f[rough] / (r * (1 + a + F))
        linear = 64.0 * t["scale"] * t["re_per_flow"]
        dp[self.tubes] += np.where(laminar, linear * q[self.tubes], np.sign(q[self.tubes]) * t["scale"] * f * re * re)
        slope[self.tubes] = np.where(laminar, linear, t["scale"] * t["re_per_flow"] * re * (df * re + 2 * f))
        h, q_h = self.h, q[self.holes]
        x = np.abs(q_h)
        w = 1.0 / (1.0 + x * h["re_per_flow"] / 450.0)
        missing, jet = h["uncontracted"] * w * w, h["inertia"] * x
        dp[self.holes] += q_h * (h["creeping"] + jet * (1 - missing))
        slope[self.holes] = h["creeping"] + jet * (2 * (1 - missing) + 2 * missing * (1 - w))
        return dp, slope

    # ---- the mixed system, scaled --------------------------------------------------------------------------------

    def misfit(self, x):
        q, p = x[:self.m] * self.q0, x[self.m:] * self.span
        return np.concatenate([(self.laws(q)[0] - self.A @ p - self.fixed) / self.span, self.At @ x[:self.m]])

    def jacobian(self, x):
        j = self.jacobian_fixed.copy()
        i = np.arange(self.m)
        j[i, i] = self.laws(x[:self.m] * self.q0)[1] * self.q0 / self.span
        return j

    def by_root(self, method, exact, **options):
        found = root(self.misfit, self.start, jac=self.jacobian if exact else None, method=method, options=options)
        return found.x[:self.m] * self.q0

    # ---- plain: no arrays but what root asks for --------------------------------------------------------------------

    def plain_misfit(self, x):
        drops, nets = [], [0.0] * self.n
        for e, part in enumerate(self.parts):
            a, b = part["from"], part["to"]
            head = x[self.m + a] if a < self.n else self.held[a - self.n] / self.span
            tail = x[self.m + b] if b < self.n else self.held[b - self.n] / self.span
            drops.append(plain_drop(part, x[e] * self.q0) / self.span - (head - tail))
            if a < self.n:
                nets[a] += x[e]
            if b < self.n:
                nets[b] -= x[e]
        return drops + nets

    def by_plain_root(self):
        return root(self.plain_misfit, list(self.start), options={"xtol": 1e-12}).x[:self.m] * self.q0

    # ---- Newton ---------------------------------------------------------------------------------------------------

    def by_mixed_newton(self):
        q, p = np.full(self.m, self.q0), np.zeros(self.n)
        corner = csc_matrix(self.jacobian_fixed)
        for _ in range(100):
            dp, slope = self.laws(q)
            misfit = np.concatenate([(dp - self.A @ p - self.fixed) / self.span, self.At @ q / self.q0])
            if np.abs(misfit).max() < 1e-10:
                return q
            j = corner + diags(np.concatenate([slope * self.q0 / self.span, np.zeros(self.n)]), format="csc")
            step = splu(j).solve(misfit)
            q, p = q - step[:self.m] * self.q0, p - step[self.m:] * self.span
        return q * np.nan

    def by_nodal_newton(self, sparse):
        q, p = np.full(self.m, self.q0), None
        for _ in range(100):
            dp, slope = self.laws(q)
            if p is not None and np.abs(dp - drop).max() < 1e-10 * self.span:
                return q
            g = 1.0 / slope
            right = -(self.At @ (q + g * (self.fixed - dp)))
            if sparse:
                matrix = (self.At @ diags(g) @ self.A).tocsc()
                p = splu(matrix, permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}).solve(right)
            else:
                p = cho_solve(cho_factor(self.A_dense.T @ (g[:, None] * self.A_dense), check_finite=False), right,
                              check_finite=False)
            drop = self.A @ p + self.fixed
            q = q + g * (drop - dp)
        return q * np.nan

    def difference(self, q):
        out = q[self.outlets[:, 0].astype(int)] * self.outlets[:, 1]
        return float(np.abs(out - self.truth).max() / self.truth.max())


WAYS = {
    "scipy_plain_root": lambda bar: bar.by_plain_root(),
    "scipy_root_hybr": lambda bar: bar.by_root("hybr", False, xtol=1e-12),
    "scipy_root_hybr_jacobian": lambda bar: bar.by_root("hybr", True, xtol=1e-12),
    "scipy_root_lm_jacobian": lambda bar: bar.by_root("lm", True, xtol=1e-12, ftol=1e-13),
    "scipy_root_krylov": lambda bar: bar.by_root("krylov", False, fatol=1e-11, maxiter=200),
    "scipy_newton_mixed_sparse": lambda bar: bar.by_mixed_newton(),
    "scipy_newton_nodal_sparse": lambda bar: bar.by_nodal_newton(True),
    "scipy_newton_nodal_dense": lambda bar: bar.by_nodal_newton(False),
}
REPETITIONS, SHORTEST = 9, 0.1  # s


def measure(bar, way):
    """Seconds of processor time a solve, one figure a repetition."""
    rounds, times = 1, []
    while len(times) < REPETITIONS:
        begin = time.process_time()
        for _ in range(rounds):
            way(bar)
        spent = time.process_time() - begin
        if spent < SHORTEST:
            rounds *= 2
        else:
            times.append(spent / rounds)
    return times


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    with open(sys.argv[1], encoding="utf-8") as file:
        bars = json.load(file)
    rows = []
    for data in bars:
        bar = Bar(data)
        for name, way in WAYS.items():
            row = {"name": f"{data['name']}/cold/{name}", "run_type": "iteration", "time_unit": "ns"}
            try:
                row["difference"] = bar.difference(way(bar))
            except (ValueError, RuntimeError, np.linalg.LinAlgError) as error:
                row |= {"error_occurred": True, "error_message": f"{type(error).__name__}: {error}"}
            else:
                if not row["difference"] <= 1e-8:
                    row |= {"error_occurred": True, "error_message": f"off by {row['difference']:.1e}"}
            if "error_message" in row:
                rows.append(row)
                print(f"{row['name']:50} {row['error_message'].splitlines()[0]}")
                continue
            times = measure(bar, way)
            rows += [row | {"cpu_time": 1e9 * t, "real_time": 1e9 * t} for t in times]
            print(f"{row['name']:50} {1e6 * sorted(times)[REPETITIONS // 2]:10.1f} us   off by {row['difference']:.1e}")
    with open(sys.argv[2], "w", encoding="utf-8") as file:
        json.dump({"benchmarks": rows}, file, indent=1)


if __name__ == "__main__":
    main()
