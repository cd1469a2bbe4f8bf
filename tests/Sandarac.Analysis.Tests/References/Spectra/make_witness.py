"""Writes nnls.csv and line.csv: non-negative least squares and a straight line by SciPy. See SOURCE.md."""
import numpy as np
from scipy.optimize import nnls
from scipy.stats import linregress, t

rng = np.random.default_rng(7)
with open("nnls.csv", "w") as f:
    f.write("case,kind,values\n")
    for case in range(6):
        n, m = 40, 10
        a = np.abs(rng.normal(size=(n, m))) + (0.5 * rng.random((n, 1)) if case % 2 else 0)
        b = a @ np.maximum(0, rng.normal(size=m)) + rng.normal(size=n) * (0.1 + case)
        x, _ = nnls(a, b)
        for i in range(n):
            f.write(f"{case},row,{' '.join(repr(float(v)) for v in a[i])} {float(b[i])!r}\n")
        f.write(f"{case},solution,{' '.join(repr(float(v)) for v in x)}\n")
channel = np.array([185.2, 320.1, 402.4, 527.6, 591.0, 738.3])
kev = np.array([3.6917, 6.3995, 8.0411, 10.5436, 11.8140, 14.7648])
r = linregress(channel, kev)
q = t.ppf(0.975, len(channel) - 2)
with open("line.csv", "w") as f:
    f.write("step,offset,step_half_width,offset_half_width\n")
    f.write(",".join(repr(float(v)) for v in (r.slope, r.intercept, q * r.stderr, q * r.intercept_stderr)) + "\n")
