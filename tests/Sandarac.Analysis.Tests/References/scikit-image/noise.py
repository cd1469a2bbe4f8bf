# Noise of a picture that is defined by whole-number arithmetic, so that the test draws the same one.
import numpy as np, skimage
from skimage.restoration import estimate_sigma
w, h = 256, 192
def picture(sigma):
    state = np.uint64(12345)
    out = np.empty((h, w))
    for y in range(h):
        for x in range(w):
            s = 0
            for _ in range(12):
                state = np.uint64((int(state) * 6364136223846793005 + 1442695040888963407) % 2**64)
                s += (int(state) >> 33) / 2**31
            out[y, x] = np.clip(np.rint(20000 + 40 * x + 25 * y + sigma * (s - 6)), 0, 65535)
    return out
for sigma in (100, 400, 1600):
    print(f"{sigma},{estimate_sigma(picture(sigma)):.4f}")
