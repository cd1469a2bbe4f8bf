"""Peer of the benchmark 'spectrum': background by clipping (as Ryan 1988, with NumPy), scipy.signal.find_peaks on what is left, and a Gaussian for each peak by scipy.optimize.curve_fit, peaks that touch together. Prints seconds (the median) and the number of peaks."""
import sys
import time

import numpy as np
from scipy.optimize import curve_fit
from scipy.signal import find_peaks

counts = np.loadtxt(sys.argv[1])
FWHM = 8.0


def background(y, half=20):
    v = np.log(np.log(np.sqrt(y + 1) + 1) + 1)
    for p in range(half, 0, -1):
        v[p:-p] = np.minimum(v[p:-p], (v[:-2 * p] + v[2 * p:]) / 2)
    return (np.exp(np.exp(v) - 1) - 1) ** 2 - 1


def gaussians(x, *p):
    return sum(p[k] * np.exp(-0.5 * ((x - p[k + 1]) / p[k + 2]) ** 2) for k in range(0, len(p), 3))


def run():
    net = counts - background(np.convolve(counts, np.ones(5) / 5, "same"))
    smooth = np.convolve(net, np.ones(5) / 5, "same")
    peaks, _ = find_peaks(smooth, height=5 * np.sqrt(np.maximum(1, counts) / 5), prominence=3 * np.sqrt(np.maximum(1, counts[:]).mean() / 5), distance=int(FWHM / 2))
    groups = np.split(peaks, np.flatnonzero(np.diff(peaks) > 2 * FWHM) + 1) if len(peaks) else []
    for group in groups:
        lo, hi = max(0, int(group[0] - FWHM)), min(len(net), int(group[-1] + FWHM))
        x = np.arange(lo, hi)
        start = [v for at in group for v in (max(1, net[at]), at, FWHM / 2.355)]
        try:
            curve_fit(gaussians, x, net[lo:hi], p0=start, sigma=np.sqrt(np.maximum(1, counts[lo:hi])), maxfev=2000)
        except RuntimeError:
            pass
    return len(peaks)


run()
seconds = []
for _ in range(int(sys.argv[2])):
    start = time.perf_counter()
    found = run()
    seconds.append(time.perf_counter() - start)
print(np.median(seconds), found)
