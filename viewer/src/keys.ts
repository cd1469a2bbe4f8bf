// Every key in one list: what it does, and the sheet that lists them.
import { el, fill } from './dom';
import { t } from './language';

export interface Key {
  /** As shown: "Shift+G". */
  keys: string;
  says: string;
  /** Whether this key event is meant. */
  match: (event: KeyboardEvent) => boolean;
  act: (event: KeyboardEvent) => void;
  group: string;
}

/** Matches a key by name with exactly these modifiers; letters are compared without case. */
export const key = (name: string, modifiers: { shift?: boolean; control?: boolean } = {}) => (event: KeyboardEvent): boolean =>
  event.key.toLowerCase() === name.toLowerCase() && event.shiftKey === (modifiers.shift ?? false)
  && (event.ctrlKey || event.metaKey) === (modifiers.control ?? false) && !event.altKey;

/** Matches a key that needs Shift on some keyboards and none on others. */
export const sign = (...names: string[]) => (event: KeyboardEvent): boolean =>
  names.includes(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey;

/** The digit 1 to 9 of a key event, with or without Shift; null for any other key. */
export function digitOf(event: KeyboardEvent): number | null {
  const digit = /^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1];
  return digit && !event.ctrlKey && !event.metaKey && !event.altKey ? Number(digit) : null;
}

/** Whether the focus is where keys belong to a field. */
export const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches('input:not([type=checkbox]), textarea, select, [contenteditable]');

/** Listens for the keys of a list. */
export function listen(list: readonly Key[], enabled: () => boolean): void {
  document.addEventListener('keydown', (event) => {
    if (isField(event.target) || event.defaultPrevented || document.querySelector('dialog[open]')) return;
    const found = list.find((k) => k.match(event));
    if (!found || (!enabled() && event.key.length === 1 && !event.ctrlKey && !event.metaKey && event.key !== '?')) return;
    event.preventDefault();
    found.act(event);
  });
}

/** The sheet that lists all keys. Single letters can be turned off, for those who speak to their computer. */
export class KeySheet {
  readonly element = el('dialog', { class: 'sheet', 'aria-label': t('Keys') });
  private readonly letters = el('input', { type: 'checkbox', checked: localStorage.getItem(settingName) !== 'off' });

  constructor(list: readonly Key[]) {
    this.letters.addEventListener('change', () => localStorage.setItem(settingName, this.letters.checked ? 'on' : 'off'));
    const shown = list.filter((k) => k.keys !== '');
    const groups = [...new Set(shown.map((k) => k.group))];
    fill(this.element,
      el('h2', {}, t('Keys')),
      el('div', { class: 'columns' }, ...groups.map((group) => el('section', {}, el('h3', {}, group),
        el('dl', {}, ...shown.filter((k) => k.group === group).map((k) => el('div', {}, el('dt', {}, el('kbd', {}, k.keys)), el('dd', {}, k.says))))))),
      el('label', { class: 'check' }, this.letters, t('Single letters are keys')),
      el('form', { method: 'dialog' }, el('button', { type: 'submit' }, t('Close'))));
  }

  /** Whether single letters act. */
  get lettersOn(): boolean {
    return this.letters.checked;
  }

  /** Shows the sheet. */
  open(): void {
    this.element.showModal();
  }
}

const settingName = 'sandarac.single-letter-keys';
