import sys
import numpy as np
from scipy.ndimage import gaussian_filter

rng = np.random.default_rng(11)
plane = rng.normal(size=(36, 44)).astype(np.float32)
columns = [plane] + [gaussian_filter(plane.astype(float), 3, order=order, mode="reflect", truncate=8) for order in ((0, 2), (2, 0), (1, 1))]
print("value,dxx,dyy,dxy")
for row in zip(*(c.ravel() for c in columns)):
    print(",".join(f"{v:.9g}" for v in row))
