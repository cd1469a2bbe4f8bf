// The probability of the class that is shown, laid over the picture as a hatch.
import ImageLayer from 'ol/layer/Image';
import ImageCanvasSource from 'ol/source/ImageCanvas';
import type { Taught } from './api';
import { paintHatch } from './hatching';
import { planeProjection } from './layers';
import { type Box, fromMapExtent } from './plane';

/** A probability for each pixel of a view; NaN without data. */
export interface Raster {
  view: Box;
  mmPerPixel: number;
  width: number;
  height: number;
  values: Float32Array;
}

/** Areas are proposed where a class is more probable than this, unless the reading is told otherwise: a line follows it. */
const proposed = 0.7;

/** The probability at a place, mm, between the middles of pixels; NaN beside them or without data. */
export function probabilityAt({ view, mmPerPixel, width, height, values }: Raster, x: number, y: number): number {
  const [u, v] = [(x - view[0]) / mmPerPixel - 0.5, (y - view[1]) / mmPerPixel - 0.5];
  if (u < -0.5 || v < -0.5 || u > width - 0.5 || v > height - 0.5) return NaN;
  const clamp = (t: number, most: number): number => Math.min(Math.max(t, 0), most);
  const [left, top] = [Math.floor(clamp(u, width - 1)), Math.floor(clamp(v, height - 1))];
  const [right, bottom] = [Math.min(left + 1, width - 1), Math.min(top + 1, height - 1)];
  const [a, b] = [clamp(u, width - 1) - left, clamp(v, height - 1) - top];
  const row = (r: number): number => values[r * width + left]! * (1 - a) + values[r * width + right]! * a;
  return row(top) * (1 - b) + row(bottom) * b;
}

/** Decodes the server's picture of one class. */
export async function rasterOf({ view, mmPerPixel }: Pick<Taught, 'view' | 'mmPerPixel'>, base64: string): Promise<Raster> {
  const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
  const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }), { colorSpaceConversion: 'none', premultiplyAlpha: 'none' });
  const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
  context.drawImage(bitmap, 0, 0);
  const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
  const values = Float32Array.from({ length: bitmap.width * bitmap.height }, (_, i) => (data[4 * i + 3] === 0 ? NaN : data[4 * i]! / 255));
  return { view, mmPerPixel, width: bitmap.width, height: bitmap.height, values };
}

export class ProbabilityLayer {
  private readonly source = new ImageCanvasSource({
    projection: planeProjection, ratio: 1, canvasFunction: (extent, _, pixelRatio, size) => this.paint(fromMapExtent(extent), pixelRatio, Math.round(size[0]!), Math.round(size[1]!)),
  });
  private shown: { raster: Raster; look: { hatch: number; colour: string } } | null = null;

  /** Over the top pane, and over the other one when they lie side by side; under zones and strokes. */
  readonly layers = [0, 1].map(() => new ImageLayer({ source: this.source, zIndex: -1, visible: false, opacity: 0.85 })) as [ImageLayer<ImageCanvasSource>, ImageLayer<ImageCanvasSource>];

  /** Shows a class, or none. */
  show(raster: Raster | null, look: { hatch: number; colour: string }): void {
    this.shown = raster && { raster, look };
    this.source.changed();
  }

  setVisible(visible: boolean): void {
    this.layers.forEach((l) => l.setVisible(visible));
  }

  setOpacity(opacity: number): void {
    this.layers.forEach((l) => l.setOpacity(opacity));
  }

  private paint([left, top, right]: Box, pixelRatio: number, width: number, height: number): HTMLCanvasElement {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [Math.max(1, width), Math.max(1, height)];
    if (!this.shown) return canvas;
    const { raster, look } = this.shown;
    const context = canvas.getContext('2d')!;
    const image = context.createImageData(canvas.width, canvas.height);
    const step = (right - left) / canvas.width;
    paintHatch(image, look, pixelRatio, (x, y) => probabilityAt(raster, left + x * step, top + y * step), proposed);
    context.putImageData(image, 0, 0);
    return canvas;
  }
}
