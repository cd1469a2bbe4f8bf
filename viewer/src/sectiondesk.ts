// Measuring a section: has its layers proposed, shows them over the micrographs, steers them by clicks or numbers, and takes them over into the record.
import { type Api, type Painting, Problem, type Proposal, type Run, type Section, told } from './api';
import { BoundaryLayer } from './boundarylayer';
import { el, fill } from './dom';
import type { Micrographs } from './micrographs';
import type { Place } from './plane';
import { RunBox } from './runbox';
import { layerRows, scaleSentence } from './sectionwords';
import { boundaryName, type Click, heightAt, readClicks, withClick, withPin, writeClicks } from './steering';
import { button } from './toolbar';

/** A click this near to a boundary means that boundary, pixels of the screen. */
const near = 12;

export class SectionDesk {
  private readonly boundaryLayer = new BoundaryLayer();
  private readonly layersBox: RunBox;
  private readonly grainsBox: RunBox;
  private section: Section | null = null;
  private proposals: Proposal[] = [];
  private clicks: Click[] = [];
  private names = new Map<string, string>();
  private running = false;
  private loading = false;

  private readonly propose = el('button', { type: 'button', class: 'act', click: () => void this.ask(this.clicks) }, 'Propose layers');
  private readonly undo = button('Undo the last click', 'Takes the last click back and follows the boundaries again', () => void this.ask(this.clicks.slice(0, -1)));
  private readonly steer = el('button', { type: 'button', 'aria-pressed': 'true', title: 'While it is pressed, a click on a micrograph moves the boundary nearby, or adds one', click: () => this.steer.setAttribute('aria-pressed', String(!this.isSteering)) }, 'Steer by clicks');
  private readonly keep = el('button', { type: 'button', class: 'act', click: () => void this.takeOver() }, 'Take over as layers');
  private readonly grains = button('Measure the grains', 'Separates and measures the grains in each of these layers', () => void this.measureGrains());
  private readonly scale = numberField('um-per-pixel', 0, 1000, 'any');
  private readonly scaleUncertainty = numberField('scale-uncertainty', 0, 50, 'any');
  private readonly obliquity = numberField('obliquity', 0, 60, 'any');
  private readonly which = el('select', { name: 'boundaries', id: 'section-boundaries' }, el('option', { value: 'proposed' }, 'those found, steered'), el('option', { value: 'clicked' }, 'only those clicked on'));
  private readonly pinned = el('select', { id: 'section-pinned', change: () => this.begunPin() });
  private readonly pinX = numberField('pin-x', 0, 1e6, '1', () => this.markPin());
  private readonly pinY = numberField('pin-y', 0, 1e6, '1', () => this.markPin());
  private readonly said = el('p', { class: 'note', role: 'alert', hidden: true });
  private readonly results = el('div', { class: 'results' });

  constructor(private readonly place: HTMLElement, private readonly painting: string, private readonly sample: string, private readonly micrographs: Micrographs, private readonly api: Api) {
    const blank = { id: painting, layers: [] as Painting['layers'] } as Painting;
    this.layersBox = new RunBox(api, blank, 'Following boundaries', (run) => void this.ended(run.id), (running) => this.setRunning(running));
    this.grainsBox = new RunBox(api, blank, 'Measuring grains', () => void this.ended(this.section?.layers?.id), (running) => this.setRunning(running));
    for (const map of micrographs.maps) {
      map.addLayer(this.boundaryLayer.layer());
      map.on('singleclick', ({ coordinate: [x = 0, y = 0] }) => this.clicked([x, -y]));
    }
  }

  /** Shows what was measured, or that nothing was yet. */
  async begin(run: string | undefined): Promise<void> {
    await this.guarded(async () => {
      await this.load(run);
      const mine = new Set(Object.values(this.section!.inputs).flat());
      const live = (reading: string): Promise<Run[]> => this.api.runs(this.painting, reading).then((runs) => runs.filter((r) => r.inputs.some((i) => mine.has(i.photographId ?? ''))));
      await Promise.all([live('layers').then((runs) => this.layersBox.resume(runs)), live('particles').then((runs) => this.grainsBox.resume(runs))]);
    });
  }

  private get isSteering(): boolean {
    return this.steer.getAttribute('aria-pressed') === 'true';
  }

  /** Boundaries from the lower edge up. */
  private get boundaries(): readonly (readonly Place[])[] {
    return this.proposals.filter((p) => p.kind === 'layer-boundary').map((p) => p.geometry.coordinates as Place[]);
  }

