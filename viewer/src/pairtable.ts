// The table of pairs: what the fit leaves of each, whether it counts, and what can be done with it.
import type { PairsFit } from './api';
import { el, fill } from './dom';
import { t } from './language';
import type { Pair, WholePair } from './pairlist';
import { offText, worstOf } from './pairwords';
import { fixed } from './units';

export interface PairTableActions {
  look(id: number): void;
  use(id: number, used: boolean): void;
  lock(id: number, locked: boolean): void;
  snap(id: number): void;
  remove(id: number): void;
}

export class PairTable {
  readonly element = el('table', { class: 'pairtable' });

  constructor(private readonly actions: PairTableActions) {}

  /** Shows pairs; `fit` is of exactly the whole ones, or null while there is none. */
  show(pairs: readonly Pair[], whole: readonly WholePair[], fit: PairsFit | null, selected: number | null): void {
    const focus = (document.activeElement as HTMLElement | null)?.dataset['key'];
    const worst = fit && worstOf(fit, whole.map((p) => p.used));
    this.element.hidden = pairs.length === 0;
    fill(this.element,
      el('thead', {}, el('tr', {}, ...[t('Pair'), t('Use')].map((word) => el('th', { scope: 'col' }, word)), ...[t('Off, mm'), 'px', t('Left out, mm')].map((word) => el('th', { scope: 'col', class: 'number' }, word)), el('th', { scope: 'col' }, el('span', { class: 'spoken' }, t('What can be done'))))),
      ...pairs.map((pair) => {
        const at = whole.findIndex((p) => p.id === pair.id);
        return this.row(pair, at >= 0 ? fit?.pairs[at] : undefined, fit?.mmPerPixel ?? 1, worst && at === worst.index ? worst.says : '', pair.id === selected);
      }));
    if (focus) this.element.querySelector<HTMLElement>(`[data-key="${focus}"]`)?.focus();
  }

  private row(pair: Pair, left: PairsFit['pairs'][number] | undefined, mmPerPixel: number, worst: string, selected: boolean): HTMLElement {
    const { id } = pair;
    const act = (word: string, title: string, act: () => void, pressed?: boolean): HTMLElement =>
      el('button', { type: 'button', title, 'aria-label': t('{0} pair {1}', word, id), 'data-key': `${word} ${id}`, 'aria-pressed': pressed === undefined ? undefined : String(pressed), click: act }, word);
    const number = (text: string): HTMLElement => el('td', { class: 'number' }, text);
    const note = [worst, !pair.used && t('Not used.'), !pair.place && t('Its place in the reference is still to be set.'),
      !pair.pixel && t('Its place in the photograph is still to be set.'), pair.note].filter(Boolean).join(' ');
    return el('tbody', { class: selected ? 'on' : '' },
      el('tr', { 'data-pair': id },
        el('th', { scope: 'row' }, el('button', { type: 'button', title: t('Look at this pair in both panes'), 'aria-label': t('Look at pair {0}', id), 'data-key': `look ${id}`, click: () => this.actions.look(id) }, String(id))),
        el('td', {}, el('input', { type: 'checkbox', 'aria-label': t('Use pair {0}', id), 'data-key': `use ${id}`, checked: pair.used, change: (e) => this.actions.use(id, (e.target as HTMLInputElement).checked) })),
        number(left ? offText(left.mm, mmPerPixel) : ''), number(left ? fixed(left.px, 1) : ''), number(left ? (left.leftOutMm === null ? t('unknown') : offText(left.leftOutMm, mmPerPixel)) : ''),
        el('td', { class: 'acts' },
          act(t('Lock'), t('A locked pair is moved by nothing'), () => this.actions.lock(id, !pair.locked), pair.locked),
          act(t('Snap'), t('Move its point in the photograph to the best match nearby (S)'), () => this.actions.snap(id)),
          act(t('Delete'), t('Take this pair out (Delete)'), () => this.actions.remove(id)))),
      note && el('tr', { class: 'remark' }, el('td', {}), el('td', { colspan: 5 }, note)));
  }
}
