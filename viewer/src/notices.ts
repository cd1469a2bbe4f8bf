// Plain messages over the stage: a lost server, missing tiles, a problem in the server's own words.
import { Problem, told } from './api';
import { el, fill } from './dom';
import { t } from './language';

/** Where a message waits while the page is loaded anew. */
const leftKey = 'sandarac.left';

export class Notices {
  readonly element = el('div', { class: 'notices', role: 'status', 'aria-live': 'polite' });
  private readonly lostBox = el('div', { class: 'notice', hidden: true });
  private readonly missingBox = el('div', { class: 'notice', hidden: true });
  private readonly missing = new Map<string, number>();

  constructor(private readonly retry: () => void) {
    this.element.append(this.lostBox, this.missingBox);
    const left = sessionStorage.getItem(leftKey);
    if (left === null) return;
    sessionStorage.removeItem(leftKey);
    this.stay(left);
  }

  /** The server does, or does not, answer. */
  reach(reached: boolean): void {
    if (reached === this.lostBox.hidden) return;
    this.lostBox.hidden = reached;
    if (reached) return;
    fill(this.lostBox, el('p', {}, t('The server does not answer. Nothing stored is lost; what is shown may be incomplete.')),
      el('button', { type: 'button', click: () => this.retry() }, t('Try again')));
  }

  /** A tile of a layer could not be had. */
  tileMissing(label: string): void {
    if (!this.lostBox.hidden) return;
    this.missing.set(label, (this.missing.get(label) ?? 0) + 1);
    this.missingBox.hidden = false;
    const list = [...this.missing].map(([name, n]) => t('{0} of {1}', n, name)).join(', ');
    fill(this.missingBox, el('p', {}, t("Tiles are missing: {0}. 'sandarac check' says which object is damaged.", list)),
      el('button', { type: 'button', click: () => this.retry() }, t('Try again')));
  }

  /** Forgets missing tiles before they are asked for again. */
  clearMissing(): void {
    this.missing.clear();
    this.missingBox.hidden = true;
  }

  /** Loads the page anew, which then says this. */
  static reloadSaying(text: string): void {
    sessionStorage.setItem(leftKey, text);
    location.reload();
  }

  /** Says something for a while. */
  say(text: string): void {
    const box = this.stay(text);
    setTimeout(() => box.remove(), 12_000);
  }

  /** Says something for a while, with something to do about it. */
  offer(text: string, word: string, act: () => void): void {
    const box = this.stay(text);
    box.querySelector('button')!.before(el('button', { type: 'button', click: () => { box.remove(); act(); } }, word));
    setTimeout(() => box.remove(), 20_000);
  }

  /** Says something until it is closed. */
  private stay(text: string): HTMLElement {
    const box = el('div', { class: 'notice' }, el('p', {}, text));
    box.append(el('button', { type: 'button', 'aria-label': t('Close this message'), click: () => box.remove() }, t('Close')));
    this.element.append(box);
    return box;
  }

  /** Says what went wrong; a lost server has its own box. */
  problem(error: unknown): void {
    if (error instanceof Problem) this.say(told(error));
  }
}
