// Micrographs of one section beside each other: moved and zoomed together, with a cross at the same place in each.
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import type OlView from 'ol/View';
import type { Api, Layer, Painting } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { pixelView, showWhole } from './original';
import { Pane } from './pane';
import { plainLook } from './state';
import { button } from './toolbar';

/** Layers stretched to the first one's width, so that one view fits all: lights of one section are taken through the same objective, perhaps with another camera. */
export const stretched = (layers: Layer[]): Layer[] => {
  const width = layers[0]?.width ?? 1;
  return layers.map((layer) => ({ ...layer, extentMm: [0, 0, width, (width * layer.height) / layer.width], mmPerPixel: width / layer.width }));
};

export class Micrographs {
  private readonly panes: { pane: Pane; cross: HTMLElement }[];
  private readonly view: OlView;
  private readonly layers: Layer[];
  private readonly missing = el('p', { class: 'note', hidden: true, role: 'status' });

  constructor(private readonly place: HTMLElement, layers: Layer[], api: Api) {
    this.layers = stretched(layers);
    this.view = pixelView(this.layers[0]!);
    const painting: Painting = { id: '', title: '', technique: null, widthMm: 0, heightMm: 0, sizeOrigin: '', layers: this.layers };
    const frames = this.layers.map((layer) => {
      const element = el('div', { class: 'pane', tabindex: '0', role: 'application', 'aria-label': t('{0}, {1}. Arrow keys move it, plus and minus zoom, 0 shows the whole.', layer.label, layer.detail ?? ''), keydown: (e) => this.key(e as KeyboardEvent) });
      const cross = el('div', { class: 'cross', hidden: true });
      element.append(cross);
      return { layer, element, cross };
    });
    fill(place,
      el('div', { class: 'tools' }, button(t('Whole'), t('The whole micrograph (0)'), () => this.whole()), button(t('Closer'), t('Closer (+)'), () => this.zoom(1)), button(t('Farther'), t('Farther (-)'), () => this.zoom(-1))),
      el('div', { class: 'panes' }, ...frames.map(({ layer, element }) => el('figure', {}, element,
        el('figcaption', {}, `${layer.detail ?? ''} `, el('a', { href: `easel?original=${layer.id}` }, t('{0}, by itself', layer.label)))))),
      this.missing);
    this.panes = frames.map(({ element, cross }) => ({ pane: new Pane(element, this.view, painting, api, (lost) => this.miss(lost)), cross }));
  }

  /** Shows all of them, whole. */
  begin(): void {
    this.place.classList.add('begun');
    this.panes.forEach(({ pane }, i) => {
      defaultInteractions({ keyboard: false }).forEach((interaction) => pane.map.addInteraction(interaction));
      pane.map.on('pointermove', (event) => this.point(event.coordinate, i));
      pane.element.addEventListener('pointerleave', () => this.point(null, i));
      pane.show(plainLook(this.layers[i]!));
    });
    this.whole();
  }

  /** The maps, one a micrograph; their coordinates are pixels of the first one, y up. */
  get maps(): Pane['map'][] {
    return this.panes.map(({ pane }) => pane.map);
  }

  /** Width and height of the first micrograph, pixels. */
  get size(): [number, number] {
    return [this.layers[0]!.width, this.layers[0]!.height];
  }

  /** Its pixels in one of the screen's. */
  get resolution(): number {
    return this.view.getResolution()!;
  }

  private whole(): void {
    showWhole(this.panes[0]!.pane.map, this.view, { ...this.layers[0]!, height: Math.max(...this.layers.map((l) => l.extentMm[3])) });
  }

  private zoom(doublings: number): void {
    this.view.adjustResolution(2 ** -doublings);
  }

  private point(coordinate: number[] | null, from: number): void {
    this.panes.forEach(({ pane, cross }, i) => {
      const at = coordinate && i !== from ? pane.map.getPixelFromCoordinate(coordinate) : null;
      cross.hidden = at === null;
      if (at === null) return;
      cross.style.left = `${at[0]}px`;
      cross.style.top = `${at[1]}px`;
    });
  }

  private key(event: KeyboardEvent): void {
    const step = 60 * this.view.getResolution()!;
    const [x = 0, y = 0] = this.view.getCenter()!;
    const act: Record<string, () => void> = {
      ArrowLeft: () => this.view.setCenter([x - step, y]), ArrowRight: () => this.view.setCenter([x + step, y]), ArrowUp: () => this.view.setCenter([x, y + step]), ArrowDown: () => this.view.setCenter([x, y - step]),
      '+': () => this.zoom(1), '=': () => this.zoom(1), '-': () => this.zoom(-1), 0: () => this.whole(),
    };
    if (event.ctrlKey || event.metaKey || event.altKey || !act[event.key]) return;
    event.preventDefault();
    act[event.key]!();
  }

  private miss(layer: Layer): void {
    this.missing.textContent = t('Parts of {0} cannot be loaded. Load the page again.', layer.label);
    this.missing.hidden = false;
  }
}
