// Probability as an engraver shows shade: strokes of a class's own hatch grow broader where the class is more probable. The picture is seen between
// them, and the hatches can be told apart without colour.
import { kindOf } from './kinds';

/** How far a screen place lies from the nearest stroke of a hatch, 0 on it to 0.5 half-way between two, for places in periods. */
type Hatch = (x: number, y: number) => number;

const toNearest = (t: number): number => Math.abs(t - Math.round(t));
const zigzag = (t: number): number => Math.abs(2 * toNearest(t / 2) - 0.5);
const hatches: readonly Hatch[] = [
  (x, y) => toNearest((x + y) * Math.SQRT1_2),
  (_, y) => toNearest(y),
  (x, y) => Math.hypot(toNearest(x), toNearest(y)) * Math.SQRT1_2,
  (x, y) => toNearest((x - y) * Math.SQRT1_2),
  (x) => toNearest(x),
  (x, y) => toNearest(y - zigzag(x)),
  (x, y) => Math.min(toNearest(x / 1.6), toNearest(y / 1.6)) * 1.6,
  (x, y) => Math.min(toNearest(((x + y) * Math.SQRT1_2) / 1.6), toNearest(((x - y) * Math.SQRT1_2) / 1.6)) * 1.6,
];

/** Okabe and Ito's colours for all eyes, as the kinds of zones have them; those that no kind of these hatches has come last. */
const colours = ['#0072b2', '#56b4e9', '#e69f00', '#d55e00', '#009e73', '#cc79a7', '#000000', '#8c6d00'];

/** Hatches that belong to a kind of zone: a class of that name looks like its zones. */
const ofKinds: Record<string, number> = { retouching: 0, 'varnish-gap': 1, abrasion: 2 };

/** A hatch and a colour for each class: known kinds keep theirs, the rest take what is left in their order. */
export function appearances(classes: readonly string[]): { hatch: number; colour: string }[] {
  const own = classes.map((name) => ofKinds[kindOf(name.trim().toLowerCase().replace(/\s+/g, '-')).id]);
  const free = [3, 4, 5, 7, 6, 0, 1, 2].filter((h) => !own.includes(h));
  return own.map((h) => h ?? free.shift() ?? 0).map((hatch) => ({ hatch, colour: colours[hatch]! }));
}

/** Screen pixels from stroke to stroke. */
export const period = 10;

/** Breadth of a stroke, screen pixels, where a class is as probable as all others together, and where it is certain. */
const breadths = [1.2, 3.2] as const;

/** White beside a stroke, screen pixels, so that it shows on dark paint too. */
const casing = 0.7;

/** Below this nothing is drawn; up to one half a hair-line in every second place, so that doubt is seen as doubt. */
const faintest = 0.25;

/** What lies at a screen place: ink, its white casing, or nothing. */
export function strokeAt(hatch: number, probability: number, x: number, y: number): 'ink' | 'casing' | null {
  if (!(probability >= faintest)) return null;
  if (probability < 0.5) return hatches[hatch]!(x / period / 2, y / period / 2) * period * 2 <= breadths[0] / 2 ? 'ink' : null;
  const off = hatches[hatch]!(x / period, y / period) * period - (breadths[0] + (breadths[1] - breadths[0]) * (2 * probability - 1)) / 2;
  return off <= 0 ? 'ink' : off <= casing ? 'casing' : null;
}

/** Paints a hatch. `probabilityAt` is asked for each pixel; NaN draws nothing. A line follows where the probability passes `outline`. */
export function paintHatch(image: ImageData, look: { hatch: number; colour: string }, pixelRatio: number, probabilityAt: (x: number, y: number) => number, outline: number | null): void {
  const { width, height, data } = image;
  const [red, green, blue] = [1, 3, 5].map((i) => parseInt(look.colour.slice(i, i + 2), 16)) as [number, number, number];
  const put = (i: number, r: number, g: number, b: number, alpha = 255): void => {
    [data[i], data[i + 1], data[i + 2], data[i + 3]] = [r, g, b, alpha];
  };
  let above = new Float32Array(width);
  for (let y = 0; y < height; y++) {
    const row = new Float32Array(width);
    for (let x = 0; x < width; x++) {
      const p = (row[x] = probabilityAt(x + 0.5, y + 0.5));
      const i = (y * width + x) * 4;
      const at = strokeAt(look.hatch, p, x / pixelRatio, y / pixelRatio);
      if (at === 'ink') put(i, red, green, blue);
      else if (at === 'casing') put(i, 255, 255, 255);
      const passes = (q: number): boolean => outline !== null && p >= outline !== q >= outline;
      if ((x > 0 && passes(row[x - 1]!)) || (y > 0 && passes(above[x]!))) put(i, 0, 0, 0, 200);
    }
    above = row;
  }
}
