// A small window on components and decorrelation stretches of any layers on the plane: choose, compute, look, read the loadings.
import { type Api, type Layer, Lost, type Painting, Problem, type Run } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { Notices } from './notices';
import { RunBox } from './runbox';
import type { Side, Store } from './state';
import { loadingTable, loadingWords, shownAs, stretchTable, type Table } from './stretchwords';
import { nameText } from './units';

type Kind = 'components' | 'decorrelation-stretch';

const words: Record<Kind, [title: string, says: string]> = {
  components: [t('Components'), t('What all layers share comes first; what only some show comes later. A component is a sum of bands, not a material.')],
  'decorrelation-stretch': [t('Stretch'), t('Three bands as one colour picture in which faint differences of colour become strong. For looking only: a colour names no material.')],
};

const colours = ['red', 'green', 'blue'];

const methods: [value: string, text: string][] = [['correlation', t('each band alike')], ['covariance', t('bands as they are')], ['noise-fraction', t('least noise first')]];

export class StretchPanel {
  readonly element = el('section', { class: 'panel stretch', 'aria-label': t('Components and stretches'), hidden: true });
  private kind: Kind = 'components';
  private readonly boxes: HTMLInputElement[];
  private readonly layers: Layer[];
  private readonly options = el('div', { class: 'options' });
  private readonly results = el('div', { class: 'results' });
  private readonly compute = el('button', { type: 'button', click: () => void this.start() }, t('Compute'));
  private readonly run: RunBox;
  private readonly method = el('select', {}, ...methods.map(([value, text]) => el('option', { value }, text)));
  private readonly shown = colours.map((colour) => el('select', { 'data-colour': colour }));

  constructor(private readonly painting: Painting, private readonly store: Store, private readonly api: Api, private readonly choose: (side: Side, layer: Layer) => void) {
    this.layers = painting.layers.filter((l) => l.onPlane && l.kind === 'photograph' && l.photographId !== null);
    const first = new Set(['VIS', 'UVL', 'IR'].map((light) => this.layers.find((l) => l.light === light)));
    this.boxes = this.layers.map((l) => el('input', { type: 'checkbox', value: l.photographId!, checked: first.has(l), change: () => this.build() }));
    this.run = new RunBox(api, painting, t('Computing'), (run) => this.ended(run), (running) => { this.compute.disabled = running; });
    store.on((state, changed) => {
      if (changed.has('stretch')) this.open(state.stretch);
      if (!this.element.hidden && (changed.has('a') || changed.has('b'))) this.mark();
    });
    this.fillPanel();
    if (store.now.stretch) this.open(true);
  }

  private open(open: boolean): void {
    this.element.hidden = !open;
    if (!open) return;
    // With a stretch on A or B its side of the window is the one that is meant.
    if (this.onStage.some((id) => id?.endsWith('decorrelation-stretch'))) this.kind = 'decorrelation-stretch';
    this.build();
    void this.load();
  }

  private fillPanel(): void {
    const tab = (kind: Kind): HTMLElement => el('button', { type: 'button', 'data-kind': kind, click: () => void this.turn(kind) }, words[kind][0]);
    fill(this.element,
      el('header', {}, el('h2', {}, t('Of several layers')), el('span', { class: 'segments' }, tab('components'), tab('decorrelation-stretch'))),
      el('p', { class: 'quiet says' }),
      el('fieldset', {}, el('legend', {}, t('Layers')), el('div', { class: 'boxes' }, ...this.layers.map((l, i) => el('label', { class: 'check' }, this.boxes[i]!, l.label)))),
      this.options, this.compute, this.run.element, this.results);
    this.build();
  }

  private async turn(kind: Kind): Promise<void> {
    this.kind = kind;
    this.build();
    await this.load();
  }

  /** The part that depends on what is wanted and on the layers chosen. */
  private build(): void {
    for (const tab of this.element.querySelectorAll<HTMLElement>('[data-kind]')) tab.setAttribute('aria-pressed', String(tab.dataset['kind'] === this.kind));
    this.element.querySelector('.says')!.textContent = words[this.kind][1];
    const bands = this.chosen.flatMap((l) => l.bands.map((b) => (l.bands.length > 1 ? `${l.label} ${nameText(b)}` : l.label)));
    this.shown.forEach((select, i) => {
      const before = select.selectedIndex < 0 ? i : select.selectedIndex;
      fill(select, ...bands.map((b, n) => el('option', { value: n + 1 }, b)));
      select.selectedIndex = Math.min(before, bands.length - 1);
    });
    fill(this.options, ...(this.kind === 'components' ? [el('label', { class: 'field' }, t('How bands count'), this.method)]
      : this.shown.map((select) => el('label', { class: 'field' }, t('Shown as {0}', nameText(select.dataset['colour']!)), select))));
  }

