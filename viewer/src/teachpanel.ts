// The Teach panel in the column: classes, what is looked at, what was learnt and how far it holds, and the way to the whole painting.
import type { Layer, Taught } from './api';
import { el, fill } from './dom';
import { counted, t } from './language';
import { type Keeping, shownName } from './marks';
import { reliabilityPlot } from './reliability';
import type { RunBox } from './runbox';
import { type ClassActions, ClassList, type ClassView, hatchSwatch } from './teachclasses';
import { carriedText, carriers, qualityText } from './teachwords';
import { fixed } from './units';

export interface TeachActions extends ClassActions {
  width(mm: number): void;
  layers(ids: string[]): void;
  opacity(value: number): void;
  whole(): void;
  withdraw(): void;
  send(): void;
  insist(): void;
  giveWay(): void;
  leave(): void;
}

export interface TeachView extends ClassView {
  keeping: Keeping;
  problem: string;
  /** What is being done, or why nothing is shown. */
  saying: string;
  asking: boolean;
  running: boolean;
  /** Areas that teaching proposed and nobody has judged. */
  proposals: number;
}

export class TeachPanel {
  readonly element = el('section', { class: 'teach', 'aria-label': t('Teach'), hidden: true });
  private readonly classes: ClassList;
  private readonly kept = el('div', { class: 'keptstate', role: 'status' });
  private readonly width: HTMLInputElement = el('input', { type: 'number', min: 0.05, max: 50, step: 'any', required: true, change: () => this.width.reportValidity() && this.act.width(this.width.valueAsNumber) });
  private readonly legend = el('p', { class: 'legend' });
  private readonly saying = el('p', { class: 'saying', role: 'status', 'aria-live': 'polite' });
  private readonly learnt = el('div', { class: 'learnt' });
  private readonly whole = el('button', { type: 'button', class: 'whole', click: () => this.act.whole() }, t('Teach the whole painting'));
  private readonly proposed = el('p', { class: 'proposed' });
  private readonly looked = el('summary');
  private readonly boxes: HTMLInputElement[];
  private shownLesson: Taught | null = null;

  constructor(private readonly act: TeachActions, run: RunBox, private readonly layers: readonly Layer[]) {
    this.classes = new ClassList(act);
    this.boxes = layers.map((l) => el('input', { type: 'checkbox', value: l.photographId!, change: () => this.act.layers(this.boxes.filter((b) => b.checked).map((b) => b.value)) }));
    const opacity: HTMLInputElement = el('input', { type: 'range', min: 0.2, max: 1, step: 0.05, value: 0.85, input: () => this.act.opacity(Number(opacity.value)) });
    this.element.append(
      el('header', {}, el('h2', {}, t('Teach')), el('button', { type: 'button', title: t('Put the tool down (Esc)'), click: () => this.act.leave() }, t('Leave'))),
      el('p', { class: 'quiet' }, t('Mark places that you are sure of, five or more apart in each class. Mark what the painting is elsewhere too: everything is given to one of the classes.')),
      this.kept, this.classes.element,
      el('label', { class: 'inline' }, t('A stroke counts '), this.width, t(' mm wide')),
      this.saying, this.legend, el('label', { class: 'inline' }, t('How strongly '), opacity),
      el('div', { class: 'wholerun' }, this.whole, run.element, this.proposed),
      this.learnt,
      el('details', {}, this.looked, ...layers.map((l, i) => el('label', { class: 'check' }, this.boxes[i]!, `${l.light}  ${l.label}${l.verdict === 'uncertain' ? t(', alignment uncertain') : ''}`))));
  }

  refresh(view: TeachView, lookedAt: readonly string[]): void {
    this.classes.refresh(view);
    if (document.activeElement !== this.width) this.width.value = String(view.sheet.strokeWidth);
    for (const box of this.boxes) box.checked = lookedAt.includes(box.value);
    this.looked.textContent = t('Looks at {0} of {1} photographs on the plane', lookedAt.length, this.layers.length);
    this.saying.textContent = view.saying;
    this.element.setAttribute('aria-busy', String(view.asking));
    const shown = view.shown !== null && view.sheet.classes[view.shown] !== undefined ? view.shown : null;
    fill(this.legend, ...(shown === null ? [] : [hatchSwatch(view.sheet.classes, shown, [0.4, 0.55, 0.75, 1], 104), t(' {0}: fine: less probable than all others together; broad: certain. Black line: 70 %. Y hides.', shownName(view.sheet.classes[shown]!))]));
    this.whole.disabled = view.running || (view.taught?.classes.length ?? 0) < 2;
    fill(this.proposed, view.proposals > 0 && counted(view.proposals, "One area that teaching proposed: select it among the zones below to keep it, or say 'Not this'. ", "{0} areas that teaching proposed: select one among the zones below to keep it, or say 'Not this'. "),
      view.proposals > 0 && el('button', { type: 'button', title: t('Ctrl+Z brings them back, once the tool is put down'), click: () => this.act.withdraw() }, t('Take all away')));
    this.keeping(view);
    if (view.taught !== this.shownLesson) this.lesson((this.shownLesson = view.taught));
  }

  private keeping({ keeping, problem }: TeachView): void {
    const act = (word: string, click: () => void): HTMLElement => el('button', { type: 'button', click }, word);
    const { act: to } = this;
    fill(this.kept, ...(keeping === 'unsent' ? [el('p', {}, t('The last marks are not stored: the server does not answer. They stay here.')), act(t('Store them now'), () => to.send())]
      : keeping === 'changed elsewhere' ? [el('p', {}, t('The marks were changed in another window meanwhile.')), act(t('Show those'), () => to.giveWay()), act(t('Store these over them'), () => to.insist())]
      : keeping === 'refused' ? [el('p', {}, problem)] : []));
  }

  private lesson(taught: Taught | null): void {
    if (taught === null || taught.classes.length === 0) return fill(this.learnt);
    const bands = carriers(taught.importance, false).slice(0, 5);
    const photographs = carriers(taught.importance, true).slice(0, 3);
    fill(this.learnt,
      ...qualityText(taught).map(([figure, meaning]) => el('p', { class: 'figureline' }, figure, el('small', {}, ` ${meaning}`))),
      taught.quality && el('figure', {}, reliabilityPlot(taught.quality), el('figcaption', { class: 'quiet' }, t('On the line: what was said was right. A dot’s area: how many marks.'))),
      taught.importance.length > 0 && el('h3', {}, carriedText(taught.importance)),
      bands.length > 0 && el('ul', { class: 'carriers' }, ...bands.map(carrier)),
      photographs.length > 0 && el('p', { class: 'quiet' }, t('By photograph: {0}. Lights that say the same share it.', photographs.map((p) => `${p.name} ${fixed(100 * p.share, 0)} %`).join(', '))),
      el('p', { class: 'quiet' }, t('Seen at {0} mm a pixel, with half the trees of the whole painting’s run.', fixed(taught.mmPerPixel, 2))));
  }
}

function carrier({ name, share }: { name: string; share: number }): HTMLElement {
  const bar = el('span', { class: 'carried', 'aria-hidden': 'true' });
  bar.style.width = `${Math.round(share * 100)}%`;
  return el('li', {}, el('span', {}, name), el('span', { class: 'number' }, `${fixed(100 * share, 0)} %`), bar);
}
