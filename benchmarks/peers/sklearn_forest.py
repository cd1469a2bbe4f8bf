"""scikit-learn's extremely randomised trees on the same samples and pixels, as the peer of `taught-zones`.

    sklearn_forest.py version
    sklearn_forest.py judge SAMPLES.f32 LABELS.i32 PIXELS.f32 FEATURES TREES
    sklearn_forest.py probabilities SAMPLES.f32 LABELS.i32 PIXELS.f32 FEATURES TREES WEIGHTS.f32 OUT.f32

Files of raw little-endian numbers, row by row, FEATURES numbers a row. The answer of `judge` is JSON: seconds of the processor to learn and to judge all
pixels with predict_proba, one core (the median of three), nodes of the forest and its mean depth. Float32 in, which is what the trees compare.
`probabilities` learns with a weight for each sample and writes each pixel's probabilities of the classes, pixel by pixel.
"""
import json
import statistics
import sys
import time

import numpy
import sklearn
from sklearn.ensemble import ExtraTreesClassifier


def prepared(samples, labels, pixels, features, trees):
    known = numpy.fromfile(samples, numpy.float32).reshape(-1, int(features))
    unknown = numpy.fromfile(pixels, numpy.float32).reshape(-1, int(features))
    forest = ExtraTreesClassifier(int(trees), min_samples_leaf=3, max_depth=16, random_state=0, n_jobs=1)
    return known, numpy.fromfile(labels, numpy.int32), unknown, forest


def judge(*given):
    known, classes, unknown, forest = prepared(*given)
    start = time.process_time()
    forest.fit(known, classes)
    learning = time.process_time() - start
    times = []
    for _ in range(3):
        start = time.process_time()
        forest.predict_proba(unknown)
        times.append(time.process_time() - start)
    grown = [e.tree_ for e in forest.estimators_]
    return {"learning": learning, "judging": statistics.median(times), "nodes": sum(t.node_count for t in grown), "depth": statistics.mean(t.max_depth for t in grown)}


def probabilities(samples, labels, pixels, features, trees, weights, out):
    known, classes, unknown, forest = prepared(samples, labels, pixels, features, trees)
    forest.fit(known, classes, numpy.fromfile(weights, numpy.float32))
    forest.predict_proba(unknown).astype(numpy.float32).tofile(out)


if sys.argv[1] == "version":
    print(sklearn.__version__)
elif sys.argv[1] == "probabilities":
    probabilities(*sys.argv[2:])
else:
    print(json.dumps(judge(*sys.argv[2:])))
