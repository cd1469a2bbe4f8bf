"""Writes scenes.csv: what an ideal detector would receive from paints under a tube, by Sherman's equation for primary fluorescence of a thick flat sample, from xraylib. See SOURCE.md."""
import csv
import math
import sys

import numpy as np
import xraylib as x

OIL = "C57H98O6"
PAINTS = {  # shares by mass of the dry paint
    "lead white": {"Pb3C2O8H2": .85, OIL: .15},
    "vermilion in lead white": {"HgS": .45, "Pb3C2O8H2": .4, OIL: .15},
    "emerald green": {"Cu4As6O16C4H6": .75, OIL: .25},
    "emerald green with lead white": {"Cu4As6O16C4H6": .3, "Pb3C2O8H2": .5, OIL: .2},
    "little arsenic in lead white": {"As2S3": .004, "Pb3C2O8H2": .846, OIL: .15},
    "titanium white": {"TiO2": .75, OIL: .25},
    "barytes": {"BaSO4": .8, OIL: .2},
    "titanium white with barytes and zinc white": {"TiO2": .3, "BaSO4": .3, "ZnO": .2, OIL: .2},
    "lithopone": {"BaSO4": .55, "ZnS": .25, OIL: .2},
    "smalt": {"SiO2": .5, "K2O": .12, "CoO": .06, "Fe2O3": .02, "As2O3": .03, "NiO": .01, "CaO": .03, OIL: .23},
    "smalt in lead white": {"SiO2": .25, "K2O": .06, "CoO": .03, "Fe2O3": .01, "Pb3C2O8H2": .45, OIL: .2},
    "earth": {"Fe2O3": .35, "SiO2": .25, "Al2O3": .12, "K2O": .01, "CaCO3": .05, "TiO2": .004, OIL: .216},
    "earth with cobalt blue": {"Fe2O3": .25, "CoAl2O4": .25, "SiO2": .2, OIL: .3},
    "earth with little cobalt": {"Fe2O3": .5, "CoAl2O4": .006, "SiO2": .2, OIL: .294},
    "umber": {"Fe2O3": .35, "MnO2": .12, "SiO2": .15, "CaCO3": .1, OIL: .28},
    "chrome yellow with barytes": {"PbCrO4": .4, "BaSO4": .35, OIL: .25},
    "viridian": {"Cr2O5H4": .6, "CaCO3": .1, OIL: .3},
    "cadmium red with barytes": {"CdS": .4, "CdSe": .1, "BaSO4": .3, OIL: .2},
    "lead-tin yellow": {"Pb2SnO4": .8, OIL: .2},
    "Naples yellow": {"Pb2Sb2O7": .5, "Pb3C2O8H2": .3, OIL: .2},
    "cobalt blue with zinc white": {"CoAl2O4": .35, "ZnO": .4, OIL: .25},
    "cerulean blue": {"Co2SnO4": .6, "CaSO4": .15, OIL: .25},
    "azurite with chalk": {"Cu3C2O8H2": .5, "CaCO3": .3, OIL: .2},
    "gesso": {"CaSO4": .8, OIL: .2},
    "chalk with a little earth": {"CaCO3": .85, "Fe2O3": .01, OIL: .14},
    "strontium yellow with zinc white": {"SrCrO4": .4, "ZnO": .35, OIL: .25},
    "gold leaf on bole": {"Au": .3, "Fe2O3": .15, "SiO2": .25, "Al2O3": .15, "CaSO4": .15},
    "orpiment": {"As2S3": .7, OIL: .3},
}
TUBES = {"Rh": 40.0, "Ag": 50.0, "W": 45.0}
LINES = [n for n in dir(x) if n.endswith("_LINE") and n[:2] in ("KL", "KM", "KN", "L1", "L2", "L3", "M3", "M4", "M5") and n.count("_") == 1 and n not in ("KL_LINE", "KM_LINE", "KN_LINE")
         and not any(n.startswith(p) for p in ("L1L", "L2L", "M3M", "M4M")) and n[3:4].isdigit() or n in ("KL2_LINE", "KL3_LINE", "KM2_LINE", "KM3_LINE", "KN2_LINE", "KN3_LINE")]
IN, OUT, THETA = math.radians(60), math.radians(45), math.radians(105)
AIR_CM, BE_CM, SI_CM = 1.0, 0.0008, 0.05
GRID = np.arange(0.1, 60, 0.05)


