// What readings propose, judged one after the other: the Easel flies from candidate to candidate; a key keeps it as a finding, another says that it is none, and why.
import type { Zone } from './api';
import { el, fill } from './dom';
import { key, type Key, sign } from './keys';
import { zoneName } from './kindwords';
import { t } from './language';
import type { ZoneStore } from './zonestore';

/** Candidates in the order in which they are judged: by kind, the surest first, as the page of findings lists them. */
export function inOrder(zones: readonly Zone[]): Zone[] {
  const text = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  return zones.filter((z) => z.isCandidate).sort((a, b) => text(a.kind, b.kind) || (b.confidence ?? -1) - (a.confidence ?? -1) || text(a.id, b.id));
}

/** The candidate after one, or before it, around the end; the first when none is given. */
export function following(candidates: readonly Zone[], id: string | null, step: 1 | -1): Zone | undefined {
  const at = candidates.findIndex((z) => z.id === id);
  return at < 0 ? candidates.at(step > 0 ? 0 : -1) : candidates[(at + step + candidates.length) % candidates.length];
}

export class CandidateDesk {
  /** Reasons that were given, the last one first: the next candidate is often none for the same. */
  private readonly reasons: string[] = [];
  /** Stands above all else that is known of a place while a candidate is selected. */
  readonly element = el('div');
  private reason: HTMLInputElement | null = null;
  private shown = '';

  constructor(private readonly zones: ZoneStore, private readonly selected: () => string | null, private readonly select: (zone: string | null) => void, private readonly say: (message: string) => void) {}

  keys(): Key[] {
    return [
      { keys: t('PgDn and PgUp'), says: t('fly to the next candidate, the one before'), group: t('Candidates'), match: sign('PageDown', 'PageUp'), act: (e) => this.fly(e.key === 'PageDown' ? 1 : -1) },
      { keys: 'Y', says: t('keep the candidate as a finding'), group: t('Candidates'), match: (e) => key('y')(e) && this.isOpen(), act: () => void this.keep() },
      { keys: t('Del'), says: t('it is none: say why'), group: t('Candidates'), match: (e) => e.key === 'Delete' && this.isOpen(), act: () => this.reason?.select() },
    ];
  }

  /** Shows the selection as it is now. */
  refresh(): void {
    const zone = this.zones.get(this.selected());
    const candidates = inOrder(this.zones.all);
    const shown = zone?.isCandidate ? `${zone.id} ${candidates.length}` : '';
    if (shown === this.shown) return;
    this.shown = shown;
    fill(this.element, shown === '' ? null : this.formOf(zone!, candidates));
  }

  private formOf(zone: Zone, candidates: readonly Zone[]): HTMLElement {
    const sure = zone.confidence === null ? '' : t(' How sure it is: {0} %.', Math.round(zone.confidence * 100));
    const input = el('input', { type: 'text', maxlength: 2000, value: this.reasons[0] ?? '', 'aria-label': t('Why it is none'), list: 'candidate-reasons' });
    this.reason = input;
    return el('section', { class: 'candidate', 'aria-label': t('Judge this candidate') },
      el('h2', {}, zoneName(zone)),
      el('p', {}, t('Candidate {0} of {1}. A reading proposes this zone{2}{3}', candidates.findIndex((z) => z.id === zone.id) + 1, candidates.length, zone.reason ? `: ${zone.reason}` : '.', sure)),
      el('p', {}, el('button', { type: 'button', click: () => void this.keep() }, t('Keep as finding')), el('button', { type: 'button', click: () => this.fly(-1) }, t('The one before')), el('button', { type: 'button', click: () => this.fly(1) }, t('Next'))),
      el('form', { class: 'reject', submit: (event) => { event.preventDefault(); void this.rejectFor(input.value.trim()); } },
        el('label', {}, t('Why it is none'), input),
        el('datalist', { id: 'candidate-reasons' }, ...this.reasons.map((r) => el('option', { value: r }))),
        el('button', { type: 'submit' }, t('Not this'))));
  }

  private isOpen(): boolean {
    return this.zones.get(this.selected())?.isCandidate === true;
  }

  private fly(step: 1 | -1): void {
    const zone = following(inOrder(this.zones.all), this.selected(), step);
    if (zone) this.select(zone.id);
    else this.say(t('No candidate is left to judge.'));
  }

  private async keep(): Promise<void> {
    await this.judge(t('kept as a finding'), (id) => this.zones.keepCandidate(id));
  }

  private async rejectFor(reason: string): Promise<void> {
    if (reason === '') {
      this.say(t('Say in a few words why it is none: the reason is kept.'));
      this.reason?.focus();
      return;
    }
    this.reasons.splice(0, this.reasons.length, reason, ...this.reasons.filter((r) => r !== reason).slice(0, 9));
    await this.judge(t('none'), (id) => this.zones.rejectCandidate(id, reason));
  }

  /** Judges the selected candidate, and goes on to the next when that was stored. */
  private async judge(verdict: string, act: (id: string) => Promise<void>): Promise<void> {
    const zone = this.zones.get(this.selected());
    if (!zone?.isCandidate) return;
    const next = following(inOrder(this.zones.all), zone.id, 1);
    await act(zone.id);
    if (this.zones.get(zone.id)?.isCandidate) return;
    this.say(t('{0}: {1}. Ctrl+Z takes it back.', zoneName(zone), verdict));
    this.select(next && next.id !== zone.id ? next.id : null);
  }
}
