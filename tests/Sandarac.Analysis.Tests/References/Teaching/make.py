"""Makes forest.csv, judged.csv, moments.csv and wilson.csv beside this file."""
import numpy
import scipy.ndimage
import scipy.stats
from sklearn.ensemble import ExtraTreesClassifier

random = numpy.random.default_rng(7)


def forest():
    labels = random.integers(0, 3, 240)
    features = (random.normal(size=(240, 5)) + labels[:, None] * [1, 0.5, 0, -0.5, 0]).astype(numpy.float32)
    trees = ExtraTreesClassifier(7, min_samples_leaf=3, max_depth=9, random_state=1).fit(features, labels)
    with open("forest.csv", "w") as file:
        file.write("tree,feature,threshold,left,right,share0,share1,share2\n")
        for number, tree in enumerate(e.tree_ for e in trees.estimators_):
            for node in range(tree.node_count):
                shares = tree.value[node, 0] / tree.value[node, 0].sum()
                file.write(f"{number},{tree.feature[node]},{float(tree.threshold[node])!r},{tree.children_left[node]},{tree.children_right[node]},"
                           + ",".join(repr(float(s)) for s in shares) + "\n")
    unseen = random.normal(size=(150, 5), scale=1.5).astype(numpy.float32)
    numpy.savetxt("judged.csv", numpy.c_[unseen, trees.predict_proba(unseen)], delimiter=",", fmt="%.9g", header="f0,f1,f2,f3,f4,p0,p1,p2", comments="")


def moments():
    """Normalised convolution with scipy's Gaussian, standard deviation 1.4 pixels cut at 5; a hole without data."""
    band = random.random((18, 24)).astype(numpy.float32)
    band[5:8, 9:12] = numpy.nan
    there = numpy.isfinite(band)

    def blur(values):
        return scipy.ndimage.gaussian_filter(values, 1.4, mode="constant", radius=5)

    values, weight = numpy.where(there, band, 0).astype(float), blur(there.astype(float))
    mean = blur(values) / weight
    deviation = numpy.sqrt(blur(values**2) / weight - mean**2)
    rows, columns = numpy.gradient(mean)
    table = numpy.c_[band.ravel(), mean.ravel(), deviation.ravel(), numpy.hypot(rows, columns).ravel()]
    numpy.savetxt("moments.csv", table, delimiter=",", fmt="%.9g", header="value,mean,deviation,steepness", comments="")


def wilson():
    with open("wilson.csv", "w") as file:
        file.write("right,cases,lower,upper\n")
        for right, cases in ((10, 10), (9, 10), (0, 5), (81, 263), (1, 29)):
            ends = scipy.stats.binomtest(right, cases).proportion_ci(0.95, "wilson")
            file.write(f"{right},{cases},{ends.low!r},{ends.high!r}\n")


forest()
moments()
wilson()
