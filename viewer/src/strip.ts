// The strip at the foot: photographs by light, a gap, readings; then photographs that have no place on the plane.
import type { Api, Layer, Painting } from './api';
import { el, fill } from './dom';
import { t } from './language';
import type { Side, State, Store } from './state';

export interface StripActions {
  choose(side: Side, layer: Layer): void;
  openAlone(layer: Layer): void;
}

/** The layers that lie on the plane, in the strip's order: this is also what the number keys count. */
export const planeLayers = (painting: Painting): Layer[] => [
  ...painting.layers.filter((l) => l.onPlane && l.kind === 'photograph'),
  ...painting.layers.filter((l) => l.onPlane && l.kind === 'reading'),
];

/** Photographs of which only the original pixels can be shown. */
export const looseLayers = (painting: Painting): Layer[] => {
  const placed = new Set(painting.layers.filter((l) => l.onPlane).map((l) => l.photographId));
  return painting.layers.filter((l) => !l.onPlane && !placed.has(l.photographId));
};

export class Strip {
  readonly element = el('nav', { class: 'strip', 'aria-label': t('Photographs and readings') });
  private readonly buttons = new Map<string, { button: HTMLButtonElement; badge: HTMLElement; said: HTMLElement; number: number }>();

  constructor(painting: Painting, store: Store, api: Api, private readonly actions: StripActions) {
    const onPlane = planeLayers(painting);
    const group = (label: string, layers: Layer[], make: (layer: Layer) => HTMLElement): void => {
      if (layers.length === 0) return;
      this.element.append(el('ul', { 'aria-label': label }, ...layers.map((l) => el('li', {}, make(l)))));
    };
    const placed = (layer: Layer): HTMLElement => this.thumb(layer, api, onPlane.indexOf(layer) + 1);
    group(t('Photographs'), onPlane.filter((l) => l.kind === 'photograph'), placed);
    group(t('Readings'), onPlane.filter((l) => l.kind === 'reading'), placed);
    group(t('Not on the plane'), looseLayers(painting), (layer) => this.loose(layer, api));
    if (painting.layers.length === 0) this.element.append(el('p', { class: 'empty' }, t('No photograph of this painting is stored yet.')));
    store.on((state, changed) => {
      if (changed.has('a') || changed.has('b') || changed.has('mode')) this.mark(state);
    });
    this.mark(store.now);
  }

  private thumb(layer: Layer, api: Api, number: number): HTMLElement {
    const badge = el('span', { class: 'badge' });
    const said = el('span', { class: 'spoken' });
    const press = (event: Event): void => this.actions.choose((event as MouseEvent).shiftKey ? 'b' : 'a', layer);
    const button = el('button', { type: 'button', class: 'thumb', click: press, 'data-layer': layer.id, title: hint(layer, number) },
      picture(api, layer), badge, ...naming(layer), uncertain(layer), said);
    this.buttons.set(layer.id, { button, badge, said, number });
    return button;
  }

  private loose(layer: Layer, api: Api): HTMLElement {
    return el('button', {
      type: 'button', class: 'thumb loose', click: () => this.actions.openAlone(layer), 'data-layer': layer.id,
      title: t('{0}: not on the plane; opens in its own pixels', layer.label),
    }, picture(api, layer), ...naming(layer));
  }

  private mark(state: State): void {
    for (const [id, { button, badge, said, number }] of this.buttons) {
      const onA = state.a?.layer === id;
      const onB = state.b?.layer === id && state.mode !== 'alone';
      button.classList.toggle('on', onA || onB);
      fill(badge, [onA && 'A', onB && 'B'].filter(Boolean).join(' '));
      const shown = onA && onB ? t(', shown on A and B') : onA ? t(', shown on A') : onB ? t(', shown on B') : '';
      // Beside the words that are seen, so that both who look and who listen can name it.
      fill(said, t('{0}. Press for A, with Shift for B{1}', shown, number < 10 ? t('; key {0}', number) : ''));
    }
  }
}

const picture = (api: Api, layer: Layer): HTMLElement =>
  el('img', { src: api.thumbnailUrl(layer), alt: '', loading: 'lazy', draggable: 'false', width: 72, height: 54 });

/** Its light, and what its name says beyond that. */
const naming = (layer: Layer): HTMLElement[] => {
  const rest = layer.light && layer.label.startsWith(`${layer.light}_`) ? layer.label.slice(layer.light.length + 1) : layer.label;
  return [el('span', { class: 'light' }, layer.light || t('Map')), el('span', { class: 'name' }, rest)];
};

const uncertain = (layer: Layer): HTMLElement | null =>
  layer.verdict === 'uncertain' ? el('span', { class: 'doubt', title: t('Alignment uncertain{0}', layer.residual ? `: ${layer.residual}` : '') }, '?') : null;

const hint = (layer: Layer, number: number): string =>
  [`${layer.light}  ${layer.label}`, layer.detail, layer.residual && t('aligned to {0}', layer.residual), number < 10 && t('key {0}: on A, with Shift: on B', number)]
    .filter(Boolean).join('\n');
