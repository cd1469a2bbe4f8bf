import colorsys
import numpy as np
from skimage.color import rgb2lab

rng = np.random.default_rng(7)
encoded = np.vstack([rng.uniform(0, 1, (40, 3)), np.eye(3), 1 - np.eye(3), np.full((1, 3), 0.5), np.ones((1, 3))])
linear = np.where(encoded <= 0.04045, encoded / 12.92, ((encoded + 0.055) / 1.055) ** 2.4)
lab = rgb2lab(encoded)
print("red,green,blue,L,a,b,encoded red,encoded green,encoded blue,hue")
for e, l, c in zip(encoded, linear, lab):
    print(",".join(f"{v:.10g}" for v in [*l, *c, *e, 360 * colorsys.rgb_to_hsv(*e)[0]]))
