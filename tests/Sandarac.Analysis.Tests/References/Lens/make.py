"""Draws three photographs of a chessboard through a known lens and calibrates with OpenCV. Run with OpenCV's and NumPy's Python; writes board1.png ... and opencv.csv."""
import cv2
import numpy as np

W, H, S = 900, 700, 4
columns, rows, side = 13, 9, 30.0
K = np.array([[1400.0, 0, 451.5], [0, 1400.0, 347.5], [0, 0, 1]])
DISTORTION = np.array([-0.16, 0.09, 0, 0, 0])
grid = np.zeros((columns * rows, 3), np.float32)
grid[:, :2] = np.mgrid[0:columns, 0:rows].T.reshape(-1, 2) * side
# S x S samples a pixel; the distortion is undone by OpenCV itself.
offsets = (np.arange(S) + 0.5) / S - 0.5
noise = np.random.default_rng(3)
objects, images = [], []
for n, (rx, ry, rz, z) in enumerate([(0.02, -0.03, 0.01, 690.0), (0.25, 0.1, 0.05, 760.0), (-0.1, -0.3, -0.04, 760.0)], 1):
    R, _ = cv2.Rodrigues(np.array([rx, ry, rz]))
    t = R @ np.array([-(columns - 1) / 2 * side, -(rows - 1) / 2 * side, 0]) + np.array([0, 0, z])
    M = np.linalg.inv(np.column_stack([R[:, 0], R[:, 1], t]))
    picture = np.zeros((H, W))
    for oy in offsets:
        for ox in offsets:
            u, v = np.meshgrid(np.arange(W) + ox, np.arange(H) + oy)
            ideal = cv2.undistortPoints(np.stack([u, v], -1).reshape(-1, 1, 2), K, DISTORTION, None, None, None)[:, 0]
            p = np.column_stack([ideal, np.ones(len(ideal))]) @ M.T
            x, y = p[:, 0] / p[:, 2] / side, p[:, 1] / p[:, 2] / side
            inside = (x > -1) & (x < columns) & (y > -1) & (y < rows)
            dark = (np.floor(x) + np.floor(y)) % 2 == 0
            picture += np.where(inside & dark, 30.0, 210.0).reshape(H, W)
    picture = cv2.GaussianBlur(picture / S**2, (0, 0), 0.7) + noise.normal(0, 1.5, (H, W))
    picture = np.clip(picture, 0, 255).round().astype(np.uint8)
    cv2.imwrite(f"board{n}.png", picture)
    found, corners = cv2.findChessboardCornersSB(picture, (columns, rows), flags=cv2.CALIB_CB_ACCURACY)
    assert found
    objects.append(grid)
    images.append(corners)
guess = np.array([[1400.0, 0, W / 2 - 0.5], [0, 1400.0, H / 2 - 0.5], [0, 0, 1]])
flags = cv2.CALIB_ZERO_TANGENT_DIST | cv2.CALIB_FIX_K3 | cv2.CALIB_FIX_ASPECT_RATIO | cv2.CALIB_USE_INTRINSIC_GUESS
rms, M, d, _, _ = cv2.calibrateCamera(objects, images, (W, H), guess, None, flags=flags)
# From focal lengths to half diagonals, and from OpenCV's pixel centres at whole numbers to ours at halves.
q = np.hypot(W, H) / 2 / M[0, 0]
q0 = np.hypot(W, H) / 2 / 1400
with open("opencv.csv", "w") as out:
    out.write("what,k1,k2,centre_x,centre_y,rms,focal\n")
    out.write(f"truth,{DISTORTION[0] * q0**2:.8f},{DISTORTION[1] * q0**4:.8f},{K[0, 2] + 0.5},{K[1, 2] + 0.5},0,1400\n")
    out.write(f"opencv {cv2.__version__},{d.ravel()[0] * q**2:.8f},{d.ravel()[1] * q**4:.8f},{M[0, 2] + 0.5:.4f},{M[1, 2] + 0.5:.4f},{rms:.5f},{M[0, 0]:.3f}\n")
with open("corners.csv", "w") as out:
    out.write("frame,x,y\n")
    for n, c in enumerate(images, 1):
        for x, y in c.reshape(-1, 2):
            out.write(f"{n},{x + 0.5:.4f},{y + 0.5:.4f}\n")
