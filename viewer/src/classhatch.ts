// Maps of classes: their values are no measures, so each class has a pattern of its own instead of a grey. Patterns grow denser with the class and can be told apart in grey print.
import type { Layer } from './api';
import { el } from './dom';

/** Pixels from stroke to stroke. */
const period = 8;

const patterns: readonly ((x: number, y: number) => boolean)[] = [
  () => false,
  (x, y) => x % period < 2 && y % period < 2,
  (x, y) => (x + y) % period < 2,
  (x, y) => (x + y) % period < 3 || (x - y + 512 * period) % period < 3,
];

/** The classes of a layer that is shown by patterns; null for measures, or more classes than there are patterns. */
export const classesOf = (layer: Pick<Layer, 'classes'> | undefined): readonly string[] | null =>
  layer?.classes && layer.classes.length <= patterns.length ? layer.classes : null;

/** Whether a class has ink at a pixel; smaller copies of a map hold means, of which the nearest class counts. */
export const hasInk = (value: number, x: number, y: number): boolean => patterns[Math.min(patterns.length - 1, Math.max(0, Math.round(value)))]!(x, y);

/** Puts the patterns in the place of a tile's values (value, coverage): `low`, shown black, is ink, `high` is the ground. */
export function inked(tile: Float32Array, tileSize: number, { low, high }: Pick<Layer, 'low' | 'high'>): Float32Array {
  // A map of one class has no window of its own.
  const ground = high > low ? high : low + 1;
  for (let p = 0; p < tileSize * tileSize; p++) tile[2 * p] = hasInk(tile[2 * p]!, p % tileSize, Math.floor(p / tileSize)) ? low : ground;
  return tile;
}

/** The patterns with their names. */
export const classKey = (classes: readonly string[]): HTMLElement =>
  el('span', { class: 'classkey' }, ...classes.map((name, value) => el('span', {}, swatch(value), name)));

function swatch(value: number): HTMLElement {
  const canvas = el('canvas', { width: 24, height: 16, 'aria-hidden': 'true' });
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.fillStyle = '#000000';
  for (let y = 0; y < canvas.height; y++) for (let x = 0; x < canvas.width; x++) if (hasInk(value, x, y)) context.fillRect(x, y, 1, 1);
  return canvas;
}
