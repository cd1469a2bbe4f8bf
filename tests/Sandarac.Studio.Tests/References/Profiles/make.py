# Values along a line of three corners, averaged over a band of 0.5 mm, by scipy's bilinear interpolation.
import json
import numpy as np
import scipy
from scipy.ndimage import map_coordinates

width, height, mm, breadth = 300, 200, 0.1, 0.5
y, x = np.mgrid[0:height, 0:width]
z = np.float32(40 * np.sin(2 * np.pi * x / 13.7) * np.cos(2 * np.pi * y / 9.1)).astype(float)
z[80:92, 150:170] = np.nan
line = np.array([[3.0, 4.0], [22.5, 11.0], [28.0, 2.5]])
lengths = np.hypot(*np.diff(line, axis=0).T)
length = lengths.sum()
steps = int(np.ceil(length / mm))
across = round(breadth / mm)
values = []
for k in range(steps + 1):
    s = length * k / steps
    i = 0 if s <= lengths[0] else 1
    unit = (line[i + 1] - line[i]) / lengths[i]
    at = line[i] + (s - (0 if i == 0 else lengths[0])) * unit
    off = breadth * ((np.arange(across) + 0.5) / across - 0.5)
    band = (at[:, None] + np.outer([-unit[1], unit[0]], off)) / mm - 0.5
    v = map_coordinates(z, [band[1], band[0]], order=1, mode='nearest')
    known = v[np.isfinite(v)]
    values.append(None if 2 * len(known) < across else known.mean())
print(json.dumps({'scipy': scipy.__version__, 'length': length, 'values': values}))
