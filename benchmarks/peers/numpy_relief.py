"""Photometric stereo and height by NumPy and SciPy, as the peer of `relief`: the same mathematics in float32, in strips of rows that fit the cache.

    numpy_relief.py version
    numpy_relief.py solve LIGHT.u16 WIDTH HEIGHT HEIGHT.f32 AZIMUTH,ELEVATION ...   LIGHT.u16 holds one 16-bit plane of linear light after another; says seconds, on the clock and of the processor

Shadow and weights as `PhotometricStereo` has them: lamps below a tenth of the second brightest are left out, two passes of least squares, eight reweighted ones; then Poisson's equation by the
cosine transform on two workers.
"""
import json
import sys
import time

import numpy
import scipy
import scipy.fft

PASSES, SHADOW, NOISE = 8, numpy.float32(0.1), numpy.float32(1e-2)


def correct(g, light, weight, rows):
    residual = light - rows @ g
    weighted = weight[:, None, :] * rows[:, :, None]
    xx, xy, xz = (weighted[:, 0] * rows[:, k, None] for k in range(3))
    xx, xy, xz = xx.sum(0), xy.sum(0), xz.sum(0)
    yy, yz, zz = (weighted[:, 1] * rows[:, 1, None]).sum(0), (weighted[:, 1] * rows[:, 2, None]).sum(0), (weighted[:, 2] * rows[:, 2, None]).sum(0)
    bx, by, bz = (weighted * residual[:, None, :]).sum(0)
    cxx, cxy, cxz = yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy
    cyy, cyz, czz = xx * zz - xz * xz, xy * xz - xx * yz, xx * yy - xy * xy
    inverse = 1 / (xx * cxx + xy * cxy + xz * cxz)
    g[0] += (cxx * bx + cxy * by + cxz * bz) * inverse
    g[1] += (cxy * bx + cyy * by + cyz * bz) * inverse
    g[2] += (cxz * bx + cyz * by + czz * bz) * inverse


def slopes(light, rows):
    second = numpy.partition(light, -2, axis=0)[-2]
    use = (light > SHADOW * second).astype(numpy.float32)
    g, weight = numpy.zeros((3, light.shape[1]), numpy.float32), use
    correct(g, light, weight, rows)
    correct(g, light, weight, rows)
    for _ in range(PASSES):
        floor = NOISE * numpy.sqrt((g * g).sum(0))
        weight = use * floor / numpy.maximum(floor, numpy.abs(light - rows @ g))
        correct(g, light, weight, rows)
    return -g[0] / g[2], -g[1] / g[2]


def height(right, down):
    source = numpy.zeros_like(right)
    across, below = (right[:, 1:] + right[:, :-1]) / 2, (down[1:] + down[:-1]) / 2
    source[:, 1:] += across
    source[:, :-1] -= across
    source[1:] += below
    source[:-1] -= below
    del across, below
    spectrum = scipy.fft.dctn(source, norm="ortho", overwrite_x=True, workers=2)
    eigen = [4 * numpy.sin(numpy.pi * numpy.arange(n) / (2 * n)) ** 2 for n in source.shape]
    for v in range(source.shape[0]):
        row = (eigen[0][v] + eigen[1]).astype(numpy.float32)
        row[row == 0] = numpy.inf
        spectrum[v] /= row
    return scipy.fft.idctn(spectrum, norm="ortho", overwrite_x=True, workers=2)


def solve(path, width, tall, out, lamps):
    rows = []
    for lamp in lamps:
        azimuth, elevation = numpy.radians([float(a) for a in lamp.split(",")])
        rows.append([numpy.sin(azimuth) / numpy.tan(elevation), -numpy.cos(azimuth) / numpy.tan(elevation), 1])
    rows = numpy.array(rows, numpy.float32)
    light = numpy.memmap(path, numpy.uint16, "r", shape=(len(lamps), tall, width))
    start, worked = time.perf_counter(), time.process_time()
    right, down = numpy.empty((tall, width), numpy.float32), numpy.empty((tall, width), numpy.float32)
    strip = max(1, 16384 // width)
    with numpy.errstate(all="ignore"):
        for top in range(0, tall, strip):
            part = light[:, top:top + strip].astype(numpy.float32).reshape(len(lamps), -1) / numpy.float32(65535)
            a, b = slopes(part, rows)
            right[top:top + strip], down[top:top + strip] = a.reshape(-1, width), b.reshape(-1, width)
    found = height(right, down)
    seconds, processor = time.perf_counter() - start, time.process_time() - worked
    found.astype(numpy.float32).tofile(out)
    print(json.dumps({"seconds": seconds, "processor": processor}))


if sys.argv[1] == "version":
    print(f"NumPy {numpy.__version__}, SciPy {scipy.__version__}")
else:
    solve(sys.argv[2], int(sys.argv[3]), int(sys.argv[4]), sys.argv[5], sys.argv[6:])
