"""Writes scenes.csv, fresh.csv or pure.csv: what an ideal detector would receive from paints under a tube, by Sherman's equation for primary fluorescence of flat layers, from xraylib. See SOURCE.md."""
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
LEAD, CHALK = {"Pb3C2O8H2": .88, OIL: .12}, {"CaCO3": .85, "C2H5NO": .15}
FRESH = {  # paint on a ground: shares by mass of the dry paint, g/cm2 of it, the ground
    "malachite on lead white": ({"Cu2CO5H2": .75, OIL: .25}, .008, LEAD),
    "verdigris on chalk": ({"Cu2C4H8O7": .5, OIL: .5}, .005, CHALK),
    "ultramarine on lead white": ({"Na7Al6Si6O24S3": .6, OIL: .4}, .006, LEAD),
    "ultramarine with zinc white on chalk": ({"Na7Al6Si6O24S3": .3, "ZnO": .45, OIL: .25}, .008, CHALK),
    "Prussian blue on lead white": ({"Fe7C18N18": .4, OIL: .6}, .004, LEAD),
    "Prussian blue on chalk": ({"Fe7C18N18": .3, "CaCO3": .2, OIL: .5}, .006, CHALK),
    "vermilion on chalk": ({"HgS": .8, OIL: .2}, .01, CHALK),
    "red lead on chalk": ({"Pb3O4": .88, OIL: .12}, .015, CHALK),
    "bone black on lead white": ({"Ca3P2O8": .6, "C": .15, OIL: .25}, .008, LEAD),
    "green earth on chalk": ({"KMgFeAlSi4O12H2": .7, OIL: .3}, .015, CHALK),
    "cadmium yellow with zinc white on chalk": ({"CdS": .35, "ZnO": .4, OIL: .25}, .012, CHALK),
    "cobalt violet on lead white": ({"Co3P2O8": .65, OIL: .35}, .008, LEAD),
    "manganese violet with barytes on chalk": ({"MnP2O7NH4": .4, "BaSO4": .35, OIL: .25}, .015, CHALK),
    "zinc yellow on lead white": ({"K2Zn4Cr4O17": .65, OIL: .35}, .008, LEAD),
    "barium yellow on chalk": ({"BaCrO4": .7, OIL: .3}, .012, CHALK),
    "bismuth white on chalk": ({"BiNO4H": .8, OIL: .2}, .012, CHALK),
    "antimony white with titanium white on chalk": ({"Sb2O3": .4, "TiO2": .4, OIL: .2}, .015, CHALK),
    "realgar on lead white": ({"As4S4": .7, OIL: .3}, .008, LEAD),
    "mosaic gold on chalk": ({"SnS2": .7, OIL: .3}, .01, CHALK),
    "silver leaf on bole": ({"Ag": 1.0}, .0005, {"Fe2O3": .2, "SiO2": .35, "Al2O3": .25, "CaSO4": .2}),
    "brass leaf on chalk": ({"Cu4Zn": 1.0}, .0008, CHALK),
    "Scheele's green on chalk": ({"CuAsHO3": .7, OIL: .3}, .01, CHALK),
    "cobalt green on lead white": ({"CoZn5O6": .7, OIL: .3}, .008, LEAD),
    "Egyptian blue on chalk": ({"CaCuSi4O10": .7, OIL: .3}, .012, CHALK),
    "chromium oxide green on lead white": ({"Cr2O3": .75, OIL: .25}, .008, LEAD),
    "cobalt yellow on lead white": ({"K3CoN6O12": .5, OIL: .5}, .008, LEAD),
    "nickel titanium yellow on chalk": ({"Ti17NiSb2O40": .75, OIL: .25}, .015, CHALK),
    "burnt sienna over umber on lead white": ({"Fe2O3": .3, "MnO2": .03, "SiO2": .2, "Al2O3": .12, "CaSO4": .05, OIL: .3}, .008, LEAD),
}
FRESH_TUBES = {"Rh": 50.0, "Mo": 40.0, "Ag": 35.0, "W": 50.0}
PURE = "Al Si P S Cl K Ca Ti Cr Mn Fe Co Ni Cu Zn As Se Sr Ag Cd Sn Sb Ba Au Hg Pb Bi".split()  # each a tenth of oil
PURE_TUBES = (("Rh", 45.0), ("W", 40.0))
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


