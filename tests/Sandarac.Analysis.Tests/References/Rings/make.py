# Each series of a ring-width file against the master of all others, over every position with an overlap of 40 transformed pairs. Independent of the project's code: NumPy and SciPy only.
# python3 make.py > crossdates.csv
import numpy as np
from scipy import stats


def read(path):
    series = {}
    for line in open(path):
        name, year = line[:8].strip(), int(line[8:12])
        values = [int(v) for v in line[12:].split()]
        if values[-1] == 999:
            values.pop()
        start, widths = series.setdefault(name, (year, []))
        assert start + len(widths) == year
        widths += values
    return {k: (y, np.array(w) / 100) for k, (y, w) in series.items()}


def transform(w, kind):
    with np.errstate(divide='ignore', invalid='ignore'):
        y = np.full(len(w), np.nan)
        if kind == 'bp':
            y[2:-2] = np.log(100 * w[2:-2] / np.convolve(w, np.ones(5) / 5, 'valid'))
        else:
            y[1:] = 100 * np.log10(w[1:] / w[:-1])
    y[~np.isfinite(y)] = np.nan
    return y


def biweight(v):
    v = v[np.isfinite(v)]
    if len(v) < 4:
        return v.mean() if len(v) else np.nan
    c = np.median(v)
    mad = np.median(abs(v - c))
    if mad == 0:
        return c
    for _ in range(10):
        u = (v - c) / (9 * mad)
        w = np.where(abs(u) < 1, (1 - u**2)**2, 0)
        c = (v * w).sum() / w.sum()
    return c


def master(series, kind, mean):
    first = min(y for y, _ in series)
    last = max(y + len(w) for y, w in series)
    grid = np.full((len(series), last - first), np.nan)
    for i, (y, w) in enumerate(series):
        grid[i, y - first:y - first + len(w)] = transform(w, kind)
    if mean == 'plain':
        n = np.isfinite(grid).sum(0)
        return first, np.where(n > 0, np.nansum(grid, 0) / np.maximum(n, 1), np.nan)
    return first, np.array([biweight(c) for c in grid.T])


def best(w, series, kind, mean, overlap=40):
    first, m = master(series, kind, mean)
    _, d = master(series, 'hollstein', mean)
    y, c, found = transform(w, kind), transform(w, 'hollstein'), []
    for at in range(overlap - len(w), len(m) - overlap + 1):
        a, b = max(0, -at), min(len(w), len(m) - at)
        p, q = y[a:b], m[a + at:b + at]
        ok = np.isfinite(p) & np.isfinite(q)
        if ok.sum() < overlap:
            continue
        r = stats.pearsonr(p[ok], q[ok])[0]
        n = ok.sum()
        t = r * np.sqrt(n - 2) / np.sqrt(1 - r * r)
        s, u = c[a:b], d[a + at:b + at]
        ok = np.isfinite(s) & np.isfinite(u)
        g = np.where(np.sign(s[ok]) * np.sign(u[ok]) > 0, 1, np.where(np.sign(s[ok]) * np.sign(u[ok]) == 0, .5, 0)).mean()
        found.append((t, first + at + len(w) - 1, n, r, g, ok.sum(), stats.t.sf(t, n - 2)))
    found.sort(reverse=True)
    return found


print('file,series,transform,mean,positions,end,pairs,r,t,t_strict,parallel,changes,chance,second_end,second_t')
for file in ('co021', 'nc004'):
    series = read(file + '.rwl')
    for name, (year, w) in series.items():
        rest = [v for k, v in series.items() if k != name]
        for kind, mean in (('bp', 'plain'), ('bp', 'biweight'), ('hollstein', 'plain')):
            f = best(w, rest, kind, mean)
            t, end, n, r, g, changes, p = f[0]
            print(f'{file},{name},{kind},{mean},{len(f)},{end},{n},{r:.10g},{t:.10g},{r * np.sqrt(n - 6) / np.sqrt(1 - r * r):.10g},{g:.10g},{changes},{p:.8g},{f[1][1]},{f[1][0]:.10g}')
