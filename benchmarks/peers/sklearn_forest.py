"""scikit-learn's extremely randomised trees on the same samples and pixels, as the peer of `taught-zones`.

    sklearn_forest.py version
    sklearn_forest.py judge SAMPLES.f32 LABELS.i32 PIXELS.f32 FEATURES TREES

Files of raw little-endian numbers, row by row, FEATURES numbers a row. The answer is JSON: seconds of the processor to learn and to judge all
pixels with predict_proba, one core (the median of three), nodes of the forest and its mean depth. Float32 in, which is what the trees compare.
"""
import json
import statistics
import sys
import time

import numpy
import sklearn
from sklearn.ensemble import ExtraTreesClassifier


def judge(samples, labels, pixels, features, trees):
    known = numpy.fromfile(samples, numpy.float32).reshape(-1, int(features))
    classes = numpy.fromfile(labels, numpy.int32)
    unknown = numpy.fromfile(pixels, numpy.float32).reshape(-1, int(features))
    forest = ExtraTreesClassifier(int(trees), min_samples_leaf=3, max_depth=16, random_state=0, n_jobs=1)
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


if sys.argv[1] == "version":
    print(sklearn.__version__)
else:
    print(json.dumps(judge(*sys.argv[2:])))
