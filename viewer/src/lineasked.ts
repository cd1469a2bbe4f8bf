// A line for a reading, as the address bar and the reading's form have it.
import type { Layer } from './api';
import type { Place } from './plane';
import { lengthOf } from './shapes';

/** The photograph, the reading, and the whole query: what else was entered in the form travels along. */
export interface LineAsked {
  photograph: string;
  reading: string;
  query: URLSearchParams;
}

/** Names of the form's fields for the ends of a line, pixels of the photograph from its upper left corner. */
const fields = ['parameter-from-x', 'parameter-from-y', 'parameter-to-x', 'parameter-to-y'] as const;

/** Name of the field for the size of a pixel, mm. */
const scale = 'parameter-mm-per-pixel';

/** What the address asks for; null when it asks for no line. */
export function readLineAsked(query: URLSearchParams): LineAsked | null {
  const [photograph, reading] = [query.get('line'), query.get('reading')];
  return photograph && reading ? { photograph, reading, query } : null;
}

/** The line of the query; along the middle of the photograph, a tenth in from its frame, where it has none that lies on it. */
export function lineOf(query: URLSearchParams, { width, height }: Pick<Layer, 'width' | 'height'>): [Place, Place] {
  const [x1, y1, x2, y2] = fields.map((f) => Number.parseFloat(query.get(f) ?? '')) as [number, number, number, number];
  const given: [Place, Place] = [[x1, y1], [x2, y2]];
  if (given.every(([x, y]) => x >= 0 && y >= 0 && x <= width && y <= height)) return given;
  return width >= height ? [[0.1 * width, height / 2], [0.9 * width, height / 2]] : [[width / 2, 0.1 * height], [width / 2, 0.9 * height]];
}

/** The query with a line, within the photograph and to a hundredth of a pixel. */
export function withLine(query: URLSearchParams, points: readonly Place[], { width, height }: Pick<Layer, 'width' | 'height'>): URLSearchParams {
  const result = new URLSearchParams(query);
  points.flatMap(([x, y]) => [Math.min(Math.max(0, x), width), Math.min(Math.max(0, y), height)]).forEach((v, i) => result.set(fields[i]!, String(Number(v.toFixed(2)))));
  return result;
}

/** Millimetres a pixel that the query states; null when it leaves them to the photograph. */
export const scaleOf = (query: URLSearchParams): number | null => (Number(query.get(scale)) > 0 ? Number(query.get(scale)) : null);

/** The query with the size of a pixel, from a line that is so many mm long. */
export function withScale(query: URLSearchParams, points: readonly Place[], mm: number): URLSearchParams {
  const result = new URLSearchParams(query);
  result.set(scale, String(Number((mm / lengthOf(points)).toPrecision(6))));
  return result;
}

/** The reading's form with that line. */
export function formLink(query: URLSearchParams): string {
  const result = new URLSearchParams(query);
  result.delete('line');
  return `readings?${result}`;
}
