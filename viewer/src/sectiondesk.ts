// Measuring a section: has its layers proposed, shows them over the micrographs, and takes them over into the record.
import { type Api, type Painting, Problem, type Proposal, type Run, type Section, told } from './api';
import { BoundaryLayer } from './boundarylayer';
import { el, fill } from './dom';
import { labelled, numberField } from './fields';
import { counted, t } from './language';
import type { Micrographs } from './micrographs';
import type { Place } from './plane';
import { RunBox } from './runbox';
import { ScaleForm } from './scaleform';
import { gridSentences, layerRows, scaleSentence } from './sectionwords';
import { readSteps, type Step, writeSteps } from './steering';
import { SteeringTools } from './steeringtools';
import { button } from './toolbar';

export class SectionDesk {
  private readonly boundaryLayer = new BoundaryLayer();
  private readonly tools: SteeringTools;
  private readonly layersBox: RunBox;
  private readonly grainsBox: RunBox;
  private section: Section | null = null;
  private proposals: Proposal[] = [];
  private steps: Step[] = [];
  private names = new Map<string, string>();
  private running = false;
  private loading = false;

  private readonly propose = el('button', { type: 'button', class: 'act', click: () => void this.ask(this.steps) }, t('Propose layers'));
  private readonly keep = el('button', { type: 'button', class: 'act', click: () => void this.takeOver() }, t('Take over as layers'));
  private readonly grains = button(t('Measure the grains'), t('Separates and measures the grains in each of these layers'), () => void this.measureGrains());
  private readonly scale = new ScaleForm();
  private readonly obliquity = numberField('obliquity', 0, 60, 'any');
  private readonly which = el('select', { name: 'boundaries', id: 'section-boundaries' }, el('option', { value: 'proposed' }, t('those found, steered')), el('option', { value: 'clicked' }, t('only those clicked on')));
  private readonly said = el('p', { class: 'note', role: 'alert', hidden: true });
  private readonly results = el('div', { class: 'results' });

  constructor(private readonly place: HTMLElement, private readonly painting: string, private readonly sample: string, micrographs: Micrographs, private readonly api: Api) {
    this.tools = new SteeringTools(micrographs, this.boundaryLayer, () => ({ boundaries: this.boundaries, steps: this.steps, ready: this.section?.layers != null }), (steps) => this.steered(steps));
    const blank = { id: painting, layers: [] as Painting['layers'] } as Painting;
    this.layersBox = new RunBox(api, blank, t('Following boundaries'), (run) => void this.ended(run.id), (running) => this.setRunning(running));
    this.grainsBox = new RunBox(api, blank, t('Measuring grains'), () => void this.ended(this.section?.layers?.id), (running) => this.setRunning(running));
    for (const map of micrographs.maps) map.addLayer(this.boundaryLayer.layer());
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
    this.steps = readSteps(layers?.parameters['clicks']);
    if (layers) {
      const url = new URL(location.href);
      url.searchParams.set('run', layers.id);
      history.replaceState(null, '', url);
      this.fillFields(layers);
    }
    this.scale.show(this.section, layers);
    this.boundaryLayer.show(this.boundaries, this.steps);
    this.render();
  }

  private fillFields({ parameters }: Run): void {
    const text = (name: string): string => (Number(parameters[name]) > 0 ? parameters[name]! : '');
    this.obliquity.value = text('obliquity');
    this.which.value = parameters['boundaries'] ?? 'proposed';
  }

