// The Relight panel: the lamp, how the surface is shown, which run it is and what must be known of it; or the way to a run.
import type { Run } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { LampDial } from './relightdial';
import { lampText, lowest, mostTimes, type Relight, type Show } from './relightlamp';
import { heightText, type Surface, surfaceText } from './relightruns';
import type { RunBox } from './runbox';
import { fixed } from './units';

export interface RelightActions {
  change(patch: Partial<Relight>): void;
  choose(run: string): void;
  measure(): void;
  close(): void;
}

const words: Record<Show, [word: string, hint: string]> = {
  shade: [t('Shade'), t('The surface as if it were of one colour')],
  albedo: [t('With albedo'), t('The surface with the lightness that raking light measured')],
  over: [t('Over A'), t('Its light and shade over what lies on A; a level place leaves A as it is')],
};

export class RelightPanel {
  readonly element = el('section', { class: 'panel relight', 'aria-label': t('Relight'), hidden: true });
  private readonly dial = new LampDial((lamp) => this.act.change(lamp));
  private readonly where = el('p', { class: 'quiet' });
  private readonly fields: Record<'azimuth' | 'elevation' | 'times' | 'gloss', HTMLInputElement[]>;
  private readonly shown = el('span', { class: 'segments', role: 'group', 'aria-label': t('What is shown') });
  private readonly told = el('p', { class: 'quiet' });
  private readonly choice = el('select', { 'aria-label': t('Measured surface'), change: () => this.act.choose(this.choice.value) });
  private readonly said = el('div', { class: 'said' });
  private readonly lit: HTMLElement;
  private readonly none: HTMLElement;
  private readonly plan = el('p', {});
  readonly measure = el('button', { type: 'button', click: () => this.act.measure() }, t('Measure the surface'));

  constructor(private readonly act: RelightActions, run: RunBox) {
    const number = (key: keyof RelightPanel['fields'], min: number, max: number, step: number | 'any'): HTMLInputElement => {
      const input: HTMLInputElement = el('input', { type: 'number', min, max, step, change: () => act.change({ [key]: input.valueAsNumber }) });
      return input;
    };
    const range = (key: keyof RelightPanel['fields'], min: number, max: number, step: number, label: string): HTMLInputElement => {
      const input: HTMLInputElement = el('input', { type: 'range', min, max, step, 'aria-label': label, input: () => act.change({ [key]: Number(input.value) }) });
      return input;
    };
    this.fields = {
      azimuth: [number('azimuth', 0, 360, 'any')], elevation: [number('elevation', lowest, 90, 'any')],
      times: [range('times', 1, mostTimes, 0.5, t('How many times slopes are exaggerated')), number('times', 1, mostTimes, 'any')],
      gloss: [range('gloss', 0, 1, 0.05, t('How strong the gloss is')), number('gloss', 0, 1, 'any')],
    };
    fill(this.shown, ...Object.entries(words).map(([show, [word, hint]]) => el('button', { type: 'button', 'data-show': show, title: hint, click: () => act.change({ show: show as Show }) }, word)));
    const field = (label: string, unit: string, key: keyof RelightPanel['fields']): HTMLElement =>
      el('label', { class: 'angle' }, el('span', {}, label), ...this.fields[key], el('span', { class: 'unit' }, unit));
    const slider = (label: string, unit: string, key: 'times' | 'gloss'): HTMLElement =>
      el('div', { class: 'slider' }, el('label', {}, label, this.fields[key][0]!), el('label', { class: 'angle' }, el('span', { class: 'spoken' }, label), this.fields[key][1]!, el('span', { class: 'unit' }, unit)));
    this.lit = el('div', { class: 'lit' },
      el('div', { class: 'lampbox' }, this.dial.element, el('div', { class: 'angles' }, el('h3', {}, t('Lamp')), this.where, field(t('Azimuth'), '°', 'azimuth'), field(t('Elevation'), '°', 'elevation'))),
      this.shown, slider(t('Slopes exaggerated'), '×', 'times'), slider(t('Gloss'), '', 'gloss'), this.told, this.choice, this.said);
    this.none = el('div', { class: 'lit' }, this.plan, this.measure);
    this.element.append(el('header', {}, el('h2', {}, t('Relight')), el('button', { type: 'button', title: t('Close (Q)'), click: () => act.close() }, t('Close'))), this.lit, this.none, run.element);
  }

  /** Shows a lamp, and of the surfaces the one that is chosen; `plan` says what would be measured when there is none. */
  refresh(relight: Relight, turn: number, surfaces: readonly Surface[], chosen: Surface | null, plan: string | null): void {
    this.lit.hidden = chosen === null;
    this.none.hidden = chosen !== null || plan === null;
    this.plan.textContent = plan ?? '';
    this.lamp(relight, turn);
    if (chosen === null) return;
    this.choice.hidden = surfaces.length < 2;
    fill(this.choice, ...surfaces.map((s) => el('option', { value: s.run.id, selected: s === chosen }, surfaceText(s))));
    fill(this.said, surfaces.length < 2 && el('p', {}, `${surfaceText(chosen)}.`), el('p', { class: 'quiet' }, heightText(chosen)), ...warnings(chosen.run));
  }

  /** Takes the keys to what comes first. */
  focus(): void {
    (this.lit.hidden ? this.measure : this.dial.element).focus();
  }

  /** Shows the lamp alone: this is called for every movement. */
  lamp(relight: Relight, turn: number): void {
    this.dial.show(relight, turn);
    this.where.textContent = lampText(relight);
    for (const [key, inputs] of Object.entries(this.fields) as [keyof RelightPanel['fields'], HTMLInputElement[]][])
      for (const input of inputs) if (input.type === 'range' || document.activeElement !== input) input.value = String(Number(relight[key].toFixed(key === 'gloss' ? 2 : 1)));
    for (const item of this.shown.querySelectorAll<HTMLElement>('button')) item.setAttribute('aria-pressed', String(item.dataset['show'] === relight.show));
    this.told.textContent = relight.times > 1 ? t('Slopes are exaggerated {0} times: the surface is flatter than it looks here.', fixed(relight.times, relight.times % 1 ? 1 : 0)) : '';
  }
}

const warnings = ({ warnings: all }: Pick<Run, 'warnings'>): HTMLElement[] => all.map((w) => el('p', { class: 'quiet' }, w.message));
