// A photograph's original pixels, seen by themselves: x and y are pixels, y down.
import OlMap from 'ol/Map';
import OlView from 'ol/View';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import type { Api, Layer, Painting } from './api';
import { ContrastPanel } from './contrast';
import { el, fill } from './dom';
import { t } from './language';
import { Notices } from './notices';
import { Pane } from './pane';
import { fromMap, toMapExtent } from './plane';
import { planeProjection } from './layers';
import { initialState, plainLook, Store } from './state';
import { button } from './toolbar';

/** Opens one layer alone in its own pixels. */
export function openOriginal(main: HTMLElement, painting: Painting, layer: Layer, api: Api): void {
  const store = new Store({ ...initialState, a: plainLook(layer) });
  const shown = withLayer(painting, layer);
  const notices = new Notices(() => pane.refresh());
  api.onReach = (reached) => notices.reach(reached);
  const stage = el('div', { class: 'stage' });
  const element = el('div', { class: 'pane whole', tabindex: '0', role: 'application', 'aria-label': t('{0} in its own pixels', layer.label) });
  const place = el('output', { class: 'place' });
  stage.append(element, el('div', { class: 'label a' }, t('{0}, its own pixels', layer.label)), place);
  const contrast = new ContrastPanel(shown, store, api);
  const centre = el('div', { class: 'centre' }, el('div', { class: 'toolbar' },
    el('a', { class: 'button', href: location.pathname }, t('Back to the Easel')), button(t('Contrast'), t('Contrast window, channels, invert, mirror'), () => contrast.toggle()),
    ...(layer.photographId && layer.light !== 'XSEC' ? [el('a', { class: 'button', href: `?corners=${layer.photographId}` }, t('Set the corners by hand')),
      el('a', { class: 'button', href: `?pairs=${layer.photographId}` }, t('Align by pairs')),
      el('a', { class: 'button', href: `?line=${layer.photographId}&reading=ring-widths&input-wood=${layer.photographId}` }, t('Rings along a line'))] : [])),
    el('div', { class: 'frame' }, stage, contrast.element, notices.element));
  fill(main, centre);
  main.classList.add('easel', 'single');

  const view = pixelView(layer);
  const pane = new Pane(element, view, shown, api, (missing) => notices.tileMissing(missing.label));
  defaultInteractions().forEach((interaction) => pane.map.addInteraction(interaction));
  store.on((state) => pane.show(state.a));
  pane.show(store.now.a);
  showWhole(pane.map, view, layer);
  pane.map.on('pointermove', (event) => {
    const [x, y] = fromMap(event.coordinate);
    place.textContent = x >= 0 && y >= 0 && x < layer.width && y < layer.height ? t('pixel {0}, {1}', Math.floor(x), Math.floor(y)) : '';
  });
}

/** A painting with one more layer: aligned photographs list their own pixels only when asked for. */
export const withLayer = (painting: Painting, layer: Layer): Painting =>
  ({ ...painting, layers: [...painting.layers.filter((l) => l.id !== layer.id), layer] });

/** A view over a layer's own pixels. */
export const pixelView = (layer: Layer): OlView => new OlView({
  projection: planeProjection, center: [layer.width / 2, -layer.height / 2], resolution: 1, minResolution: 1 / 32, maxResolution: Math.max(layer.width, layer.height) / 50,
  constrainResolution: false,
});

/** Brings the whole photograph into view. */
export function showWhole(map: OlMap, view: OlView, layer: Layer): void {
  map.updateSize();
  view.fit(toMapExtent([0, 0, layer.width, layer.height]), { size: map.getSize(), padding: [24, 24, 48, 24] });
}
