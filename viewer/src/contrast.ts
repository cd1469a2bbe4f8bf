// The contrast panel: how A and B are shown. Its figures are in the layer's own unit.
import type { Api, Layer, Painting } from './api';
import { el, fill } from './dom';
import { type Counts, histogram } from './histogram';
import { t } from './language';
import { layerOf, type Look, plainLook, type Side, type State, type Store } from './state';
import { fieldText, nameText } from './units';

export class ContrastPanel {
  readonly element = el('section', { class: 'panel contrast', 'aria-label': t('Contrast'), hidden: true });
  private side: Side = 'a';
  private shownFor = '';
  private readonly counts = new Map<string, Promise<Counts | null>>();

  /** `canMirror` is false where things lie on the picture that would not be mirrored with it. */
  constructor(private readonly painting: Painting, private readonly store: Store, private readonly api: Api, private readonly canMirror = true) {
    store.on((state, changed) => {
      if (changed.has('a') || changed.has('b') || changed.has('mode')) this.refresh(state);
    });
  }

  /** Opens or closes the panel. */
  toggle(): void {
    this.element.hidden = !this.element.hidden;
    this.shownFor = '';
    this.refresh(this.store.now);
    if (!this.element.hidden) this.element.querySelector<HTMLElement>('button, input, select')?.focus();
  }

  /** Changes the look on the side whose panel is open. */
  change(patch: Partial<Look>, side = this.side): void {
    const look = this.store.now[side];
    if (look) this.store.set({ [side]: { ...look, ...patch } });
  }

  private refresh(state: State): void {
    if (this.element.hidden) return;
    if (state.mode === 'alone' || !state.b) this.side = 'a';
    const look = state[this.side];
    const layer = layerOf(this.painting, look?.layer);
    const built = `${this.side} ${look?.layer} ${look?.show.startsWith('ir:')} ${state.mode === 'alone'} ${state.b !== null}`;
    if (built !== this.shownFor) {
      this.shownFor = built;
      if (look && layer) this.build(look, layer, state.mode !== 'alone' && state.b !== null);
      else fill(this.element, el('p', {}, t('Nothing is shown on this side.')));
    } else this.update(look!);
  }

  private build(look: Look, layer: Layer, both: boolean): void {
    const tab = (side: Side): HTMLElement => el('button', {
      type: 'button', 'aria-pressed': String(this.side === side), click: () => { this.side = side; this.refresh(this.store.now); },
    }, side.toUpperCase());
    const infrared = layerOf(this.painting, look.show.startsWith('ir:') ? look.show.slice(3) : null);
    fill(this.element,
      el('header', {}, el('h2', {}, t('How {0} is shown', this.side.toUpperCase())), both && el('span', { class: 'segments' }, tab('a'), tab('b'))),
      el('p', { class: 'quiet' }, t('{0}, values in {1}', layer.label, nameText(layer.unit))),
      this.channels(look, layer),
      this.window(layer, 'low', 'high', infrared ? t('{0}: shown black to white', layer.label) : t('Shown black to white')),
      infrared ? this.window(infrared, 'irLow', 'irHigh', t('{0}: shown black to red', infrared.label)) : null,
      this.slider(t('Gamma'), 'gamma', 0.2, 5, 0.05),
      el('div', { class: 'row' }, this.check(t('Invert'), 'invert'), this.canMirror && this.check(t('Mirror left to right'), 'mirror')),
      el('div', { class: 'row' },
        el('button', { type: 'button', click: () => this.change({ ...plainLook(layer) }) }, t('As at first')),
        el('button', { type: 'button', click: () => this.change({ low: layer.low, high: layer.high }) }, t('Stretch to its values'))),
      layer.photographId && el('p', { class: 'row' }, el('a', { href: `?original=o-${layer.photographId}` }, t('Its own pixels')),
        el('a', { href: `?corners=${layer.photographId}` }, t('Set its corners by hand')),
        el('a', { href: `?pairs=${layer.photographId}` }, t('Align by pairs'))));
    this.update(look);
  }