  /** Shows a run that has ended; until it is shown nothing may be taken over, or begun. */
  private async ended(run: string | undefined): Promise<void> {
    this.loading = true;
    await this.guarded(() => this.load(run));
    this.loading = false;
    this.setRunning(this.running);
  }

  private async load(run: string | undefined): Promise<void> {
    this.section = await this.api.section(this.sample, run);
    const { layers } = this.section;
    const [proposals, written] = await Promise.all([layers ? this.api.proposals(layers.id) : [], this.api.sectionLayers(this.painting)]);
    this.proposals = proposals;
    this.names = new Map(written.filter((l) => l.content.sampleId === this.sample).map((l) => [l.content.number, l.content.name]));
    this.clicks = readClicks(layers?.parameters['clicks']);
    if (layers) {
      const url = new URL(location.href);
      url.searchParams.set('run', layers.id);
      history.replaceState(null, '', url);
      this.fillFields(layers);
    }
    this.boundaryLayer.show(this.boundaries, this.clicks);
    this.render();
  }

  private fillFields({ parameters }: Run): void {
    const text = (name: string): string => (Number(parameters[name]) > 0 ? parameters[name]! : '');
    this.scale.value = text('um-per-pixel');
    this.scaleUncertainty.value = text('scale-uncertainty');
    this.obliquity.value = text('obliquity');
    this.which.value = parameters['boundaries'] ?? 'proposed';
  }

  private render(): void {
    const { problem, leftOut, scale, layers } = this.section!;
    if (problem) return fill(this.place, el('h3', {}, 'Measuring'), el('p', { class: 'quiet' }, problem));
    this.propose.textContent = layers ? 'Propose again' : 'Propose layers';
    this.propose.classList.toggle('act', !layers);
    const known = scale ? `Left empty: the file's own, ${scale.umPerPixel.toPrecision(3)} um per pixel (${scale.origin === 'metadata' ? 'its resolution tags' : scale.origin}).` : 'Left empty: none, and thicknesses are in pixels only.';
    fill(this.place, el('h3', { id: 'measuring' }, 'Measuring'),
      el('p', { class: 'quiet small' }, 'Boundaries are proposed from all micrographs at once and are consistent with layers, no more; a person accepts them.'),
      ...leftOut.map((text) => el('p', { class: 'small' }, text)),
      el('div', { class: 'acts' }, this.propose, layers ? this.steer : null, layers ? this.undo : null),
      el('details', { class: 'small', open: !layers && !scale }, el('summary', {}, 'Scale and cut'), el('div', { class: 'fields' },
        labelled('Scale', this.scale, 'um per pixel', known), labelled('Its uncertainty', this.scaleUncertainty, '%', '95 % interval'),
        labelled('Obliquity of the cut', this.obliquity, 'degrees', 'As measured on the block; 0 for a square cut'), labelled('Boundaries', this.which, '', ''))),
      layers ? this.pinForm() : null, this.said, this.layersBox.element, this.grainsBox.element, this.results);
    this.renderResults(layers);
    this.setRunning(this.running);
  }

