"""Writes rfft2.csv and irfft2.csv: what SciPy gives for planes and spectra that the tests make by the same formula. Run: /usr/bin/python3 make.py"""
import numpy as np
import scipy.fft


def plane(width, height):
    y, x = np.mgrid[0:height, 0:width].astype(np.int64)
    values = ((x * 7919 + y * 104729 + x * y * 31 + 17) % 1009) / 1009 - 0.5
    return values.astype(np.float32).astype(np.float64)


SIZES = [(1, 1), (2, 1), (1, 2), (5, 1), (1, 9), (8, 8), (12, 10), (7, 9), (15, 14), (13, 11), (17, 16), (30, 22),
         (64, 49), (101, 103), (360, 250), (1009, 12), (1024, 1024)]
with open("rfft2.csv", "w") as out:
    out.write("width,height,u,v,re,im\n")
    for width, height in SIZES:
        spectrum = scipy.fft.rfft2(plane(width, height))
        step = max(1, spectrum.size // 40)
        for i in range(0, spectrum.size, step):
            v, u = divmod(i, spectrum.shape[1])
            value = spectrum[v, u]
            out.write(f"{width},{height},{u},{v},{value.real!r},{value.imag!r}\n")

# Half-spectra whose values belong to no real plane: re is the plane's formula, im the same with the rows upside down.
with open("irfft2.csv", "w") as out:
    out.write("width,height,x,y,value\n")
    for width, height in [(12, 10), (7, 9), (1, 6), (2, 3), (26, 11)]:
        re = plane(width // 2 + 1, height)
        values = scipy.fft.irfft2(re + 1j * re[::-1], s=(height, width))
        for i in range(0, values.size, max(1, values.size // 40)):
            y, x = divmod(i, width)
            out.write(f"{width},{height},{x},{y},{values[y, x]!r}\n")
