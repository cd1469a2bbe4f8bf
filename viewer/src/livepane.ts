// A pane of a walk over the server's own layers, the measured surface under a lamp among them.
import type OlMap from 'ol/Map';
import type View from 'ol/View';
import type { Api, Painting } from './api';
import { Pane } from './pane';
import { initialRelight } from './relightlamp';
import { RelightLayer } from './relightlayer';
import { layerOf, plainLook } from './state';
import type { WalkPane } from './walkstage';

/** A picture of a walk: a layer, or a surface's normals under a lamp. */
export interface LivePicture {
  key: string;
  label: string;
  layer: string;
  lamp: { azimuth: number; elevation: number } | null;
}

export class LivePane implements WalkPane {
  private readonly pane: Pane;
  private readonly lit = new Map<string, RelightLayer>();

  constructor(element: HTMLElement, view: View, private readonly painting: Painting, private readonly pictures: readonly LivePicture[], private readonly api: Api) {
    this.pane = new Pane(element, view, painting, api, () => {});
  }

  get map(): OlMap {
    return this.pane.map;
  }

  show(key: string | null, over: string | null): void {
    const picture = this.find(key);
    const shade = this.find(over) ?? (picture?.lamp ? picture : undefined);
    const layer = picture && !picture.lamp ? layerOf(this.painting, picture.layer) : undefined;
    this.pane.show(layer ? plainLook(layer) : null);
    const lit = shade && this.surface(shade);
    if (lit) this.pane.cover(lit, layer !== undefined);
    else this.pane.uncover();
  }

  private find(key: string | null): LivePicture | undefined {
    return this.pictures.find((p) => p.key === key);
  }

  /** The surface under a picture's lamp. */
  private surface({ key, layer, lamp }: LivePicture): RelightLayer | undefined {
    const known = this.lit.get(key);
    if (known) return known;
    const [normals, albedo] = [layerOf(this.painting, layer), layerOf(this.painting, layer.replace(/normals$/, 'albedo'))];
    if (!normals || !albedo) return undefined;
    const made = new RelightLayer(normals, albedo, this.api, { ...initialRelight, ...lamp }, () => {});
    this.lit.set(key, made);
    return made;
  }
}
