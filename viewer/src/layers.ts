// From one of the server's layers to a WebGL tile layer on the plane. 16-bit and float tiles reach the graphics card as floats, so that the
// contrast window works on the photograph's own values.
import DataTileSource from 'ol/source/DataTile';
import WebGLTileLayer, { type Style } from 'ol/layer/WebGLTile';
import TileGrid from 'ol/tilegrid/TileGrid';
import Projection from 'ol/proj/Projection';
import type { Api, Layer } from './api';
import { classesOf, inked } from './classhatch';
import { type Box, toMap, toMapExtent } from './plane';
import type { Look } from './state';

/** The plane as OpenLayers sees it; 'pixels' because its unit is nothing on the Earth. */
export const planeProjection = new Projection({ code: 'sandarac:plane', units: 'pixels' });

/** A tile's values as the graphics card gets them: bands interleaved, with a coverage band last when a value may be missing. */
export type TileData = Float32Array | ImageBitmap;

/** Columns and rows of tiles at a level; level 0 is full resolution, each further level halves, rounding up. */
export function tilesAt(layer: Pick<Layer, 'width' | 'height' | 'tileSize'>, level: number): { columns: number; rows: number } {
  const across = (length: number): number => Math.max(1, Math.ceil(Math.ceil(length / 2 ** level) / layer.tileSize));
  return { columns: across(layer.width), rows: across(layer.height) };
}

/** Where a layer lies, mirrored about the upright line through `axis` if asked. */
export const boxOf = (layer: Pick<Layer, 'extentMm'>, mirrorAxis: number | null): Box => {
  const [left, top, right, bottom] = layer.extentMm;
  return mirrorAxis === null ? layer.extentMm : [2 * mirrorAxis - right, top, 2 * mirrorAxis - left, bottom];
};

/** The OpenLayers grid; its zoom z is `levels - 1 - level`. A mirrored grid hangs from the right edge instead of the left. */
export function gridOf(layer: Layer, mirrorAxis: number | null): TileGrid {
  const box = boxOf(layer, mirrorAxis);
  const levels = Array.from({ length: layer.levels }, (_, z) => layer.levels - 1 - z);
  const unit = (layer.extentMm[2] - layer.extentMm[0]) / layer.width;
  return new TileGrid({
    extent: toMapExtent(box),
    tileSize: layer.tileSize,
    resolutions: levels.map((level) => unit * 2 ** level),
    origins: levels.map((level) => {
      const span = tilesAt(layer, level).columns * layer.tileSize * unit * 2 ** level;
      return toMap([mirrorAxis === null ? box[0] : box[2] - span, box[1]]);
    }),
  });
}

/** Decodes raw little-endian samples; floats gain a coverage band that is 0 where any value is missing (NaN). */
export function decode(buffer: ArrayBuffer, layer: Pick<Layer, 'format' | 'bands' | 'tileSize'>): Float32Array {
  const pixels = layer.tileSize * layer.tileSize;
  const bands = layer.bands.length;
  const bytes = layer.format === 'u16' ? 2 : 4;
  if (buffer.byteLength !== pixels * bands * bytes)
    throw new RangeError(`A tile holds ${buffer.byteLength} bytes instead of ${pixels * bands * bytes}.`);
  if (layer.format === 'u16') return Float32Array.from(new Uint16Array(buffer));
  const samples = new Float32Array(buffer);
  const covered = new Float32Array(pixels * (bands + 1));
  for (let p = 0, from = 0, to = 0; p < pixels; p++) {
    let whole = 1;
    for (let b = 0; b < bands; b++, from++, to++) {
      const value = samples[from]!;
      if (Number.isFinite(value)) covered[to] = value;
      else whole = 0;
    }
    covered[to++] = whole;
  }
  return covered;
}

/** Turns each row of an interleaved tile round, in place. */
export function mirrorRows(data: Float32Array, tileSize: number): Float32Array {
  const bands = data.length / (tileSize * tileSize);
  for (let row = 0; row < tileSize; row++)
    for (let left = 0, right = tileSize - 1; left < right; left++, right--)
      for (let b = 0; b < bands; b++) {
        const i = (row * tileSize + left) * bands + b;
        const j = (row * tileSize + right) * bands + b;
        [data[i], data[j]] = [data[j]!, data[i]!];
      }
  return data;
}

/** Fetches and decodes one tile. */
export async function loadTile(api: Api, layer: Layer, level: number, col: number, row: number, mirror: boolean, signal?: AbortSignal): Promise<TileData> {
  const response = await api.tile(layer, level, col, row, signal);
  if (layer.format !== 'u8') {
    const data = decode(await response.arrayBuffer(), layer);
    return mirror ? mirrorRows(data, layer.tileSize) : data;
  }
  const bitmap = await createImageBitmap(await response.blob(), { colorSpaceConversion: 'none', premultiplyAlpha: 'none' });
  if (!mirror) return bitmap;
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext('2d')!;
  context.setTransform(-1, 0, 0, 1, bitmap.width, 0);
  context.drawImage(bitmap, 0, 0);
  return canvas.transferToImageBitmap();
}

