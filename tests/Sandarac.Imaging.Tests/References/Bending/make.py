# Tensor product of uniform cubic B-splines, evaluated by SciPy.
import numpy as np
from scipy.interpolate import BSpline
C, R = 5, 4
LEFT, TOP, WIDTH, HEIGHT = 10.0, 20.0, 100.0, 60.0
k = np.arange((C + 3) * (R + 3))
cx = (1.5 * np.sin(1.7 * k)).reshape(R + 3, C + 3)
cy = (1.2 * np.cos(2.3 * k)).reshape(R + 3, C + 3)
def basis(n, t):
    knots = np.arange(-3, n + 4, dtype=float)
    return np.array([BSpline(knots, np.eye(n + 3)[i], 3, extrapolate=False)(t) for i in range(n + 3)])
rng = np.random.default_rng(11)
print("x,y,right,down")
for x, y in np.round(np.c_[LEFT + WIDTH * rng.uniform(0, 1, 60), TOP + HEIGHT * rng.uniform(0, 1, 60)], 6):
    wx, wy = basis(C, (x - LEFT) / WIDTH * C), basis(R, (y - TOP) / HEIGHT * R)
    print(f"{x:.6f},{y:.6f},{wy @ cx @ wx:.15g},{wy @ cy @ wx:.15g}")
