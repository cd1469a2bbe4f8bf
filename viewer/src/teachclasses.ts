// The classes of the Teach panel: which one is drawn, which one is shown, their strokes, and how far each can be told from the others.
import type { Sheet, Taught } from './api';
import { el, fill } from './dom';
import { appearances, paintHatch } from './hatching';
import { counted, t } from './language';
import { keptName, marksOf, mostClasses, nameProblem, shownName, suggestions } from './marks';
import { recognisedText, sign, standing } from './teachwords';

export interface ClassActions {
  pen(index: number): void;
  show(index: number | null): void;
  add(name: string): void;
  rename(index: number, name: string): void;
  removeClass(index: number): void;
  select(mark: number): void;
  removeMark(mark: number): void;
}

export interface ClassView {
  sheet: Sheet;
  /** The class that is drawn; -1 while there is none. */
  pen: number;
  /** The class whose probability is shown. */
  shown: number | null;
  stroke: number | null;
  taught: Taught | null;
}

export class ClassList {
  readonly element = el('div', { class: 'classes' });
  private readonly list = el('ol');
  private readonly form = el('div', { class: 'ofclass' });
  private readonly fresh: HTMLInputElement = el('input', { type: 'text', maxlength: 80, 'aria-label': t('Class to add'), placeholder: t('new class'), input: () => this.refuse('') });
  private readonly chips = el('p', { class: 'chips' });
  private readonly refused = el('p', { class: 'refused', role: 'alert' });
  private formFor = '';
  private view: ClassView | null = null;

  constructor(private readonly act: ClassActions) {
    const add = el('form', { class: 'row', submit: (event) => {
      event.preventDefault();
      this.add(this.fresh.value);
    } }, this.fresh, el('button', { type: 'submit' }, t('Add class')));
    this.element.append(this.list, this.form, add, this.chips, this.refused);
  }

  refresh(view: ClassView): void {
    this.view = view;
    const { sheet, pen } = view;
    keepingFocus(this.list, () => fill(this.list, ...sheet.classes.map((name, i) => this.row(view, name, i))));
    const left = sheet.classes.length < mostClasses ? suggestions.filter((s) => nameProblem(sheet, s) === null) : [];
    keepingFocus(this.chips, () => fill(this.chips, left.length > 0 && t('such as '), ...left.map((s) => el('button', { type: 'button', 'data-focus': s, click: () => this.add(s) }, shownName(s)))));
    const formFor = `${pen} ${sheet.classes[pen] ?? ''}`;
    if (formFor !== this.formFor) {
      this.formFor = formFor;
      fill(this.form, ...(pen < 0 ? [] : [this.name(pen, sheet.classes[pen]!), this.strokes]));
    }
    if (pen >= 0) keepingFocus(this.strokes, () => fill(this.strokes, ...this.strokeButtons(view)));
  }

  private readonly strokes = el('p', { class: 'strokes' });

  private add(name: string): void {
    const kept = keptName(name);
    const problem = nameProblem(this.view!.sheet, kept);
    this.refuse(problem ?? '');
    if (problem) return;
    this.fresh.value = '';
    this.act.add(kept);
  }

  private refuse(problem: string): void {
    this.refused.textContent = problem;
  }

  private row({ sheet, pen, shown, taught }: ClassView, name: string, i: number): HTMLElement {
    const count = marksOf(sheet, i).length;
    const learnt = taught?.classes.find((c) => c.name === name);
    const strokes = count === 0 ? t('no stroke yet') : counted(count, '1 stroke', '{0} strokes');
    const apart = learnt && learnt.examples !== count ? t(', {0} apart', learnt.examples) : '';
    return el('li', {},
      el('button', { type: 'button', class: 'pen', 'data-focus': `pen ${i}`, 'aria-pressed': String(i === pen), title: t('Draw strokes of this class (key {0})', i + 1), click: () => this.act.pen(i) },
        hatchSwatch(sheet.classes, i), el('b', {}, String(i + 1)), el('span', {}, shownName(name)), el('small', {}, ` ${strokes}${apart}`)),
      el('button', { type: 'button', class: 'see', 'data-focus': `see ${i}`, 'aria-pressed': String(i === shown), 'aria-label': t('Show where {0} is probable', shownName(name)), title: t('Show where it is probable'), click: () => this.act.show(i === shown ? null : i) }, t('Show')),
      learnt && el('p', { class: 'standing' }, el('span', { 'aria-hidden': 'true' }, `${sign(learnt)} `), learnt.isSeparable ? [standing(learnt), recognisedText(learnt)].filter(Boolean).join('; ') : learnt.verdict));
  }

  private name(index: number, name: string): HTMLElement {
    const input: HTMLInputElement = el('input', { type: 'text', maxlength: 80, value: shownName(name), change: () => {
      const kept = keptName(input.value);
      const problem = nameProblem(this.view!.sheet, kept, index);
      this.refuse(problem ?? '');
      if (problem) input.value = shownName(name);
      else if (kept !== name) this.act.rename(index, kept);
    } });
    return el('div', { class: 'row' }, el('label', {}, t('Called '), input), el('button', { type: 'button', title: t('With its strokes; Ctrl+Z brings both back'), click: () => this.act.removeClass(index) }, t('Take away')));
  }

  private strokeButtons({ sheet, pen, stroke }: ClassView): (HTMLElement | string)[] {
    const marks = marksOf(sheet, pen);
    const chosen = stroke === null ? -1 : marks.indexOf(stroke);
    return [
      ...(marks.length > 0 ? [t('Strokes ')] : []),
      ...marks.map((m, n) => el('button', { type: 'button', 'data-focus': `stroke ${n}`, 'aria-pressed': String(m === stroke), 'aria-label': t('Stroke {0} of {1}', n + 1, shownName(sheet.classes[pen]!)), click: () => this.act.select(m) }, String(n + 1))),
      ...(chosen < 0 ? [] : [el('button', { type: 'button', 'data-focus': 'remove', title: t('Del'), click: () => this.act.removeMark(stroke!) }, t('Remove stroke {0}', chosen + 1))]),
    ];
  }
}

/** Fills anew without taking the focus from whoever moves by keys. */
function keepingFocus(element: HTMLElement, refill: () => void): void {
  const focused = element.contains(document.activeElement) ? (document.activeElement as HTMLElement).dataset['focus'] : undefined;
  refill();
  if (focused === undefined) return;
  const again = [...element.querySelectorAll<HTMLElement>('[data-focus]')];
  (again.find((e) => e.dataset['focus'] === focused) ?? again[0])?.focus();
}

/** A small picture of a class's hatch; `probabilities` stand beside each other. */
export function hatchSwatch(classes: readonly string[], index: number, probabilities: readonly number[] = [1], width = 26): HTMLCanvasElement {
  const ratio = devicePixelRatio;
  const canvas = el('canvas', { class: 'hatchswatch', width: Math.round(width * ratio), height: Math.round(18 * ratio), 'aria-hidden': 'true' });
  canvas.style.width = `${width}px`;
  const context = canvas.getContext('2d')!;
  const image = context.createImageData(canvas.width, canvas.height);
  paintHatch(image, appearances(classes)[index]!, ratio, (x) => probabilities[Math.min(probabilities.length - 1, Math.floor((x / canvas.width) * probabilities.length))]!, null);
  context.putImageData(image, 0, 0);
  return canvas;
}