  private render(): void {
    const { problem, leftOut, scale, layers } = this.section!;
    if (problem) return fill(this.place, el('h3', {}, t('Measuring')), el('p', { class: 'quiet' }, problem));
    this.propose.textContent = layers ? t('Propose again') : t('Propose layers');
    this.propose.classList.toggle('act', !layers);
    fill(this.place, el('h3', { id: 'measuring' }, t('Measuring')),
      el('p', { class: 'quiet small' }, t('Boundaries are proposed from all micrographs at once and are consistent with layers, no more; a person accepts them.')),
      ...leftOut.map((text) => el('p', { class: 'small' }, text)),
      el('div', { class: 'acts' }, this.propose, layers ? this.tools.buttons : null),
      layers ? this.tools.list : null,
      el('details', { class: 'small', open: !layers && !scale }, el('summary', {}, t('Scale and cut')), this.scale.element, el('div', { class: 'fields' },
        labelled(t('Obliquity of the cut'), this.obliquity, t('degrees'), t('As measured on the block; 0 for a square cut')), labelled(t('Boundaries'), this.which, '', ''))),
      layers ? this.tools.form : null, this.said, this.layersBox.element, this.grainsBox.element, this.results);
    this.tools.render();
    this.renderResults(layers);
    this.setRunning(this.running);
  }

  private renderResults(layers: Run | null): void {
    if (!layers) return fill(this.results);
    const { measured } = this.section!;
    const [rows, count] = [layerRows(measured), measured.filter((m) => m.part === '').length];
    const coats = layers.figures.find((f) => f.name === 'varnish-coats')?.value;
    const hasGrains = rows.some((r) => r.grains !== '');
    fill(this.results,
      el('p', {}, `${counted(count, '1 layer', '{0} layers')}${coats == null ? '' : t(', {0} of them consistent with coats of varnish', coats)}. ${scaleSentence(layers)}`),
      el('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': t('Layers as measured') }, el('table', { class: 'ruled' },
        el('thead', {}, el('tr', {}, ...[t('No.'), t('Thickness'), t('Spread along the section'), t('There in'), t('Seen'), ...(hasGrains ? [t('Grains')] : []), t('On record')].map((h) => el('th', { scope: 'col' }, h)))),
        el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, r.number), el('td', {}, r.thickness), el('td', {}, r.spread), el('td', {}, r.coverage), el('td', { class: 'words' }, r.seen),
          hasGrains && el('td', { class: 'words' }, r.grains), el('td', { class: 'words written' }, this.names.get(r.number) ?? t('not yet'))))))),
      ...gridSentences(layers).map((text) => el('p', { class: 'small' }, text)),
      ...[...new Set([...layers.warnings, ...(this.section!.grains?.warnings ?? [])].map((w) => w.message))].map((text) => el('p', { class: 'small quiet' }, text)),
      el('div', { class: 'acts' }, this.keep, this.grains),
      el('p', { class: 'small quiet' }, t('Taking over writes thickness and run into the record. A layer taken over before is recognised by its place, one written by hand by its number; what a person wrote of it stays, and what it was before can be read.')));
  }

  private steered(steps: readonly Step[]): void {
    if (this.running || this.loading) return this.layersBox.tell(t('The boundaries are still being followed; do it again afterwards.'));
    void this.ask(steps);
  }

  /** Has the boundaries followed after these steps; they stay as they are unless that ends with a result. */
  private async ask(steps: readonly Step[]): Promise<void> {
    if (this.running || this.loading || !this.section || this.section.problem) return;
    this.say(this.scale.problem);
    if (this.scale.problem !== null || !this.obliquity.reportValidity()) return;
    this.boundaryLayer.show(this.boundaries, steps);
    const given = { ...this.scale.parameters, ...(this.obliquity.value !== '' && { obliquity: Number(this.obliquity.value) }) };
    const { layers: before } = this.section;
    await this.layersBox.start('layers', { clicks: writeSteps(steps), boundaries: steps.length === 0 ? 'proposed' : this.which.value, ...given }, { ...this.section.inputs, ...this.scale.inputs });
    // A run that came to nothing leaves what was there.
    if (!this.loading && this.section.layers === before) this.boundaryLayer.show(this.boundaries, this.steps);
  }

  private async measureGrains(): Promise<void> {
    if (this.running || !this.section?.grainParameters || !this.section.layers) return;
    // What the layers were measured in: their own scale's picture too.
    const inputs: Record<string, string[]> = {};
    for (const { slot, photographId } of this.section.layers.inputs) if (photographId) (inputs[slot] ??= []).push(photographId);
    await this.grainsBox.start('particles', this.section.grainParameters, inputs);
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
    this.tools.setBusy(busy);
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