/** What the tile shader needs to know of a look: window in the texture's own numbers, and which band goes where. */
export function styleVariables(layer: Layer, look: Look, asInfrared = false): Record<string, number> {
  const scale = layer.format === 'u8' ? 1 / 255 : 1;
  const [low, high] = asInfrared ? [look.irLow, look.irHigh] : [look.low, look.high];
  const band = look.show.startsWith('band:') ? Number(look.show.slice(5)) : 0;
  return {
    low: low * scale,
    // A window of no width would divide by zero; the smallest step is far below one count.
    span: Math.max(high - low, Math.abs(high) * 1e-6, 1e-9) * scale,
    gamma: 1 / look.gamma,
    single: look.show.startsWith('band:') || layer.bands.length < 3 ? 1 : 0,
    grey: look.show === 'grey' ? 1 : 0,
    band: band + 1,
    invert: look.invert ? 1 : 0,
    red: asInfrared || !look.show.startsWith('ir:') ? 1 : 0,
    others: asInfrared ? 0 : 1,
    shift: look.show.startsWith('ir:') && !asInfrared ? 1 : 0,
  };
}

type Expression = (string | number | Expression)[] | number;
const v = (name: string): Expression => ['var', name];

/** The shader: picks bands, applies the window, gamma and inversion; written once and steered by variables, so changing a look recompiles nothing. */
function styleOf(layer: Layer, variables: Record<string, number>): Style {
  const bands = layer.bands.length;
  const picked: Expression = bands === 1 ? ['band', 1]
    : ['case', ...Array.from({ length: bands }, (_, i): Expression[] => [['==', v('band'), i + 1], ['band', i + 1]]).flat(), ['band', 1]];
  const rgb: [Expression, Expression, Expression] = bands >= 3 ? [['band', 1], ['band', 2], ['band', 3]] : [picked, picked, picked];
  // Rec. 709 luma weights on the encoded values: a plain grey picture for looking, not a measurement.
  const luma: Expression = ['+', ['*', 0.2126, rgb[0]], ['+', ['*', 0.7152, rgb[1]], ['*', 0.0722, rgb[2]]]];
  const windowed = (value: Expression): Expression => ['^', ['clamp', ['/', ['-', value, v('low')], v('span')], 0, 1], v('gamma')];
  const inverted = (value: Expression): Expression => ['abs', ['-', v('invert'), value]];
  const shown = (own: Expression): Expression =>
    inverted(windowed(['case', ['==', v('single'), 1], picked, ['==', v('grey'), 1], luma, own]));
  // In false colour the visible layer gives its red to green and its green to blue; the infrared layer above it gives red alone.
  const red = shown(rgb[0]);
  const green = shown(['case', ['==', v('shift'), 1], rgb[0], rgb[1]]);
  const blue = shown(['case', ['==', v('shift'), 1], rgb[1], rgb[2]]);
  const coverage: Expression = layer.format === 'u8' ? ['band', 4] : layer.format === 'u16' ? 1 : ['case', ['>', ['band', bands + 1], 0.999], 1, 0];
  return {
    color: ['array', ['*', v('red'), red], ['*', v('others'), green], ['*', v('others'), blue], coverage],
    variables,
  } as Style;
}

/** A tile layer of one of the server's layers. */
export class Picture extends WebGLTileLayer {
  readonly source: DataTileSource;

  constructor(readonly layer: Layer, api: Api, look: Look, mirrorAxis: number | null, readonly asInfrared: boolean, onMissing: (layer: Layer) => void) {
    const source = new DataTileSource({
      projection: planeProjection,
      tileGrid: gridOf(layer, mirrorAxis),
      tileSize: layer.tileSize,
      bandCount: layer.format === 'u8' ? 4 : layer.bands.length + (layer.format === 'f32' ? 1 : 0),
      interpolate: true,
      wrapX: false,
      transition: 0,
      loader: (z, x, y, { signal }) => {
        const level = layer.levels - 1 - z;
        const column = mirrorAxis === null ? x : tilesAt(layer, level).columns - 1 - x;
        const tile = loadTile(api, layer, level, column, y, mirrorAxis !== null, signal);
        return (classesOf(layer) ? tile.then((t) => inked(t as Float32Array, layer.tileSize, layer)) : tile).catch((error: unknown) => {
          if (!signal?.aborted) onMissing(layer);
          throw error;
        });
      },
    });
    super({
      // Layers of one class share a canvas; the infrared layer needs its own to be laid over the visible one by channel.
      className: asInfrared ? 'tiles infrared' : 'tiles',
      source: source as never,
      extent: toMapExtent(boxOf(layer, mirrorAxis)),
      style: styleOf(layer, styleVariables(layer, look, asInfrared)),
      cacheSize: 160,
      preload: 1,
    });
    this.source = source;
  }

  /** Shows the same tiles in another way. */
  applyLook(look: Look): void {
    this.updateStyleVariables(styleVariables(this.layer, look, this.asInfrared));
  }
}
