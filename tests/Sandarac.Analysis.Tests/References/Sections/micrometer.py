"""Draws micrometer.png, a stage micrometer of known step and turn, and writes to micrometer.csv what numpy and scipy make of it."""
import cv2
import numpy as np
from scipy.signal import find_peaks
W, H, STEP, TURN, FINE = 640, 420, 17.3, 21.0, 6
rng = np.random.default_rng(8)
picture, a = np.zeros((H, W)), np.radians(TURN)
y, x = np.mgrid[0:H, 0:W]
for i in range(FINE * FINE):
    X, Y = x + (i % FINE + .5) / FINE - W / 2, y + (i // FINE + .5) / FINE - H / 2
    u, v = (X * np.cos(a) + Y * np.sin(a)) / STEP + 50.37, (Y * np.cos(a) - X * np.sin(a)) / STEP
    n = np.rint(u)
    picture += (abs(u - n) < .11) & (v > -3) & (v < np.where(n % 10 == 0, 5, np.where(n % 5 == 0, 3.5, 2)))
picture = .8 - .6 * cv2.GaussianBlur(picture / FINE ** 2, (0, 0), 1.2)
picture *= 1 - .3 * ((x - W / 2) ** 2 + (y - H / 2) ** 2) / ((W / 2) ** 2 + (H / 2) ** 2)
picture += rng.normal(0, .03, picture.shape)
image = np.clip(picture * 255, 0, 255).astype(np.uint8)
cv2.imwrite('micrometer.png', image)
centred = image - image.mean()
padded = 8192
power = abs(np.fft.rfft2(centred * np.outer(np.hanning(H), np.hanning(W)), (padded, padded)))
power[:80, :80] = power[-80:, :80] = 0
j, i = np.unravel_index(power.argmax(), power.shape)
fx, fy = i / padded, (j if j < padded // 2 else j - padded) / padded
matrix = cv2.getRotationMatrix2D((W / 2 - .5, H / 2 - .5), np.degrees(np.arctan2(fy, fx)), 1)
upright = cv2.warpAffine(image.astype(np.float32), matrix, (W, H), flags=cv2.INTER_CUBIC)
profile = -upright[H // 2 - 40:H // 2 + 30, 60:-60].mean(0)
peaks, _ = find_peaks(profile, prominence=10, distance=12)
fine = [p + .5 * (profile[p - 1] - profile[p + 1]) / (profile[p - 1] - 2 * profile[p] + profile[p + 1]) for p in peaks]
step = np.polyfit(np.arange(len(fine)), fine, 1)[0]
with open('micrometer.csv', 'w') as file:
    print('method,step,turn', file=file)
    print(f'drawn,{STEP},{TURN}', file=file)
    print(f'numpy.fft,{1 / np.hypot(fx, fy):.4f},{np.degrees(np.arctan2(fy, fx)):.3f}', file=file)
    print(f'scipy.signal.find_peaks,{step:.4f},', file=file)
