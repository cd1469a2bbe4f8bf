"""Peer of the benchmark 'blend': the nearest point to the origin of every single, pair and triple of places, each weight at least m, by non-negative least squares with the weights' sum as a heavy row. Prints seconds and the distance."""
import sys
import time
from itertools import combinations

import numpy as np
from scipy.optimize import nnls

places = np.loadtxt(sys.argv[1])
least = float(sys.argv[2])
start = time.perf_counter()
best, heavy = np.inf, 1e4
for n in (1, 2, 3):
    m = least if n > 1 else 0
    for chosen in combinations(range(len(places)), n):
        v = places[list(chosen)]
        corners = (1 - n * m) * v + m * v.sum(axis=0)
        weights, _ = nnls(np.vstack([corners.T, heavy * np.ones(n)]), np.array([0, 0, 0, heavy]))
        best = min(best, np.linalg.norm(weights @ corners / weights.sum()))
print(time.perf_counter() - start, f"{best:.4f}")
