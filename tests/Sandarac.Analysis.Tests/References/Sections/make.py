"""Discs and what scikit-image and NumPy say of them: make.py FOLDER, with skimage_grains.py of benchmarks/peers importable."""
import csv
import sys

import numpy
import scipy.ndimage
import skimage.filters
import skimage.io
import skimage_grains

folder = sys.argv[1]
light, radii = skimage_grains.draw(420, 0.6, 8, 20, 2)
pixels = numpy.round(255 * numpy.clip(light, 0, 1)).astype(numpy.uint8)
skimage.io.imsave(f"{folder}/discs.png", pixels, check_contrast=False)
count, d50 = skimage_grains.measure(pixels / 255)
mask = pixels > skimage.filters.threshold_otsu(pixels)
distance = numpy.round(scipy.ndimage.distance_transform_edt(numpy.pad(mask, 1))[1:-1, 1:-1] ** 2).astype(int)
diameters = numpy.sort(2 * radii)
with open(f"{folder}/discs.csv", "w", newline="") as file:
    rows = csv.writer(file, lineterminator="\n")
    rows.writerow(["what", "value"])
    rows.writerow(["discs", len(radii)])
    rows.writerow(["true-d50", f"{numpy.median(diameters):.4f}"])
    rows.writerow(["scikit-image-count", count])
    rows.writerow(["scikit-image-d50", f"{d50:.4f}"])
    rows.writerow(["otsu", skimage.filters.threshold_otsu(pixels)])
    rows.writerow(["distance-squared-sum", int(distance.sum())])
    rows.writerow(["distance-squared-max", int(distance.max())])
