// A profile: what the height is along a line. Pure figures and words; the plot and the panel are elsewhere.
import { t } from './language';
import type { Place } from './plane';
import { lengthOf } from './shapes';
import { fixed } from './units';

/** What the server reads along a line. */
export interface Profile {
  stepMm: number;
  lengthMm: number;
  breadthMm: number;
  values: (number | null)[];
  peakToValley: number | null;
  unit: string;
}

/** A line on the plane and the breadth of the band across which is averaged, mm. */
export interface ProfileLine {
  line: readonly Place[];
  breadth: number;
}

/** Broadest band that the server reads, mm. */
export const broadest = 50;
export const firstBreadth = 0.5;

/** Round numbers from `low` to `high`, at most `most` of them and their distance 1, 2 or 5 times a power of ten. */
export function ticks(low: number, high: number, most: number): number[] {
  const rough = (high - low) / Math.max(1, most);
  if (!(rough > 0)) return [low];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((s) => s * power).find((s) => s >= rough * (1 - 1e-9))!;
  const first = Math.ceil(low / step - 1e-9);
  return Array.from({ length: Math.floor(high / step + 1e-9) - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** Least and greatest of the values; null when there are none. */
export function rangeOfValues(values: readonly (number | null)[]): { low: number; high: number; lowAt: number; highAt: number } | null {
  let range: { low: number; high: number; lowAt: number; highAt: number } | null = null;
  values.forEach((v, i) => {
    if (v === null) return;
    range ??= { low: v, high: v, lowAt: i, highAt: i };
    if (v < range.low) Object.assign(range, { low: v, lowAt: i });
    if (v > range.high) Object.assign(range, { high: v, highAt: i });
  });
  return range;
}

/** The values less the straight line that fits them best in least squares: a tilt of the whole is taken away. */
export function levelled(values: readonly (number | null)[]): (number | null)[] {
  const known = values.flatMap((v, i) => (v === null ? [] : [[i, v] as const]));
  const mean = (of: (p: readonly [number, number]) => number): number => known.reduce((sum, p) => sum + of(p), 0) / known.length;
  const [mi, mv] = [mean((p) => p[0]), mean((p) => p[1])];
  const spread = known.reduce((sum, p) => sum + (p[0] - mi) ** 2, 0);
  const slope = spread > 0 ? known.reduce((sum, p) => sum + (p[0] - mi) * (p[1] - mv), 0) / spread : 0;
  return values.map((v, i) => (v === null ? null : v - mv - slope * (i - mi)));
}

/** The line of a plot, in pieces between gaps, each place a number and a value. Where there are more values than can be seen, of each bin the least and the greatest. */
export function pieces(values: readonly (number | null)[], bins: number): [index: number, value: number][][] {
  const size = Math.max(1, Math.ceil(values.length / bins));
  const found: [number, number][][] = [];
  let piece: [number, number][] = [];
  for (let from = 0; from < values.length; from += size) {
    const bin = values.slice(from, from + size);
    const range = rangeOfValues(bin);
    // A gap inside a bin is finer than what can be seen.
    if (range === null) {
      if (piece.length > 0) found.push(piece);
      piece = [];
    } else for (const at of [...new Set([range.lowAt, range.highAt])].sort((a, b) => a - b)) piece.push([from + at, bin[at]!]);
  }
  return piece.length > 0 ? [...found, piece] : found;
}

/** The place on the plane so many mm along a line. */
export function placeAlong(line: readonly Place[], s: number): Place {
  let rest = s;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const length = lengthOf([a, b]);
    if (rest <= length || i === line.length - 1) {
      const t = length > 0 ? Math.min(1, rest / length) : 0;
      return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    }
    rest -= length;
  }
  return line[0]!;
}

/** Digits by which a height is worth writing, given how far heights spread. */
const digitsFor = (spread: number): number => (spread < 10 ? 2 : spread < 100 ? 1 : 0);

/** A height in words. */
export const heightAt = (value: number | null, spread: number): string => (value === null ? t('no data') : `${fixed(value, digitsFor(spread))} µm`);

/** "Peak to valley 83 µm, over 42.0 mm": peak and valley of what has data. */
export function summary(profile: Pick<Profile, 'lengthMm' | 'values' | 'breadthMm'>): string {
  const range = rangeOfValues(profile.values);
  const over = `${fixed(profile.lengthMm, 1)} mm`;
  if (range === null) return t('No data along these {0}.', over);
  const gaps = profile.values.filter((v) => v === null).length / profile.values.length;
  return t('Peak to valley {0} over {1}{2}.', heightAt(range.high - range.low, range.high - range.low), over, gaps > 0 ? t(', {0} % of it without data', fixed(100 * gaps, 0)) : '');
}

/** The profile as a table: length along the line, place from the upper left corner, height. */
export function csvOf({ stepMm, values }: Profile, line: readonly Place[]): string {
  const rows = values.map((v, k) => {
    const [x, y] = placeAlong(line, k * stepMm);
    return [(k * stepMm).toFixed(4), x.toFixed(4), y.toFixed(4), v === null ? '' : v.toFixed(4)].join(',');
  });
  return ['s_mm,x_mm,y_mm,height_um', ...rows, ''].join('\r\n');
}

/** A line in the link: breadth, then places. */
export const writeProfile = ({ line, breadth }: ProfileLine): string => [breadth, ...line.flat()].map((n) => Number(n.toFixed(3))).join('_');

/** Reads one from the link; null when it is none. */
export function readProfile(text: string): ProfileLine | null {
  const [breadth = NaN, ...rest] = text.split('_').map((part) => (part === '' ? NaN : Number(part)));
  if (!(breadth >= 0 && breadth <= broadest) || rest.length < 4 || rest.length % 2 !== 0 || !rest.every(Number.isFinite)) return null;
  const line = Array.from({ length: rest.length / 2 }, (_, i): Place => [rest[2 * i]!, rest[2 * i + 1]!]);
  return lengthOf(line) > 0 ? { line, breadth } : null;
}