def quiet(f, *a):
    try:
        return f(*a)
    except ValueError:
        return 0.0


def efficiency(e):
    air = math.exp(-AIR_CM * 0.0012 * (0.755 * x.CS_Total(7, e) + 0.232 * x.CS_Total(8, e) + 0.013 * x.CS_Total(18, e)))
    return air * math.exp(-BE_CM * 1.85 * x.CS_Total(4, e)) * (1 - math.exp(-SI_CM * 2.33 * x.CS_Photo(14, e)))


def composition(paint):
    parts = {}
    for formula, share in PAINTS[paint].items():
        c = x.CompoundParser(formula)
        for z, w in zip(c["Elements"], c["massFractions"]):
            parts[z] = parts.get(z, 0) + share * w
    total = sum(parts.values())
    return {z: w / total for z, w in parts.items()}


def tube(anode, kv):
    """Kramers' continuum through 0.1 mm of Be and 1 mm of Al over 4 (a thin filter), with the anode's K or L lines as half of the continuum's photons."""
    z = x.SymbolToAtomicNumber(anode)
    def through(e): return math.exp(-0.0125 * 1.85 * x.CS_Total(4, e) - 0.002 * 2.7 * x.CS_Total(13, e))
    photons = [(e, (kv / e - 1) * through(e)) for e in GRID if 1 < e < kv]
    total = sum(p for _, p in photons)
    lines = []
    for n in LINES:
        code, e = getattr(x, n), quiet(x.LineEnergy, z, getattr(x, n))
        s = quiet(x.CS_FluorLine_Kissel_Cascade, z, code, kv * 0.8) if 1 < e < kv else 0
        if s > 0:
            lines.append((e, s * through(e)))
    share = 0.5 * total / sum(s for _, s in lines)
    return photons, [(e, s * share) for e, s in lines]


def scene(paint, anode, kv):
    parts = composition(paint)
    mu = lambda e: sum(w * x.CS_Total(z, e) for z, w in parts.items())
    continuum, lines = tube(anode, kv)
    light = continuum + lines
    into = [(e, p, mu(e) / math.sin(IN)) for e, p in light]
    found = []
    for z, w in parts.items():
        for n in LINES:
            code, e = getattr(x, n), quiet(x.LineEnergy, z, getattr(x, n))
            if not 0.9 <= e < kv:
                continue
            out = mu(e) / math.sin(OUT)
            s = sum(p * w * quiet(x.CS_FluorLine_Kissel_Cascade, z, code, ein) / (m + out) for ein, p, m in into if ein > e)
            if s > 0:
                found.append((x.AtomicNumberToSymbol(z), n[:-5], e, s * efficiency(e)))
    grid = np.zeros(len(GRID))
    for e, p, m in into:
        ray = sum(w * x.DCS_Rayl(z, e, THETA) for z, w in parts.items()) * 4 * math.pi * p / (m + mu(e) / math.sin(OUT)) * efficiency(e)
        late = x.ComptonEnergy(e, THETA)
        com = sum(w * x.DCS_Compt(z, e, THETA) for z, w in parts.items()) * 4 * math.pi * p / (m + mu(late) / math.sin(OUT)) * efficiency(late) if late > 0.9 else 0
        if (e, p) in lines:
            found.append(("tube", "Rayleigh", e, ray))
            found.append(("tube", "Compton", late, com))
        else:
            grid[int(round((e - 0.1) / 0.05))] += ray
            grid[max(0, int(round((late - 0.1) / 0.05)))] += com
    return found, grid


out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["paint", "anode", "kv", "element", "line", "kev", "counts"])
for k, paint in enumerate(PAINTS):
    anode = list(TUBES)[k % 3]
    kv = TUBES[anode]
    found, grid = scene(paint, anode, kv)
    total = sum(f[3] for f in found) + grid.sum()
    for element, line, e, s in found:
        if s / total > 2e-6:
            out.writerow([paint, anode, kv, element, line, f"{e:.4f}", f"{s / total:.3e}"])
    # The continuum on a coarser grid, a quarter of a keV.
    for i in range(0, len(GRID), 5):
        s = grid[i:i + 5].sum()
        if s / total > 1e-7:
            out.writerow([paint, anode, kv, "continuum", "", f"{GRID[i:i + 5].mean():.3f}", f"{s / total:.3e}"])
