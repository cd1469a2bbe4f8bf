# Homographies of point pairs by OpenCV (H: least squares of the distances) and scikit-image (S: normalised DLT), with the points: /usr/bin/python3 make.py > homographies.csv
import cv2
import numpy as np
from skimage.transform import ProjectiveTransform

random = np.random.default_rng(20240506)
print("set,fx,fy,tx,ty")
found = []
for s, n in enumerate((4, 12, 60)):
    f = random.uniform(0, 6000, (n, 2)).round(3) if n > 4 else np.array([[312.5, 280.25], [5611.0, 300.5], [5580.75, 4100.0], [290.0, 4155.5]])
    h = np.array([[0.071, 0.0013, -21.0], [-0.0009, 0.0702, -18.5], [1.1e-6, -2.3e-6, 1]])
    q = np.c_[f, np.ones(n)] @ h.T
    t = (q[:, :2] / q[:, 2:] + (random.normal(0, 0.05, (n, 2)) if n > 4 else 0)).round(6)
    dlt = ProjectiveTransform()
    dlt.estimate(f, t)
    found += [("H", s, cv2.findHomography(f, t, 0)[0]), ("S", s, dlt.params / dlt.params[2, 2])]
    for (fx, fy), (tx, ty) in zip(f, t):
        print(f"{s},{fx},{fy},{tx},{ty}")
for by, s, m in found:
    print(by + "," + str(s) + "," + ",".join(repr(float(v)) for v in m.ravel()))
