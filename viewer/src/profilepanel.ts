// The Profile panel under the picture: the plot, what it says, the line in numbers, the table to take away, and the way to what a pull of the brush tells.
import type { Run } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { fromEdges, type Place } from './plane';
import { broadest, csvOf, levelled, type Profile, type ProfileLine, summary } from './profileline';
import { ProfilePlot } from './profileplot';
import { pullSentences } from './pullwords';
import { heightText, type Surface, surfaceText } from './relightruns';
import type { RunBox } from './runbox';

export interface ProfileActions {
  draw(): void;
  line(line: readonly Place[]): void;
  breadth(mm: number): void;
  cursor(mm: number | null): void;
  measure(): void;
  pull(): void;
  close(): void;
}

const ends = [t('From'), t('to')];

export class ProfilePanel {
  readonly element = el('section', { class: 'panel profile', 'aria-label': t('Profile'), hidden: true });
  private readonly plot = new ProfilePlot((index) => this.point(index));
  private readonly said = el('p', { class: 'summary', role: 'status', 'aria-live': 'polite' });
  private readonly readout = el('p', { class: 'readout' });
  private readonly ends = ends.map((word) => [t('mm from left'), t('from bottom')].map((axis) => el('input', { type: 'number', step: 'any', 'aria-label': `${word} ${axis}`, change: () => this.entered() }))) as [HTMLInputElement, HTMLInputElement][];
  private readonly breadth: HTMLInputElement = el('input', { type: 'number', min: 0, max: broadest, step: 'any', required: true, change: () => this.breadth.reportValidity() && this.act.breadth(this.breadth.valueAsNumber) });
  private readonly level = el('input', { type: 'checkbox', change: () => this.replot() });
  private readonly save = el('button', { type: 'button', click: () => this.download() }, t('Save as table (CSV)'));
  private readonly measure = el('button', { type: 'button', click: () => this.act.measure() }, t('Measure the surface first'));
  private readonly pull = el('button', { type: 'button', title: t('Trend, stops of the hand and their rhythm along this line, drawn with a pull of the brush'), click: () => this.act.pull() }, t('Measure this pull'));
  private readonly told = el('div', { class: 'told' });
  private readonly of = el('p', { class: 'quiet of' });
  private profile: Profile | null = null;
  private drawn: ProfileLine | null = null;
  private surface: Surface | null = null;

  constructor(private readonly act: ProfileActions, run: RunBox, private readonly heightMm: number) {
    this.element.append(
      el('header', {}, el('h2', {}, t('Profile')), this.said, el('button', { type: 'button', title: t('Close (A)'), click: () => act.close() }, t('Close'))),
      el('div', { class: 'across' },
        el('div', {}, el('figure', {}, this.plot.element, el('figcaption', {}, this.readout, el('label', { class: 'check' }, this.level, t('Less the best straight line')))), this.told),
        el('div', { class: 'side' },
          el('div', { class: 'numbers' }, ...this.ends.map((pair, i) => el('span', {}, `${ends[i]} `, pair[0], t(' from left, '), pair[1], t(' from bottom'))), el('label', {}, t('Averaged over '), this.breadth, t(' mm across'))),
          el('div', { class: 'row' }, el('button', { type: 'button', click: () => act.draw() }, t('Draw a line')), this.save, this.pull, this.measure),
          run.element)),
      this.of);
  }

  /** Shows the line and the surface it lies on. */
  refresh(drawn: ProfileLine, surface: Surface | null, known: boolean): void {
    [this.drawn, this.surface] = [drawn, surface];
    const { line, breadth } = drawn;
    const places = line.length > 1 ? [line[0]!, line[line.length - 1]!] : [];
    this.ends.forEach((pair, i) => {
      const place = places[i] && fromEdges(places[i], this.heightMm);
      const shown = place ? [place.fromLeft, place.fromBottom].map((v) => String(Number(v.toFixed(2)))) : ['', ''];
      pair.forEach((input, k) => { if (document.activeElement !== input) input.value = shown[k]!; });
    });
    if (document.activeElement !== this.breadth) this.breadth.value = String(breadth);
    this.measure.hidden = surface !== null || !known;
    fill(this.of, surface && `${surfaceText(surface)}. ${heightText(surface)}`);
  }

  /** Shows what the server read, or says why there is nothing. */
  show(profile: Profile | null, saying = ''): void {
    this.profile = profile;
    this.save.disabled = this.pull.disabled = profile === null;
    this.level.disabled = profile === null;
    this.replot(saying);
  }

  /** Whether a run is under way. */
  running(running: boolean): void {
    this.pull.disabled = running || this.profile === null;
  }

  /** What was found along the pull; null when the line is another. */
  pulled(run: Run | null): void {
    fill(this.told, ...(run === null ? [] : [el('ul', {}, ...pullSentences(run).map((s) => el('li', {}, s))), ...run.warnings.map((w) => el('p', { class: 'quiet' }, w.message)), el('p', { class: 'quiet' }, t('It describes a movement along the line that was drawn, never whose hand made it.'))]));
  }

  private get shown(): Profile | null {
    return this.profile && this.level.checked ? { ...this.profile, values: levelled(this.profile.values) } : this.profile;
  }

  private replot(saying = ''): void {
    this.plot.show(this.shown);
    this.said.textContent = this.shown ? summary(this.shown) : saying;
  }

  private point(index: number | null): void {
    if (!this.profile) return;
    this.readout.textContent = index === null ? t('Point at the plot, or use its arrow keys') : this.plot.text(index);
    this.act.cursor(index === null ? null : index * this.profile.stepMm);
  }

  /** Numbers were entered: they move the ends, and make a line where there was none. */
  private entered(): void {
    const places = this.ends.map(([x, y]): Place => [x.valueAsNumber, this.heightMm - y.valueAsNumber]);
    if (places.flat().some((v) => !Number.isFinite(v))) return;
    const between = this.drawn && this.drawn.line.length > 2 ? this.drawn.line.slice(1, -1) : [];
    this.act.line([places[0]!, ...between, places[1]!]);
  }

  private download(): void {
    const url = URL.createObjectURL(new Blob([csvOf(this.shown!, this.drawn!.line)], { type: 'text/csv' }));
    el('a', { href: url, download: `profile-relief-${this.surface?.run.id ?? ''}${this.level.checked ? '-levelled' : ''}.csv` }).click();
    // The browser has begun to read it by then.
    setTimeout(() => URL.revokeObjectURL(url), 1000);
  }
}
