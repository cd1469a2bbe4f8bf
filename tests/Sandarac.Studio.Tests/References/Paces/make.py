import numpy as np
import scipy
from scipy import stats

LOGS = {
    "three even sessions": ([30, 42, 36], [2, 3, 2.5], 120),
    "five sessions of uneven length": ([12.5, 40, 8, 55, 21], [1, 2.5, 0.75, 4, 1.5], 300),
    "ten days": ([18, 22, 15, 30, 26, 19, 24, 12, 28, 21], [1] * 10, 500),
    "four sessions with little left": ([10, 14, 9, 11], [1, 1.2, 1.1, 0.9], 4),
}

print("log,area,effort,remaining,is one,middle,low,high")
for name, (area, effort, remaining) in LOGS.items():
    area, effort = np.array(area, float), np.array(effort, float)
    logs = np.log(area / effort)
    n, s2 = len(logs), np.var(logs, ddof=1)
    for one in (True, False):
        # One more observation: the t prediction interval. Several: the log-normal with the mean and variance of the mean of m of them, by their moments.
        m = 1 if one else max(1, remaining / (area.sum() / effort.sum()) * effort.sum() / np.sum(effort ** 2))
        single = stats.lognorm(s=np.sqrt(s2), scale=np.exp(logs.mean()))
        mean, var = single.mean(), single.var() / m
        sm2 = np.log(1 + var / mean ** 2)
        middle = np.log(mean) - sm2 / 2
        step = 1e-6 * s2
        shift = lambda v: v / 2 - np.log(1 + (np.exp(v) - 1) / m) / 2
        slope = (shift(s2 + step) - shift(s2 - step)) / (2 * step)
        spread = np.sqrt(sm2 + s2 / n + slope ** 2 * 2 * s2 ** 2 / (n - 1))
        low, high = stats.t(df=n - 1, loc=middle, scale=spread).interval(0.95)
        print(name, "/".join(map(str, area)), "/".join(map(str, effort)), remaining, one, *(f"{remaining * np.exp(-v):.9g}" for v in (middle, high, low)), sep=",")
