"""Writes xray-lines.csv: characteristic X-ray lines from 0.9 to 100 keV of the elements 11 (Na) to 92 (U), from xraylib. See SOURCE.md."""
import csv
import math
import sys

import xraylib as x

def transitions(vacancy, lower):
    """Lines that fill a vacancy, those that xraylib gives together (L3O45) as such."""
    names = [n[:-5] for n in dir(x) if n.endswith("_LINE") and n.startswith(vacancy) and n[len(vacancy):len(vacancy) + 1] in tuple(lower)]
    return [n for n in names if n[len(vacancy) + 1:].isdigit()]


FAMILIES = [  # group, shell, lines, vacancy
    ("Ka", "K", transitions("K", "L"), x.K_SHELL), ("Kb", "K", transitions("K", "MNOP"), x.K_SHELL),
    ("L3", "L", transitions("L3", "MNOP"), x.L3_SHELL), ("L2", "L", transitions("L2", "MNOP"), x.L2_SHELL), ("L1", "L", transitions("L1", "MNOP"), x.L1_SHELL),
    ("M", "M", [n for s in "12345" for n in transitions("M" + s, "NOP")], x.M5_SHELL),
]
NAMES = {"KL3": "Ka1", "KL2": "Ka2", "KL1": "Ka3", "KM3": "Kb1", "KM2": "Kb3", "KN3": "Kb2", "KN2": "Kb2", "KM5": "Kb5", "KM4": "Kb5", "L3M5": "La1", "L3M4": "La2", "L3N5": "Lb2", "L3N4": "Lb15", "L3M1": "Ll",
         "L3N1": "Lb6", "L3O4": "Lb5", "L3O5": "Lb5", "L3O45": "Lb5", "L3O1": "Lb7", "L2M4": "Lb1", "L2N4": "Lg1", "L2M1": "Ln", "L2N1": "Lg5", "L2O4": "Lg6", "L2O1": "Lg8", "L1M3": "Lb3", "L1M2": "Lb4", "L1M4": "Lb10",
         "L1M5": "Lb9", "L1N3": "Lg3", "L1N2": "Lg2", "L1O3": "Lg4", "L1O2": "Lg4", "M5N7": "Ma1", "M5N6": "Ma2", "M4N6": "Mb", "M3N5": "Mg", "M5N3": "Mz", "M4N2": "Mz"}
EXCITING = {"K": x.K_SHELL, "L": x.L1_SHELL, "M": x.M1_SHELL}


def quiet(f, *a):
    try:
        return f(*a)
    except ValueError:
        return 0.0


def escape(kev):
    """Share of a line's counts that turn up 1.74 keV lower, silicon, normal incidence. Reed and Ware, J. Phys. E 5 (1972) 582."""
    if kev <= x.EdgeEnergy(14, x.K_SHELL):
        return 0.0
    mu_in, mu_out = x.CS_Photo(14, kev), x.CS_Total(14, x.LineEnergy(14, x.KL3_LINE))
    e = 0.5 * x.FluorYield(14, x.K_SHELL) * (1 - 1 / x.JumpFactor(14, x.K_SHELL)) * (1 - mu_out / mu_in * math.log(1 + mu_in / mu_out))
    return e / (1 - e)


out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["z", "element", "group", "line", "kev", "relative", "edge_kev", "si_escape", "si_absorbed"])
for z in range(11, 93):
    for shell in "KLM":
        energy = 1.5 * quiet(x.EdgeEnergy, z, EXCITING[shell])
        if energy <= 0:
            continue
        rows = []
        for group, of, lines, vacancy in FAMILIES:
            if of != shell:
                continue
            edge = quiet(x.EdgeEnergy, z, vacancy)  # of M lines the lowest
            for line in lines:
                code = getattr(x, line + "_LINE")
                kev, strength = quiet(x.LineEnergy, z, code), quiet(x.CS_FluorLine_Kissel_Cascade, z, code, energy)
                if 0.9 <= kev <= 100 and strength > 0 and edge > 0:
                    rows.append((group, NAMES.get(line, line), kev, strength, edge))
        strongest = max((r[3] for r in rows), default=0)
        for group, name, kev, strength, edge in rows:
            if strength >= 0.002 * strongest:
                out.writerow([z, x.AtomicNumberToSymbol(z), group, name, f"{kev:.4f}", f"{strength / strongest:.4f}", f"{edge:.4f}", f"{escape(kev):.5f}",
                              f"{1 - math.exp(-0.045 * x.ElementDensity(14) * x.CS_Photo(14, kev)):.4f}"])
