"""scikit-image's watershed on touching discs, as the peer of `particles`; it also draws the discs.

    skimage_grains.py version
    skimage_grains.py draw IMAGE.f32 SIDE      writes linear light, SIDE x SIDE float32; says how many discs and their true median diameter
    skimage_grains.py measure IMAGE.f32 SIDE   threshold, distance transform, markers, watershed, region properties; says count, median diameter and seconds

Discs of 8 to 20 pixels radius, 60 % of the area, placed at random and pushed apart until they only touch; blur of one pixel, noise.
"""
import json
import sys
import time

import numpy
import scipy.ndimage
import scipy.spatial
import skimage
import skimage.feature
import skimage.filters
import skimage.measure
import skimage.segmentation


def pack(side, packing, smallest, largest, dice):
    radii = []
    while numpy.pi * numpy.square(radii).sum() < packing * side * side:
        radii.append(dice.uniform(smallest, largest))
    radii = numpy.array(radii)
    at = dice.uniform(largest + 2, side - largest - 2, (len(radii), 2))
    for _ in range(2000):
        pairs = scipy.spatial.cKDTree(at).query_pairs(2 * largest, output_type="ndarray")
        apart = at[pairs[:, 0]] - at[pairs[:, 1]]
        distance = numpy.hypot(*apart.T) + 1e-9
        overlap = numpy.maximum(0, radii[pairs[:, 0]] + radii[pairs[:, 1]] - distance)
        if overlap.max() < 0.05:
            break
        push = 0.5 * apart / distance[:, None] * overlap[:, None]
        numpy.add.at(at, pairs[:, 0], push)
        numpy.add.at(at, pairs[:, 1], -push)
        at = numpy.clip(at, radii[:, None] + 2, side - radii[:, None] - 2)
    return at, radii


def draw(side, packing, smallest, largest, seed):
    dice = numpy.random.default_rng(seed)
    at, radii = pack(side, packing, smallest, largest, dice)
    image = numpy.zeros((side, side))
    for (x, y), r in zip(at, radii):
        x0, y0 = int(x - r) - 2, int(y - r) - 2
        n = int(2 * r) + 6
        fine = (numpy.arange(4 * n) + 0.5) / 4
        inside = numpy.hypot(fine[None, :] + x0 - x, fine[:, None] + y0 - y) < r
        window = image[max(0, y0):y0 + n, max(0, x0):x0 + n]
        cover = inside.reshape(n, 4, n, 4).mean((1, 3))[max(0, -y0):, max(0, -x0):]
        window += cover[:window.shape[0], :window.shape[1]]
    light = 0.08 + 0.5 * numpy.minimum(1, image)
    light = scipy.ndimage.gaussian_filter(light, 1)
    return (light + dice.normal(0, 0.01, light.shape)).astype(numpy.float32), radii


def measure(light):
    # Lightness, as the other side takes it.
    encoded = 116 * numpy.cbrt(numpy.clip(light, 0, 1)) - 16
    smooth = skimage.filters.gaussian(encoded, 1, preserve_range=True)
    mask = smooth > skimage.filters.threshold_otsu(smooth)
    distance = scipy.ndimage.distance_transform_edt(mask)
    peaks = skimage.feature.peak_local_max(distance, min_distance=5, labels=skimage.measure.label(mask))
    markers = numpy.zeros(mask.shape, numpy.int32)
    markers[tuple(peaks.T)] = numpy.arange(1, len(peaks) + 1)
    labels = skimage.segmentation.watershed(-distance, markers, mask=mask)
    table = skimage.measure.regionprops_table(labels, properties=("area", "perimeter_crofton", "axis_major_length", "axis_minor_length", "centroid", "bbox"))
    diameters = 2 * numpy.sqrt(table["area"] / numpy.pi)
    whole = (table["bbox-0"] > 0) & (table["bbox-1"] > 0) & (table["bbox-2"] < light.shape[0]) & (table["bbox-3"] < light.shape[1]) & (diameters >= 4)
    return int((diameters >= 4).sum()), float(numpy.median(diameters[whole]))


if __name__ == "__main__":
    if sys.argv[1] == "version":
        print(skimage.__version__)
    elif sys.argv[1] == "draw":
        light, radii = draw(int(sys.argv[3]), 0.6, 8, 20, 1)
        light.tofile(sys.argv[2])
        print(json.dumps({"count": len(radii), "d50": float(2 * numpy.median(radii)), "seconds": 0}))
    else:
        light = numpy.fromfile(sys.argv[2], numpy.float32).reshape(int(sys.argv[3]), -1)
        start = time.perf_counter()
        count, d50 = measure(light)
        print(json.dumps({"count": count, "d50": d50, "seconds": time.perf_counter() - start}))
