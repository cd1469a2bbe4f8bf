"""Height parameters, Gaussian bands and a Poisson solution of a small height map, by numpy and scipy."""
import csv
import numpy as np
from scipy import fft, ndimage, stats

rng = np.random.default_rng(7)
height = ndimage.gaussian_filter(rng.normal(size=(48, 64)), 1.2) * 40 + ndimage.gaussian_filter(rng.normal(size=(48, 64)), 6) * 300
height = np.float32(np.where(height > 8, 8 + (height - 8) * 0.3, height)).astype(np.float64)

def write(name, rows):
    with open(name, "w", newline="") as f:
        csv.writer(f, lineterminator="\n").writerows(rows)

def parameters(z):
    z = z.ravel()
    return [np.abs(z - z.mean()).mean(), z.std(), stats.skew(z), stats.kurtosis(z, fisher=False)]

def long_waves(z, cut_off):
    """ISO 16610-61: weights exp(-pi (x / (alpha cut-off))^2), brought to 1 at the border."""
    alpha = np.sqrt(np.log(2) / np.pi)
    x = np.arange(-int(np.ceil(cut_off)), int(np.ceil(cut_off)) + 1)
    w = np.exp(-np.pi * (x / (alpha * cut_off)) ** 2)
    def smooth(a):
        for axis in (0, 1):
            a = ndimage.convolve1d(a, w, axis=axis, mode="constant")
        return a
    return smooth(z) / smooth(np.ones_like(z))

pixel = 150.0
fine, coarse = height, long_waves(height, 700 / pixel)
write("height.csv", height.tolist())
write("parameters.csv", [["map", "Sa", "Sq", "Ssk", "Sku"], ["whole", *parameters(height)], ["weave or grain", *parameters(fine - coarse)], ["undulation", *parameters(coarse)]])

# Poisson's equation of random slopes on the rectangle by scipy's cosine transform, in double.
right, down = np.float32(rng.normal(size=(48, 64)) * 0.1).astype(float), np.float32(rng.normal(size=(48, 64)) * 0.1).astype(float)
source = np.zeros_like(right)
across, below = (right[:, 1:] + right[:, :-1]) / 2, (down[1:] + down[:-1]) / 2
source[:, 1:] += across; source[:, :-1] -= across; source[1:] += below; source[:-1] -= below
eigen = 4 * np.sin(np.pi * np.arange(64) / 128)[None] ** 2 + 4 * np.sin(np.pi * np.arange(48) / 96)[:, None] ** 2
eigen[0, 0] = 1
spectrum = fft.dctn(source, norm="ortho") / eigen
spectrum[0, 0] = 0
write("slopes-right.csv", right.tolist()); write("slopes-down.csv", down.tolist()); write("poisson.csv", fft.idctn(spectrum, norm="ortho").tolist())