def composition(formulas):
    parts = {}
    for formula, share in formulas.items():
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


def mass(parts):
    return lambda e: sum(w * x.CS_Total(z, e) for z, w in parts.items())


def scene(layers, anode, kv):
    """Layers from the top: composition and g/cm2, None for thick."""
    continuum, lines = tube(anode, kv)
    found, grid, above = {}, np.zeros(len(GRID)), []
    for formulas, thickness in layers:
        parts = composition(formulas)
        mu = mass(parts)
        def seen(ein, eout):  # integral over the layer's depth, with what lies above it
            both = lambda m: m(ein) / math.sin(IN) + m(eout) / math.sin(OUT)
            own = both(mu)
            return math.exp(-sum(both(m) * d for m, d in above)) * (1 if thickness is None else 1 - math.exp(-own * thickness)) / own
        for z, w in parts.items():
            for n in LINES:
                code, e = getattr(x, n), quiet(x.LineEnergy, z, getattr(x, n))
                if not 0.9 <= e < kv:
                    continue
                s = sum(p * w * quiet(x.CS_FluorLine_Kissel_Cascade, z, code, ein) * seen(ein, e) for ein, p in continuum + lines if ein > e)
                if s > 0:
                    key = (x.AtomicNumberToSymbol(z), n[:-5], e, None)
                    found[key] = found.get(key, 0) + s * efficiency(e)
        for k, (e, p) in enumerate(continuum + lines):
            ray = sum(w * x.DCS_Rayl(z, e, THETA) for z, w in parts.items()) * 4 * math.pi * p * seen(e, e) * efficiency(e)
            late = x.ComptonEnergy(e, THETA)
            com = sum(w * x.DCS_Compt(z, e, THETA) for z, w in parts.items()) * 4 * math.pi * p * seen(e, late) * efficiency(late) if late > 0.9 else 0
            if k >= len(continuum):
                for key, s in ((("tube", "Rayleigh", e, k), ray), (("tube", "Compton", late, k), com)):
                    found[key] = found.get(key, 0) + s
            else:
                grid[int(round((e - 0.1) / 0.05))] += ray
                grid[max(0, int(round((late - 0.1) / 0.05)))] += com
        above.append((mu, thickness))
    return [(*key[:3], s) for key, s in found.items()], grid


def chosen(name):
    """Name, layers, anode and kV of each scene of a file."""
    if name == "scenes":
        return [(paint, [(PAINTS[paint], None)], list(TUBES)[k % 3], list(TUBES.values())[k % 3]) for k, paint in enumerate(PAINTS)]
    if name == "fresh":
        return [(paint, [(top, thickness), (ground, None)], list(FRESH_TUBES)[k % 4], list(FRESH_TUBES.values())[k % 4]) for k, (paint, (top, thickness, ground)) in enumerate(FRESH.items())]
    return [(symbol, [({symbol: .1, OIL: .9}, None)], anode, kv) for symbol in PURE for anode, kv in PURE_TUBES] + [("scatter", [({"CaCO3": .4, OIL: .6}, None)], anode, kv) for anode, kv in PURE_TUBES]


out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow(["paint", "anode", "kv", "element", "line", "kev", "counts"])
for paint, layers, anode, kv in chosen(sys.argv[1]):
    found, grid = scene(layers, anode, kv)
    if sys.argv[1] == "pure":  # an element's lines by themselves, and once for each tube what it scatters
        found = [f for f in found if f[0] == ("tube" if paint == "scatter" else paint)]
        grid *= paint == "scatter"
    total = sum(f[3] for f in found) + grid.sum()
    for element, line, e, s in found:
        if s / total > (1e-4 if sys.argv[1] == "pure" else 2e-6):
            out.writerow([paint, anode, kv, element, line, f"{e:.4f}", f"{s / total:.3e}"])
    # The continuum on a coarser grid, a quarter of a keV.
    for i in range(0, len(GRID), 5):
        s = grid[i:i + 5].sum()
        if s / total > 1e-7:
            out.writerow([paint, anode, kv, "continuum", "", f"{GRID[i:i + 5].mean():.3f}", f"{s / total:.3e}"])
