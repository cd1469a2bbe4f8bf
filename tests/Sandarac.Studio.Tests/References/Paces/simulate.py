"""How often the 95 % prediction intervals hold what the rest of a simulated treatment took."""
import numpy as np
from scipy import stats

LOGS = 20000


def simulate(spread, sessions, ahead):
    rng = np.random.default_rng(1)
    hours, paces = rng.uniform(1, 4, (LOGS, sessions)), rng.normal(2, spread, (LOGS, sessions))
    area = np.exp(paces) * hours
    remaining = ahead * 2.5 * np.exp(2 + spread ** 2 / 2)
    longest = 6 * ahead + 60
    more_hours = rng.uniform(1, 4, (LOGS, longest))
    more_area = np.exp(rng.normal(2, spread, (LOGS, longest))) * more_hours
    done, worked = np.cumsum(more_area, 1), np.cumsum(more_hours, 1)
    last, row = (done < remaining).sum(1), np.arange(LOGS)
    assert last.max() < longest
    before = lambda sums: np.where(last > 0, sums[row, last - 1], 0)
    took = before(worked) + (remaining - before(done)) / more_area[row, last] * more_hours[row, last]
    s2 = paces.var(1, ddof=1)
    m = np.maximum(1, remaining * hours.sum(1) / area.sum(1) * hours.sum(1) / (hours ** 2).sum(1))
    of_mean = np.log(1 + (np.exp(s2) - 1) / m)
    middle = paces.mean(1) + (s2 - of_mean) / 2
    slope = (1 - np.exp(s2 - of_mean) / m) / 2
    off = stats.t.ppf(0.975, sessions - 1) * np.sqrt(of_mean + s2 / sessions + slope ** 2 * 2 * s2 ** 2 / (sessions - 1))
    return np.mean((remaining * np.exp(-middle - off) <= took) & (took <= remaining * np.exp(-middle + off)))


print("spread,sessions,ahead,held")
for spread in (0.2, 0.4, 0.7):
    for sessions in (3, 5, 10, 20):
        for ahead in (1, 5, 20, 60):
            print(spread, sessions, ahead, f"{simulate(spread, sessions, ahead):.4f}", sep=",")
