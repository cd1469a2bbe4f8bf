"""Makes the reference figures beside this file; SOURCE.md says how."""
import csv
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import minimize


def nearest():
    """Nearest point of the hull of two or three random points to the origin, each weight at least m: SLSQP from several starts."""
    dice = np.random.default_rng(1)
    for case in range(500):
        n = 2 + case % 2
        kind = case % 5
        points = dice.normal(0, 8, (n, 3)) + (0 if kind < 2 else dice.normal(0, 8, 3))
        if kind == 3:
            points[-1] = points[0] + 1e-3 * dice.normal(0, 1, 3)  # two solvents almost alike
        if kind == 4 and n == 3:
            points[2] = 0.4 * points[0] + 0.6 * points[1]  # on one line
        least = [0, 0.05, 0.1][case % 3]
        best = None
        starts = [np.full(n, 1 / n)] + [np.where(np.arange(n) == k, 1 - (n - 1) * least, least) for k in range(n)]
        for start in starts:
            found = minimize(lambda w: np.sum((w @ points) ** 2), start, jac=lambda w: 2 * points @ (w @ points), method="SLSQP",
                             bounds=[(least, 1)] * n, constraints={"type": "eq", "fun": lambda w: w.sum() - 1, "jac": lambda w: np.ones(n)}, options={"ftol": 1e-15, "maxiter": 500})
            if best is None or found.fun < best:
                best = found.fun
        yield [n, least, *points.ravel(), *([""] * (9 - 3 * n)), repr(float(np.sqrt(best)))]


def drift():
    """Raoult evaporation of moles, integrated, with molar volumes in cm3/mol; volume fractions when so much of the volume is gone."""
    # name, kPa, cm3/mol; pressures as the table has them
    mixtures = {
        "acetone 30 + toluene 70": ([24.71, 2.91], [73.3, 106.1]),
        "ethanol 20 + isooctane 80": ([5.86, 5.15], [58.3, 164.5]),
        "dichloromethane 50 + ethyl acetate 30 + cyclohexanone 20": ([47.53, 9.83, 0.39], [64.0, 98.0, 103.6]),
        "acetone 90 + benzyl alcohol 10": ([24.71, 0.005], [73.3, 103.5]),
    }
    for name, (p, v) in mixtures.items():
        p, v = np.array(p), np.array(v)
        start = np.array([float(t.split()[-1]) / 100 for t in name.split(" + ")])
        for gone in (10, 50, 89, 95):
            event = lambda t, n: n @ v - (1 - gone / 100)
            event.terminal = True
            end = solve_ivp(lambda t, n: -p * n / n.sum(), (0, 1e4), start / v, method="Radau", rtol=1e-11, atol=1e-16, events=event).y_events[0][0]
            yield [name, gone, *(repr(float(x)) for x in end * v / (end @ v))]


for file, rows in (("nearest.csv", nearest()), ("drift.csv", drift())):
    with open(file, "w", newline="") as out:
        csv.writer(out, lineterminator="\n").writerows(rows)
