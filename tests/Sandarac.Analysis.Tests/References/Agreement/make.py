# Decimal logarithm of the upper tail of the binomial distribution, P(X >= k): SciPy's, and exact integers where SciPy's underflows.
from fractions import Fraction
from math import comb, log10
import numpy as np
from scipy.stats import binom

def exact(n, k, p):
    a, b = Fraction(p).as_integer_ratio()
    top = sum(comb(n, i) * a**i * (b - a)**(n - i) for i in range(k, n + 1))
    big = lambda v: log10(v >> max(0, v.bit_length() - 900)) + max(0, v.bit_length() - 900) * log10(2)
    return big(top) - big(b**n)

print("n,k,p,log10,by")
for n, k, p in [(1, 1, 0.02), (4, 0, 0.3), (10, 1, 0.05), (10, 10, 0.05), (37, 5, 0.0314), (37, 20, 0.0314), (150, 3, 0.0314), (150, 75, 0.0314),
                (400, 12, 0.01), (400, 300, 0.01), (1000, 1, 1e-4), (1000, 40, 0.0314), (1000, 100, 0.0314), (1000, 500, 0.0314), (1000, 1000, 0.0314), (1000, 500, 0.5), (1000, 990, 0.5)]:
    scipy, ours = binom.logsf(k - 1, n, p) / np.log(10), exact(n, k, p)
    assert not np.isfinite(scipy) or abs(scipy - ours) < 1e-10, (n, k, p, scipy, ours)
    print(f"{n},{k},{p!r}," + (f"{scipy:.15g},scipy" if np.isfinite(scipy) else f"{ours:.15g},exact"))
