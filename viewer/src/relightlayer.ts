// The measured surface under a lamp: normals and albedo of a run, shaded by the graphics card at the tiles' full resolution.
import DataTileSource from 'ol/source/DataTile';
import WebGLTileLayer, { type Style } from 'ol/layer/WebGLTile';
import type { Api, Layer } from './api';
import { gridOf, loadTile, planeProjection } from './layers';
import { toMapExtent } from './plane';
import { joinTiles, type Relight, relightColour, relightVariables } from './relightlamp';

export class RelightLayer extends WebGLTileLayer {
  private readonly tiles: DataTileSource;

  /** Normals and albedo of one run: they lie on one grid. */
  constructor(normals: Layer, private readonly albedo: Layer, api: Api, relight: Relight, onMissing: (layer: Layer) => void) {
    const tiles = new DataTileSource({
      projection: planeProjection, tileGrid: gridOf(normals, null), tileSize: normals.tileSize, bandCount: 4, interpolate: true, wrapX: false, transition: 0,
      loader: async (z, x, y, { signal }) => {
        const level = normals.levels - 1 - z;
        try {
          const [n, a] = await Promise.all([normals, albedo].map((layer) => loadTile(api, layer, level, x, y, false, signal)));
          return joinTiles(n as Float32Array, a as Float32Array, normals.tileSize);
        } catch (error) {
          if (!signal?.aborted) onMissing(normals);
          throw error;
        }
      },
    });
    super({
      // A canvas of its own: over a photograph it is blended.
      className: 'tiles relit', zIndex: 2, source: tiles as never, extent: toMapExtent(normals.extentMm), cacheSize: 160, preload: 1,
      style: { color: relightColour, variables: relightVariables(relight, albedo.high) } as Style,
    });
    this.tiles = tiles;
  }

  /** Moves the lamp: nothing is loaded or compiled anew. */
  light(relight: Relight): void {
    this.updateStyleVariables(relightVariables(relight, this.albedo.high));
  }

  /** Asks for every tile again. */
  refresh(): void {
    this.tiles.refresh();
  }
}