  private get onStage(): (string | undefined)[] {
    return [this.store.now.a?.layer, this.store.now.b?.layer];
  }

  private get chosen(): Layer[] {
    return this.layers.filter((_, i) => this.boxes[i]!.checked);
  }

  private async start(): Promise<void> {
    const parameters = this.kind === 'components' ? { method: this.method.value } : Object.fromEntries(this.shown.map((s) => [s.dataset['colour']!, Number(s.value)]));
    await this.run.start(this.kind, parameters, { layers: this.chosen.map((l) => l.photographId!) });
  }

  /** The new layer comes with a fresh page, on A. */
  private ended(run: Run): void {
    const [first] = run.rasters;
    if (!first) return;
    const link = new URL(location.href);
    link.searchParams.set('a', first.layerId);
    link.searchParams.set('stretch', '1');
    history.replaceState(null, '', link);
    Notices.reloadSaying(t('{0} lies on A; its figures stand in the window.{1}', first.title, run.warnings.map((w) => ` ${w.message}`).join('')));
  }

  /** Runs that are there already, newest first. */
  private async load(): Promise<void> {
    const kind = this.kind;
    try {
      const all = await this.api.runs(this.painting.id, kind);
      const runs = all.filter((r) => r.state === 'done');
      if (kind !== this.kind) return;
      const open = runs.find((run) => run.rasters.some((r) => this.onStage.includes(r.layerId))) ?? runs[0];
      fill(this.results, ...runs.map((run) => this.result(run, run === open)));
      this.mark();
      void this.run.resume(all);
    } catch (error) {
      if (!(error instanceof Lost || error instanceof Problem)) throw error;
      this.run.tell(error.message);
    }
  }

  private result(run: Run, open: boolean): HTMLElement {
    const rasters = run.rasters.flatMap((r) => {
      const layer = this.painting.layers.find((l) => l.id === r.layerId);
      return layer ? [{ title: r.title, layer }] : [];
    });
    const on = (side: Side, title: string, layer: Layer): HTMLElement => el('button', { type: 'button', 'data-on': `${side} ${layer.id}`, 'aria-label': t('{0} on {1}', title, side.toUpperCase()), click: () => this.choose(side, layer) }, side.toUpperCase());
    const components = run.reading === 'components';
    const { method } = run.parameters;
    return el('details', { open }, el('summary', {}, run.inputs.map((i) => i.fileName.replace(/\.\w+$/, '')).join(', '), components && el('small', {}, ` ${methods.find(([m]) => m === method)?.[1] ?? ''}`)),
      ...rasters.map(({ title, layer }) => el('p', { class: 'row' }, el('span', {}, title), on('a', title, layer), on('b', title, layer))),
      !components && el('p', { class: 'quiet' }, shownAs(run)),
      table(components ? loadingTable(run) : stretchTable(run), components ? t('Loadings: how far a component shows a band, −1 to 1') : t('What was raised')),
      components && el('ul', { class: 'said' }, ...loadingWords(run).map((w) => el('li', {}, w))),
      ...run.warnings.map((w) => el('p', { class: 'quiet' }, w.message)));
  }

  private mark(): void {
    const { a, b, mode } = this.store.now;
    for (const item of this.results.querySelectorAll<HTMLElement>('[data-on]'))
      item.setAttribute('aria-pressed', String(item.dataset['on'] === `a ${a?.layer}` || (mode !== 'alone' && item.dataset['on'] === `b ${b?.layer}`)));
  }
}

function table({ head, rows }: Table, caption: string): HTMLElement {
  return el('table', { class: 'loadings' }, el('caption', {}, caption),
    el('thead', {}, el('tr', {}, ...head.map((h) => el('th', { scope: 'col' }, h)))),
    el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, r.name), ...r.cells.map((c, k) => el('td', { class: r.strong[k] ? 'number strong' : 'number' }, c))))));
}
