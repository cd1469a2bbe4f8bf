// How often values occur, from a layer's smallest level, which is one tile or few.
import type { Api, Layer } from './api';
import { loadTile, tilesAt } from './layers';

export interface Counts {
  bins: number[];
}

/** Counts the values of all bands between two ends; what lies outside is left out. */
export function count(samples: ArrayLike<number>, use: (index: number) => boolean, [from, to]: readonly [number, number], bins = 128): Counts {
  const counts = new Array<number>(bins).fill(0);
  for (let i = 0; i < samples.length; i++) {
    if (!use(i)) continue;
    const bin = Math.floor(((samples[i]! - from) / (to - from)) * bins);
    if (bin >= 0 && bin < bins) counts[bin]!++;
  }
  return { bins: counts };
}

/** The counts of a layer, from the upper left tile of its smallest level. */
export async function histogram(api: Api, layer: Layer, range: readonly [number, number]): Promise<Counts> {
  const level = layer.levels - 1;
  const { columns, rows } = tilesAt(layer, level);
  const data = await loadTile(api, layer, level, columns >> 1, rows >> 1, false);
  const inside = insideTile(layer, level, columns >> 1, rows >> 1);
  if (data instanceof Float32Array) {
    const stride = data.length / layer.tileSize ** 2;
    const bands = layer.bands.length;
    const covered = (i: number): boolean => stride === bands || (i % stride < bands && data[i - (i % stride) + bands] === 1);
    return count(data, (i) => inside(Math.floor(i / stride)) && covered(i), range);
  }
  const context = new OffscreenCanvas(data.width, data.height).getContext('2d')!;
  context.drawImage(data, 0, 0);
  return count(context.getImageData(0, 0, data.width, data.height).data, (i) => i % 4 < 3, range);
}

/** Whether a pixel of a padded tile belongs to the picture. */
function insideTile(layer: Layer, level: number, col: number, row: number): (pixel: number) => boolean {
  const width = Math.ceil(layer.width / 2 ** level) - col * layer.tileSize;
  const height = Math.ceil(layer.height / 2 ** level) - row * layer.tileSize;
  return (pixel) => pixel % layer.tileSize < width && Math.floor(pixel / layer.tileSize) < height;
}
