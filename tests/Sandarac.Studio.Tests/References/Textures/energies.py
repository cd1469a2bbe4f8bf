# Mean energy of Gabor filters over a formula-drawn image, by convolution with scikit-image's kernels.
import json
import numpy as np
from scipy.ndimage import gaussian_filter
from skimage.filters import gabor_kernel

n, directions, sizes, lowest, highest = 128, 8, 5, 0.03, 0.3
y, x = np.mgrid[0:n, 0:n]
light = 0.5 + 0.3 * np.sin(0.4 * x + 0.9 * y) + 0.2 * np.cos(0.25 * x * np.sin(y / 20.0))
hann = np.hanning(n)
window = np.outer(hann, hann)
image = (light - light.mean()) * window / np.sqrt((window ** 2).mean())
image = gaussian_filter(image, 1.0, mode='wrap', truncate=8)
step = (highest / lowest) ** (1 / (sizes - 1))
half = np.sqrt(2 * np.log(2))
spectrum = np.fft.fft2(image)
energies = []
for s in range(sizes):
    f = lowest * step ** s
    along, across = (step - 1) * f / ((step + 1) * half), np.tan(np.pi / (2 * directions)) * f / half
    for k in range(directions):
        kernel = gabor_kernel(f, theta=np.pi * k / directions, sigma_x=1 / (2 * np.pi * along), sigma_y=1 / (2 * np.pi * across), n_stds=6)
        # Wrapped into the image's size, so that the convolution is circular.
        wrapped = np.zeros((n, n), complex)
        h, w = kernel.shape
        np.add.at(wrapped, (np.add.outer(np.arange(h) - h // 2, np.zeros(w, int)) % n, np.add.outer(np.zeros(h, int), np.arange(w) - w // 2) % n), kernel)
        energies.append(float(np.sqrt((np.abs(np.fft.ifft2(spectrum * np.fft.fft2(wrapped))) ** 2).mean())))
print(json.dumps(energies))
