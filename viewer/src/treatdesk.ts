// The treatment on the Easel: a step's places, done and to do, switched from day to day.
import VectorSource from 'ol/source/Vector';
import { type Api, isAbort, type Painting, type TreatDay, type TreatPlaces, type TreatStep } from './api';
import { el, fill } from './dom';
import { key, type Key, sign } from './keys';
import { drawSwatch, kindFrom } from './kinds';
import { t } from './language';
import type { Notices } from './notices';
import type { Stage } from './stage';
import type { Store } from './state';
import { button } from './toolbar';
import { placesLayer, showPlaces } from './treatlayer';
import { dayOf } from './treatlink';
import { areaText, fixed } from './units';

export class TreatDesk {
  readonly element = el('section', { class: 'treat', 'aria-label': t('Treatment'), hidden: true });
  readonly button = button(t('Treatment'), t('Show what was done and what is to do, day by day (Shift+T)'), () => this.toggle());
  private readonly source = new VectorSource();
  private readonly steps = el('select', { 'aria-label': t('Step of the treatment'), change: () => this.store.set({ treat: { step: this.steps.value, day: null } }) });
  private readonly slider = el('input', { type: 'range', min: 0, step: 1, 'aria-label': t('Day of the log'), input: () => this.choose(Number(this.slider.value)) });
  private readonly said = el('p', { role: 'status', 'aria-live': 'polite' });
  private readonly legend = el('p', { class: 'classkey' });
  private all: TreatStep[] = [];
  private asked = new AbortController();
  private loaded = false;
  private last = '';

  constructor(private readonly painting: Painting, stage: Stage, private readonly store: Store, private readonly api: Api, private readonly notices: Notices) {
    stage.addOverlay(placesLayer(this.source), placesLayer(this.source));
    this.button.setAttribute('aria-pressed', 'false');
    const close = button(t('Close'), t('Put the treatment away (Shift+T)'), () => this.toggle());
    fill(this.element, el('header', {}, el('h2', {}, t('Treatment')), close), this.steps, this.slider, this.said, this.legend, el('p', {}, el('a', { href: `/paintings/${painting.id}/treatment` }, t('The log'))));
    store.on((_, changed) => changed.has('treat') && void this.show());
  }

  keys(): Key[] {
    const open = (): boolean => this.store.now.treat !== null;
    return [
      { keys: t('Shift+T'), says: t('treatment: done and to do, day by day'), group: t('Treatment'), match: key('t', { shift: true }), act: () => this.toggle() },
      { keys: t('; and :'), says: t('the day of the log before, the next'), group: t('Treatment'), match: (e) => open() && sign(';', ':')(e), act: (e) => this.choose(this.at + (e.key === ':' ? 1 : -1)) },
    ];
  }

  begin(): void {
    void this.show();
  }

  private get step(): TreatStep | undefined {
    return this.all.find((s) => s.stepId === this.store.now.treat?.step);
  }

  private get days(): TreatDay[] {
    return this.step?.days ?? [];
  }

  /** Where the day that is shown stands among those of the log; -1 before the first. */
  private get at(): number {
    const day = dayOf(this.days.map((d) => d.day), this.store.now.treat?.day ?? null);
    return this.days.findIndex((d) => d.day === day);
  }

  private toggle(): void {
    const opens = this.store.now.treat === null;
    this.last = this.store.now.treat?.step ?? this.last;
    this.store.set({ treat: opens ? { step: this.last, day: null } : null });
    (opens ? this.steps : this.button).focus();
  }

  private choose(at: number): void {
    const day = this.days[Math.min(this.days.length - 1, Math.max(0, at))];
    if (this.step && day) this.store.set({ treat: { step: this.step.stepId, day: day.day } });
  }

  /** Follows the state: the panel, and the places of the step's day. */
  private async show(): Promise<void> {
    this.asked.abort();
    const asked = (this.asked = new AbortController());
    const treat = this.store.now.treat;
    this.element.hidden = treat === null;
    this.button.setAttribute('aria-pressed', String(treat !== null));
    if (treat === null) return this.source.clear();
    try {
      if (!this.loaded) await this.load();
      if (asked.signal.aborted) return;
      this.refresh();
      if (!this.step) return this.source.clear();
      const places = await this.api.treatPlaces(this.step.stepId, this.days[this.at]?.day ?? null, asked.signal);
      showPlaces(this.source, places);
      this.explain(places);
    } catch (error) {
      if (!isAbort(error)) this.notices.problem(error);
    }
  }

  private async load(): Promise<void> {
    this.all = await this.api.treatment(this.painting.id);
    this.loaded = true;
    fill(this.steps, ...this.all.map((s) => el('option', { value: s.stepId }, s.name)));
    if (!this.step && this.all[0] && this.store.now.treat) this.store.set({ treat: { step: this.all[0].stepId, day: null } });
  }

  private refresh(): void {
    this.steps.hidden = this.all.length === 0;
    if (this.step) this.steps.value = this.step.stepId;
    this.slider.hidden = this.days.length < 2;
    this.slider.max = String(this.days.length - 1);
    this.slider.value = String(this.at);
    const day = this.days[this.at];
    this.slider.setAttribute('aria-valuetext', day?.day ?? '');
    this.said.textContent = this.all.length === 0 ? t('The treatment has no step yet.') : (this.step?.noAnswer ?? (day ? sentence(day) : t('Nothing was done yet.')));
  }

  /** What the hatches mean. */
  private explain({ features, looks }: TreatPlaces): void {
    const words: Record<string, string> = { done: t('done'), retouched: t('retouched'), 'to do': t('to do') };
    fill(this.legend, ...features.map(({ properties: { state } }) => {
      const canvas = el('canvas', { width: 36, height: 24, 'aria-hidden': 'true' });
      drawSwatch(canvas.getContext('2d')!, kindFrom(looks[state]));
      return el('span', {}, canvas, words[looks[state].name] ?? looks[state].name);
    }));
  }
}

/** "2026-03-05: 365.0 cm², 39.1 % of the step's place; 8.5 h". */
const sentence = ({ day, done, share, shareUncertainty, hours }: TreatDay): string => {
  const off = shareUncertainty ? ` ± ${fixed(100 * shareUncertainty, 1)}` : '';
  return t("{0}: {1}, {2} % of the step's place; {3} h", day, areaText(done.areaMm2), `${fixed(100 * share, 1)}${off}`, fixed(hours, 1));
};
