"""Draws four bands with a hole and analyses them with scikit-learn, NumPy and SciPy. Run with their Python; writes pixels.csv and witness.csv beside itself."""
import numpy as np
import scipy.linalg
from sklearn.decomposition import PCA

W, H = 40, 30
dice = np.random.default_rng(7)
y, x = np.mgrid[0:H, 0:W]
scenes = np.stack([np.sin(x / 6) * np.cos(y / 5), (x + 2 * y) / 50, np.exp(-((x - 25) ** 2 + (y - 9) ** 2) / 40)], -1)
mixing = np.array([[9000, 7000, 8000, 2000], [4000, 6000, 1000, 300], [-3000, 2000, 5000, 900]])
noise = dice.normal(size=(H, W, 4)) @ np.array([[400, 200, 0, 0], [0, 300, 0, 0], [0, 0, 900, 100], [0, 0, 0, 150]])
counts = np.round(30000 + scenes @ mixing + noise)
counts[5:9, 10:16, 1] = np.nan
counts[29, 39, 3] = np.nan
np.savetxt("pixels.csv", counts.reshape(-1, 4), "%g", ",")

# Values are 65536ths: exact in float32.
values = counts / 65536
valid = np.isfinite(values).all(-1)
data = values[valid]
right = (values[:, :-1] - values[:, 1:])[valid[:, :-1] & valid[:, 1:]]
below = (values[:-1] - values[1:])[valid[:-1] & valid[1:]]
steps = np.concatenate([right, below])
N = steps.T @ steps / (2 * len(steps))
C = np.cov(data.T)
d = data.std(0, ddof=1)


def whitening(matrix):
    values, vectors = np.linalg.eigh(matrix)
    return vectors @ np.diag(values**-0.5) @ vectors.T


with open("witness.csv", "w") as out:
    def say(name, rows):
        for row in np.atleast_2d(rows):
            print(name, *(repr(float(v)) for v in row), sep=",", file=out)
    covariance = PCA(svd_solver="full").fit(data)
    say("covariance-variance", covariance.explained_variance_)
    say("covariance-weight", covariance.components_)
    correlation = PCA(svd_solver="full").fit((data - data.mean(0)) / d)
    say("correlation-variance", correlation.explained_variance_)
    say("correlation-weight", correlation.components_ / d)
    fractions, vectors = scipy.linalg.eigh(N, C)
    say("noise-fraction", fractions)
    say("noise-weight", vectors.T)
    say("noise", np.sqrt(np.diag(N)))
    say("loading", [[np.corrcoef(data[:, b], data @ v)[0, 1] for b in range(4)] for v in vectors.T])
    # Bands by output bands, of the first three bands, over the pixels where those three have data.
    three = values[..., :3][np.isfinite(values[..., :3]).all(-1)]
    s = np.diag(1 / three.std(0, ddof=1))
    say("stretch-covariance", whitening(np.cov(three.T)))
    say("stretch-correlation", s @ whitening(np.corrcoef(three.T)))