  private renderResults(layers: Run | null): void {
    if (!layers) return fill(this.results);
    const rows = layerRows(layers, this.proposals, this.section!.grains);
    const coats = layers.figures.find((f) => f.name === 'varnish-coats')?.value;
    const hasGrains = rows.some((r) => r.grains !== '');
    fill(this.results,
      el('p', {}, `${rows.length === 1 ? '1 layer' : `${rows.length} layers`}${coats == null ? '' : `, ${coats} of them consistent with coats of varnish`}. ${scaleSentence(layers)}`),
      el('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': 'Layers as measured' }, el('table', { class: 'ruled' },
        el('thead', {}, el('tr', {}, ...['No.', 'Thickness', '5th to 95th percentile', 'There in', 'Seen', ...(hasGrains ? ['Grains'] : []), 'On record'].map((h) => el('th', { scope: 'col' }, h)))),
        el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, String(r.number)), el('td', {}, r.thickness), el('td', {}, r.spread), el('td', {}, r.coverage), el('td', { class: 'words' }, r.seen),
          hasGrains && el('td', { class: 'words' }, r.grains), el('td', { class: 'words written' }, this.names.get(String(r.number)) ?? 'not yet')))))),
      ...[...new Set([...layers.warnings, ...(this.section!.grains?.warnings ?? [])].map((w) => w.message))].map((text) => el('p', { class: 'small quiet' }, text)),
      el('div', { class: 'acts' }, this.keep, this.grains),
      el('p', { class: 'small quiet' }, 'Taking over writes thickness and run into the record. A layer taken over before is recognised by its place, one written by hand by its number; what a person wrote of it stays, and what it was before can be read.'));
  }

  /** The way without a pointer: a boundary and a place in numbers, shown as a cross while it is entered. */
  private pinForm(): HTMLElement {
    fill(this.pinned, ...this.boundaries.map((_, i) => el('option', { value: i }, boundaryName(i))).reverse());
    return el('details', { class: 'small' }, el('summary', {}, 'Steer by numbers'), el('div', { class: 'fields' },
      labelled('Boundary', this.pinned, '', ''), labelled('Passes at, from left', this.pinX, 'px', ''), labelled('From top', this.pinY, 'px', 'Arrow keys move the cross'),
      el('div', {}, button('Pin it there', 'Follows the boundaries again, this one through the cross', () => this.pin()))));
  }

  private begunPin(): void {
    const line = this.boundaries[Number(this.pinned.value)];
    if (!line) return;
    const xs = line.map(([x]) => x);
    const x = Math.round((Math.min(...xs) + Math.max(...xs)) / 2);
    [this.pinX.value, this.pinY.value] = [String(x), String(Math.round(heightAt(line, x)))];
    this.markPin();
  }

  private markPin(): void {
    this.boundaryLayer.mark(this.pinX.value === '' || this.pinY.value === '' ? null : [Number(this.pinX.value), Number(this.pinY.value)]);
  }

  private pin(): void {
    if (this.pinX.value === '' || this.pinY.value === '') return this.begunPin();
    void this.ask(withPin(this.clicks, this.boundaries, Number(this.pinned.value), [Number(this.pinX.value), Number(this.pinY.value)]));
    this.boundaryLayer.mark(null);
  }

  private clicked(at: Place): void {
    const [width, height] = this.micrographs.size;
    if (!this.section?.layers || !this.isSteering || at[0] < 0 || at[1] < 0 || at[0] > width || at[1] > height) return;
    if (this.running || this.loading) return this.layersBox.tell('The boundaries are still being followed; click again afterwards.');
    void this.ask(withClick(this.clicks, this.boundaries, at, near * this.micrographs.resolution));
  }

  /** Has the boundaries followed through these clicks; they stay as they are unless that ends with a result. */
  private async ask(clicks: readonly Click[]): Promise<void> {
    if (this.running || this.loading || !this.section || this.section.problem) return;
    const fields = [this.scale, this.scaleUncertainty, this.obliquity];
    if (!fields.every((f) => f.reportValidity())) return;
    this.say(null);
    this.boundaryLayer.show(this.boundaries, clicks);
    const given = Object.fromEntries(fields.filter((f) => f.value !== '').map((f) => [f.name, Number(f.value)]));
    const { layers: before } = this.section;
    await this.layersBox.start('layers', { clicks: writeClicks(clicks), boundaries: clicks.length === 0 ? 'proposed' : this.which.value, ...given }, this.section.inputs);
    // A run that came to nothing leaves what was there.
    if (!this.loading && this.section.layers === before) this.boundaryLayer.show(this.boundaries, this.clicks);
  }

  private async measureGrains(): Promise<void> {
    if (this.running || !this.section?.grainParameters) return;
    await this.grainsBox.start('particles', this.section.grainParameters, this.section.inputs);
  }

  private async takeOver(): Promise<void> {
    await this.guarded(async () => {
      await this.api.takeOver(this.sample, this.section!.layers!.id);
      location.hash = 'layers';
      location.reload();
    });
  }

  private setRunning(running: boolean): void {
    this.running = running;
    const busy = running || this.loading;
    this.propose.disabled = this.keep.disabled = this.grains.disabled = busy;
    this.undo.disabled = busy || this.clicks.length === 0;
  }

  private async guarded(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.say(error instanceof Problem ? told(error) : (error as Error).message);
    }
  }

  private say(text: string | null): void {
    this.said.hidden = text === null;
    this.said.textContent = text ?? '';
    if (!this.said.isConnected) this.place.append(this.said);
  }
}

const numberField = (name: string, min: number, max: number, step: string, input?: () => void): HTMLInputElement => el('input', { type: 'number', id: `section-${name}`, name, min, max, step, input });

const labelled = (label: string, field: HTMLInputElement | HTMLSelectElement, unit: string, help: string): HTMLElement => {
  if (help) field.setAttribute('aria-describedby', `${field.id}-help`);
  return el('div', { class: 'field' }, el('label', { for: field.id }, label), el('span', { class: 'entry' }, field, unit && el('span', {}, unit)), help && el('span', { class: 'quiet', id: `${field.id}-help` }, help));
};
