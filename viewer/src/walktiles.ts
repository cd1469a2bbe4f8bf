// A pane over the tiles of an exported folder: plain files, named as IIIF's Image API 3.0 names them.
import OlMap from 'ol/Map';
import type View from 'ol/View';
import TileLayer from 'ol/layer/Tile';
import DataTileSource from 'ol/source/DataTile';
import TileGrid from 'ol/tilegrid/TileGrid';
import { planeProjection } from './layers';
import { toMap, toMapExtent } from './plane';
import type { WalkPane } from './walkstage';

/** The canvas that all pictures share. */
export interface Canvas {
  width: number;
  height: number;
  mmPerPixel: number;
  tileSize: number;
  scales: number;
  /** Folder of the pictures. */
  folder: string;
}

/** Where a tile lies, below its picture's folder: region in pixels of the canvas, size, no rotation. Partial tiles round up (Image API 3.0, implementation notes, 3). */
export function tileAddress({ width, height, tileSize }: Pick<Canvas, 'width' | 'height' | 'tileSize'>, scale: number, column: number, row: number): string {
  const factor = 2 ** scale;
  const [x, y] = [column * tileSize * factor, row * tileSize * factor];
  const [w, h] = [Math.min(tileSize * factor, width - x), Math.min(tileSize * factor, height - y)];
  const region = x === 0 && y === 0 && w === width && h === height ? 'full' : `${x},${y},${w},${h}`;
  return `${region}/${Math.ceil(w / factor)},${Math.ceil(h / factor)}/0/default.jpg`;
}

/** The grid of tiles; its zoom z is `scales - 1 - scale`. */
function gridOf(canvas: Canvas): TileGrid {
  return new TileGrid({
    extent: extentOf(canvas), origin: toMap([0, 0]), tileSize: canvas.tileSize,
    resolutions: Array.from({ length: canvas.scales }, (_, z) => canvas.mmPerPixel * 2 ** (canvas.scales - 1 - z)),
  });
}

const extentOf = ({ width, height, mmPerPixel }: Canvas): [number, number, number, number] => toMapExtent([0, 0, width * mmPerPixel, height * mmPerPixel]);

function sourceOf(canvas: Canvas, key: string): DataTileSource {
  return new DataTileSource({
    projection: planeProjection, tileGrid: gridOf(canvas), tileSize: canvas.tileSize, interpolate: true, wrapX: false, transition: 0,
    loader: async (z, x, y) => {
      const image = new Image();
      image.src = `${canvas.folder}/${key}/${tileAddress(canvas, canvas.scales - 1 - z, x, y)}`;
      await image.decode();
      return image.naturalWidth === canvas.tileSize && image.naturalHeight === canvas.tileSize ? image : padded(image, canvas.tileSize);
    },
  });
}

/** A tile at the right or lower edge on a whole one, so that it is not stretched. */
function padded(image: HTMLImageElement, size: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = size;
  canvas.getContext('2d')!.drawImage(image, 0, 0);
  return canvas;
}

/** Shows one picture, and one blended over it. */
export class TilePane implements WalkPane {
  readonly map: OlMap;
  private readonly layers = new Map<string, TileLayer>();

  constructor(element: HTMLElement, view: View, private readonly canvas: Canvas) {
    this.map = new OlMap({ target: element, view, controls: [], interactions: [] });
  }

  show(key: string | null, over: string | null): void {
    const wanted = [key, over === null ? null : `${over} over`].filter((k): k is string => k !== null);
    for (const name of wanted) if (!this.layers.has(name)) this.add(name);
    for (const [name, layer] of this.layers) layer.setVisible(wanted.includes(name));
  }

  private add(name: string): void {
    const over = name.endsWith(' over');
    const layer = new TileLayer({
      source: sourceOf(this.canvas, over ? name.slice(0, -' over'.length) : name) as never, extent: extentOf(this.canvas), className: over ? 'tiles shade' : 'tiles', zIndex: over ? 1 : 0, preload: 2,
    });
    this.layers.set(name, layer);
    this.map.addLayer(layer);
  }
}
