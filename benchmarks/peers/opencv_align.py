"""OpenCV's ways of laying one photograph on another, as the peer of `sandarac align`.

    opencv_align.py version
    opencv_align.py pair FIXED MOVING POINTS.csv METHOD...     METHOD: sift, ecc, sift+ecc
    opencv_align.py large FIXED MOVING POINTS.csv OUT.tif

POINTS.csv has the header x,y and one point a line, in pixels of MOVING, (0,0) at the outer corner of the first pixel. OpenCV counts from
that pixel's centre, so half a pixel is taken off here and put back. The answer is JSON: for each method its seconds and where the points
come to lie in FIXED, null where it has no answer.

sift      SIFT with OpenCV's defaults, Lowe's ratio 0.85, homography by USAC_MAGSAC.
ecc       findTransformECC from identity, coarse to fine, affine, at the two finest sizes a homography (Evangelidis and Psarakis, IEEE
          Trans. Pattern Analysis and Machine Intelligence 30 (2008) 1858). It runs on gradient magnitudes, as one must where a
          light turns dark into bright.
sift+ecc  the same, from where sift ends, at the two finest sizes.
"""
import json
import sys
import time

import cv2
import numpy

RATIO = 0.85
MAGSAC = dict(method=cv2.USAC_MAGSAC, ransacReprojThreshold=3.0, maxIters=10000, confidence=0.999)
STEPS = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 200, 1e-6)
GAUSS = 5
COARSEST = 64


def read(path):
    image = cv2.imread(path, cv2.IMREAD_UNCHANGED)
    if image is None:
        sys.exit(f"{path} cannot be read")
    return image


def grey(image):
    """One 8-bit band, as SIFT wants it; 16 bits are scaled so that the 99.9th percentile is white."""
    band = image if image.ndim == 2 else cv2.cvtColor(image[..., :3], cv2.COLOR_BGR2GRAY)
    if band.dtype == numpy.uint8:
        return band
    white = max(1.0, float(numpy.percentile(band[::4, ::4], 99.9)))
    return cv2.convertScaleAbs(band, alpha=255 / white)


def scale_of_centres(s):
    """From pixel centres of an image to those of its copy at s times the size."""
    return numpy.array([[s, 0, (s - 1) / 2], [0, s, (s - 1) / 2], [0, 0, 1]])


def sift(image):
    return cv2.SIFT_create().detectAndCompute(image, None)


def match(fixed, moving):
    """Homography from moving to fixed by their places and words, or None."""
    (at_fixed, fixed_words), (at_moving, moving_words) = fixed, moving
    if fixed_words is None or moving_words is None or len(fixed_words) < 2:
        return None
    matches = cv2.BFMatcher().knnMatch(moving_words, fixed_words, k=2)
    good = [best for best, second in matches if best.distance < RATIO * second.distance]
    if len(good) < 4:
        return None
    here = numpy.float32([at_moving[m.queryIdx].pt for m in good])
    there = numpy.float32([at_fixed[m.trainIdx].pt for m in good])
    return usable(cv2.findHomography(here, there, **MAGSAC)[0])


def usable(homography):
    """The homography, unless it squeezes everything onto a line or a point."""
    return None if homography is None or abs(numpy.linalg.det(homography / numpy.abs(homography).max())) < 1e-12 else homography


def edges(image):
    smooth = cv2.GaussianBlur(image.astype(numpy.float32), (0, 0), 1)
    return cv2.magnitude(cv2.Sobel(smooth, cv2.CV_32F, 1, 0), cv2.Sobel(smooth, cv2.CV_32F, 0, 1))


def pyramid(image):
    sizes = [image]
    while min(sizes[-1].shape) >= 2 * COARSEST:
        sizes.append(cv2.resize(sizes[-1], None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA))
    return sizes


def ecc(fixed, moving, start=None):
    """Homography from moving to fixed, or None when not even the coarsest size converges."""
    sizes = list(zip(pyramid(fixed), pyramid(moving)))
    warp = numpy.eye(3) if start is None else numpy.linalg.inv(start)
    answered = start is not None
    for level in reversed(range(len(sizes) if start is None else min(2, len(sizes)))):
        to_level = scale_of_centres(0.5 ** level)
        here = to_level @ warp @ numpy.linalg.inv(to_level)
        projective = level < 2
        model, rows = (cv2.MOTION_HOMOGRAPHY, 3) if projective else (cv2.MOTION_AFFINE, 2)
        here = (here / here[2, 2])[:rows].astype(numpy.float32)
        try:
            here = cv2.findTransformECC(edges(sizes[level][0]), edges(sizes[level][1]), here, model, STEPS, None, GAUSS)[1]
        except cv2.error:
            continue
        full = here.astype(float) if projective else numpy.vstack([here, [0, 0, 1]]).astype(float)
        warp, answered = numpy.linalg.inv(to_level) @ full @ to_level, True
    return numpy.linalg.inv(warp) if answered and usable(warp) is not None else None


def read_points(path):
    return numpy.loadtxt(path, delimiter=",", skiprows=1, ndmin=2)


def mapped(homography, points):
    if homography is None:
        return None
    there = cv2.perspectiveTransform(points[:, None] - 0.5, homography)[:, 0] + 0.5
    return there.tolist() if numpy.isfinite(there).all() else None


def pair(fixed, moving, points, methods):
    fixed, moving, points = grey(read(fixed)), grey(read(moving)), read_points(points)
    answers = []
    for method in methods:
        begun = time.perf_counter()
        start = match(sift(fixed), sift(moving)) if method.startswith("sift") else None
        refined = method.endswith("ecc") and (start is not None or method == "ecc")
        homography = ecc(fixed, moving, start) if refined else start
        answers.append(dict(method=method, seconds=time.perf_counter() - begun, points=mapped(homography, points)))
    return answers


def large(fixed, moving, points, out):
    """From file to file, SIFT at full size: the moving photograph in its own depth, laid on the fixed one's pixels."""
    stages, begun = [], time.perf_counter()

    def done(name):
        nonlocal begun
        stages.append(dict(name=name, seconds=time.perf_counter() - begun))
        begun = time.perf_counter()

    fixed, moving = read(fixed), read(moving)
    fixed_grey, moving_grey = grey(fixed), grey(moving)
    done("read")
    found = sift(fixed_grey), sift(moving_grey)
    done("sift")
    homography = match(*found)
    done("match and magsac")
    if homography is not None:
        size = fixed.shape[1], fixed.shape[0]
        laid = cv2.warpPerspective(moving, homography, size, flags=cv2.INTER_CUBIC)
        done("warp")
        cv2.imwrite(out, laid, [cv2.IMWRITE_TIFF_COMPRESSION, 1])
        done("write")
    how = f"SIFT at full size, {len(found[0][0])} and {len(found[1][0])} places"
    return dict(how=how, stages=stages, points=mapped(homography, read_points(points)))


def main(arguments):
    work, rest = arguments[0], arguments[1:]
    if work == "version":
        print(cv2.__version__)
    elif work == "pair":
        print(json.dumps(pair(*rest[:3], rest[3:])))
    elif work == "large":
        print(json.dumps(large(*rest)))
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main(sys.argv[1:])