  private channels(look: Look, layer: Layer): HTMLElement | null {
    const choices = channelChoices(layer, this.painting);
    if (choices.length < 2) return null;
    const select = el('select', { change: (event) => this.showAs((event.target as HTMLSelectElement).value) },
      ...choices.map(([value, text]) => el('option', { value, selected: value === look.show }, text)));
    return el('label', { class: 'field' }, t('Channels'), select);
  }

  private showAs(show: string): void {
    const infrared = layerOf(this.painting, show.startsWith('ir:') ? show.slice(3) : null);
    this.change(infrared ? { show, irLow: infrared.low, irHigh: infrared.high } : { show });
  }

  private window(layer: Layer, low: 'low' | 'irLow', high: 'high' | 'irHigh', title: string): HTMLElement {
    const [from, to] = rangeOf(layer);
    const step = layer.format === 'f32' ? (to - from) / 1000 : 1;
    const canvas = el('canvas', { width: 256, height: 48, 'aria-hidden': 'true' });
    void this.countsOf(layer).then((counts) => counts && draw(canvas, counts));
    return el('fieldset', {}, el('legend', {}, title), canvas,
      this.slider(t('Black at, {0}', nameText(layer.unit)), low, from, to, step), this.slider(t('White at, {0}', nameText(layer.unit)), high, from, to, step));
  }

  private countsOf(layer: Layer): Promise<Counts | null> {
    let counts = this.counts.get(layer.id);
    if (!counts) this.counts.set(layer.id, counts = histogram(this.api, layer, rangeOf(layer)).catch(() => null));
    return counts;
  }

  private slider(label: string, key: keyof Look, min: number, max: number, step: number): HTMLElement {
    const use = (event: Event): void => {
      const value = Number((event.target as HTMLInputElement).value);
      if (Number.isFinite(value)) this.change({ [key]: value });
    };
    return el('div', { class: 'slider' },
      el('label', {}, label, el('input', { type: 'range', min, max, step, 'data-key': key, input: use })),
      el('input', { type: 'number', step: 'any', 'data-key': key, 'aria-label': label, change: use }));
  }

  private check(label: string, key: 'invert' | 'mirror'): HTMLElement {
    return el('label', { class: 'check' },
      el('input', { type: 'checkbox', 'data-key': key, change: (e) => this.change({ [key]: (e.target as HTMLInputElement).checked }) }), label);
  }

  private update(look: Look): void {
    for (const input of this.element.querySelectorAll<HTMLInputElement>('input[data-key]')) {
      const value = look[input.dataset['key'] as keyof Look];
      if (input.type === 'checkbox') input.checked = value === true;
      else if (document.activeElement !== input || input.type === 'range') input.value = input.type === 'range' ? String(value) : fieldText(value as number);
    }
    const select = this.element.querySelector('select');
    if (select) select.value = look.show;
  }
}

/** The ways in which a layer's channels can be shown; false colour only for a colour layer beside an aligned infrared one. */
export function channelChoices(layer: Layer, painting: Painting): [value: string, text: string][] {
  const bands = layer.bands.map((name, i): [string, string] => [`band:${i}`, t('{0} alone', nameText(name))]);
  if (layer.bands.length < 3) return bands;
  const infrared = layer.onPlane ? painting.layers.filter((l) => l.onPlane && ['IR', 'IRR'].includes(l.light) && l.kind === 'photograph') : [];
  return [['colour', t('Colour')], ['grey', t('Grey')], ...bands,
    ...infrared.map((ir): [string, string] => [`ir:${ir.id}`, t('False colour with {0}', ir.label)])];
}

/** The values a window can be set over. */
export function rangeOf(layer: Layer): [number, number] {
  if (layer.format !== 'f32') return [0, layer.fullScale];
  const room = (layer.high - layer.low) / 2 || 1;
  return [layer.low - room, layer.high + room];
}

function draw(canvas: HTMLCanvasElement, { bins }: Counts): void {
  const context = canvas.getContext('2d')!;
  const most = Math.max(...bins, 1);
  context.fillStyle = getComputedStyle(canvas).color;
  // Square root, so that small passages are seen beside a large ground.
  bins.forEach((n, i) => {
    const height = Math.sqrt(n / most) * canvas.height;
    context.fillRect((i * canvas.width) / bins.length, canvas.height - height, canvas.width / bins.length, height);
  });
}
