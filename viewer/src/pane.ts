// One pane of the stage: shows one look of the painting.
import OlMap from 'ol/Map';
import type View from 'ol/View';
import type BaseLayer from 'ol/layer/Base';
import type { Api, Layer, Painting } from './api';
import { Picture } from './layers';
import { layerOf, type Look } from './state';

/** Pictures kept ready in a pane, so that going back to one is instant. */
const keptPictures = 4;

export class Pane {
  readonly map: OlMap;
  private kept = new Map<string, Picture>();
  private drawn = false;
  private look: Look | null = null;
  private over: BaseLayer | null = null;
  /** Whether the picture is seen through what lies over it. */
  private through = true;

  constructor(readonly element: HTMLElement, view: View, private readonly painting: Painting, private readonly api: Api,
    private readonly onMissing: (layer: Layer) => void, private readonly onDrawn = (): void => {}) {
    this.map = new OlMap({ target: element, view, controls: [], interactions: [], moveTolerance: 2 });
    // A frame that lacks nothing is followed by 'rendercomplete', one that waits for tiles is not.
    this.map.on('postrender', () => this.mark(false));
    this.map.on('rendercomplete', () => this.mark(true));
  }

  /** Whether it still waits for something that will be seen in it. */
  get busy(): boolean {
    return !this.element.hidden && !this.drawn;
  }

  /** Shows a look, or nothing. */
  show(look: Look | null): void {
    this.look = look;
    const wanted = look === null ? [] : this.picturesOf(look);
    for (const picture of this.kept.values()) picture.setVisible(this.through && wanted.includes(picture));
    this.element.classList.toggle('mixed', wanted.length > 1);
    for (const picture of wanted) picture.applyLook(look!);
    this.forget(wanted);
  }

  /** Lays something over the picture. What cannot be seen through it is not drawn. */
  cover(layer: BaseLayer, through: boolean): void {
    if (this.over === layer && this.through === through) return;
    if (this.over !== layer) {
      if (this.over) this.map.removeLayer(this.over);
      this.map.addLayer(layer);
    }
    [this.over, this.through] = [layer, through];
    this.element.classList.toggle('relitover', through);
    this.show(this.look);
  }

  /** Takes it away. */
  uncover(): void {
    if (!this.over) return;
    this.map.removeLayer(this.over);
    [this.over, this.through] = [null, true];
    this.show(this.look);
  }

  /** Asks for every tile again, after the server was lost. */
  refresh(): void {
    for (const picture of this.kept.values()) picture.source.refresh();
  }

  private mark(drawn: boolean): void {
    this.drawn = drawn;
    this.onDrawn();
  }

  private picturesOf(look: Look): Picture[] {
    const base = layerOf(this.painting, look.layer);
    if (!base) return [];
    const infrared = look.show.startsWith('ir:') ? layerOf(this.painting, look.show.slice(3)) : undefined;
    const pictures = [this.picture(base, look, false)];
    if (infrared) pictures.push(this.picture(infrared, look, true));
    return pictures;
  }

  private picture(layer: Layer, look: Look, asInfrared: boolean): Picture {
    const key = `${layer.id} ${asInfrared} ${look.mirror}`;
    let picture = this.kept.get(key);
    if (!picture) {
      const middle = layer.onPlane ? this.painting.widthMm / 2 : layer.width / 2;
      picture = new Picture(layer, this.api, look, look.mirror ? middle : null, asInfrared, this.onMissing);
      picture.setZIndex(asInfrared ? 1 : 0);
      this.map.addLayer(picture);
    }
    // Last used goes last: the first ones are forgotten first.
    this.kept.delete(key);
    this.kept.set(key, picture);
    return picture;
  }

  private forget(wanted: Picture[]): void {
    for (const [key, picture] of this.kept) {
      if (this.kept.size <= keptPictures) return;
      if (wanted.includes(picture)) continue;
      this.map.removeLayer(picture);
      picture.dispose();
      this.kept.delete(key);
    }
  }
}
