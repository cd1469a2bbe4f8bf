// What the exported folder's page does: steps, pictures to choose, ways of comparing, zoom; by pointer, finger and keys.
import type OlView from 'ol/View';
import { el, fill } from './dom';
import { language, t } from './language';
import { Readout } from './readout';
import { modes, type Mode } from './state';
import { captionOf } from './walkcaption';
import { stillWanted, WalkStage } from './walkstage';
import { countText, picturesText, type ShownStep, type ShownWalk } from './walkstep';
import { type Canvas, TilePane } from './walktiles';

/** What the folder's data script holds. */
export interface FolderWalk extends ShownWalk, Canvas {
  painting: string;
  attribution: string;
  rights: string;
}

type Button = HTMLButtonElement;

const modeNames: Readonly<Record<Mode, string>> = { alone: t('Alone'), beside: t('Beside'), divide: t('Divide'), fade: t('Fade'), loupe: t('Loupe') };

/** What the slider moves, where there is something to move. */
const amountNames: Readonly<Partial<Record<Mode, string>>> = { divide: t('Place of the edge'), fade: t('How strongly the second is seen') };

export class FolderPage {
  private readonly stage: WalkStage;
  private readonly scale: Readout;
  private readonly caption = el('section', { class: 'caption', 'aria-live': 'polite', 'aria-atomic': 'true' });
  private readonly label = el('p', { class: 'label', lang: language });
  private readonly a: HTMLSelectElement;
  private readonly b: HTMLSelectElement;
  private readonly modeButtons: Button[];
  private readonly amount = el('input', { type: 'range', min: 0, max: 1, step: 0.01, input: () => this.change({ amount: Number(this.amount.value) }) });
  private readonly amountRow: HTMLElement;
  private readonly count = el('output', { class: 'count' });
  private readonly list = el('ol', {});
  private readonly back: Button;
  private readonly next: Button;
  private how: ShownStep;
  private index = 0;

  constructor(private readonly main: HTMLElement, private readonly walk: FolderWalk) {
    const [widthMm, heightMm] = [walk.width * walk.mmPerPixel, walk.height * walk.mmPerPixel];
    const first = walk.pictures[0]!.key;
    this.how = walk.steps[0] ?? {
      title: '', caption: '', notes: [], x: widthMm / 2, y: heightMm / 2, widthMm: Math.max(widthMm, heightMm * 1.6) * 1.04, a: first, b: walk.pictures[1]?.key ?? null, over: null, mode: 'alone', amount: 0.5, zones: walk.zones.map((z) => z.id),
    };
    this.stage = new WalkStage({ widthMm, heightMm, finest: walk.mmPerPixel }, walk.zones, (element: HTMLElement, view: OlView) => new TilePane(element, view, walk), true, (amount) => this.change({ amount }));
    this.scale = new Readout(heightMm);
    const choice = (side: 'a' | 'b', label: string): HTMLSelectElement => {
      const select: HTMLSelectElement = el('select', { 'aria-label': label, change: () => this.choose(side, select.value) }, ...walk.pictures.map((p) => el('option', { value: p.key, lang: 'en' }, p.label)));
      return select;
    };
    this.a = choice('a', t('Picture'));
    this.b = choice('b', t('and'));
    const button = (word: string, act: () => void): Button => el('button', { type: 'button', click: act }, word);
    this.modeButtons = modes.map((mode) => el('button', { type: 'button', 'data-mode': mode, click: () => this.change({ mode, b: this.how.b ?? this.otherThan(this.how.a) }) }, modeNames[mode]));
    this.amountRow = el('label', { class: 'amount' }, el('span', {}), this.amount);
    this.back = button(t('Back'), () => this.show(this.index - 1));
    this.next = button(t('Next'), () => this.show(this.index + 1));
    this.layOutPage(button);
  }

  /** Shows the first view. */
  begin(): void {
    document.documentElement.classList.add('live');
    // The stage has no size before it is laid out.
    requestAnimationFrame(() => this.show(0, false));
    addEventListener('keydown', (event) => this.key(event));
    addEventListener('hashchange', () => this.show(this.hash() ?? this.index));
  }

  private layOutPage(button: (word: string, act: () => void) => Button): void {
    const { walk } = this;
    const { top } = this.stage;
    for (const [name, value] of Object.entries({ tabindex: '0', role: 'application', 'aria-label': t('The painting. Arrow keys move it, plus and minus zoom, H shows all of it.'), 'aria-describedby': 'walk-label' })) top.setAttribute(name, value);
    this.label.id = 'walk-label';
    this.stage.element.append(this.label, this.scale.scale);
    this.stage.view.on(['change:resolution', 'change:center'] as never, () => this.scale.rescale(this.stage.view.getResolution()!));
    for (const [i, step] of walk.steps.entries()) this.list.append(el('li', {}, el('button', { type: 'button', dir: 'auto', click: () => this.show(i) }, step.title || step.caption.slice(0, 60) || String(i + 1))));
    const several = walk.steps.length > 1;
    fill(this.main,
      el('header', {}, el('h1', { dir: 'auto' }, walk.title), walk.painting !== walk.title && el('p', { dir: 'auto' }, walk.painting)),
      this.stage.element,
      el('div', { class: 'side' },
        several && el('nav', { class: 'steps', 'aria-label': t('Views') }, this.back, this.count, this.next),
        this.caption,
        el('div', { class: 'tools' },
          el('div', { class: 'segments', role: 'group', 'aria-label': t('Picture') }, ...(walk.pictures.length > 1 ? this.modeButtons : [])),
          el('label', {}, el('span', {}, t('Picture')), this.a), walk.pictures.length > 1 && el('label', { class: 'second' }, el('span', {}, t('and')), this.b), this.amountRow,
          el('div', { class: 'segments' }, button(t('Closer'), () => this.stage.zoom(1)), button(t('Further'), () => this.stage.zoom(-1)), button(t('Whole'), () => this.stage.whole(!stillWanted())),
            walk.steps.length > 0 && button(t('View as written'), () => this.show(this.index)), 'requestFullscreen' in document.documentElement && button(t('Full screen'), () => void document.documentElement.requestFullscreen()))),
        several && el('details', {}, el('summary', {}, t('Views')), this.list),
        (walk.attribution || walk.rights) && el('footer', {}, walk.attribution && el('p', { dir: 'auto' }, walk.attribution), walk.rights && el('p', {}, el('a', { href: walk.rights, rel: 'license noreferrer' }, walk.rights)))));
  }

  private show(index: number, fly = !stillWanted()): void {
    const { steps } = this.walk;
    this.index = Math.min(Math.max(0, index), Math.max(0, steps.length - 1));
    const step = steps[this.index] ?? this.how;
    this.how = { ...step };
    fill(this.caption, ...captionOf(step));
    this.caption.hidden = this.caption.childElementCount === 0;
    this.count.textContent = countText(this.index, steps.length);
    this.back.disabled = this.index === 0;
    this.next.disabled = this.index >= steps.length - 1;
    for (const [i, item] of [...this.list.querySelectorAll('button')].entries()) item.setAttribute('aria-current', i === this.index ? 'step' : 'false');
    this.stage.showZones(step.zones);
    this.refresh();
    if (steps.length > 0) this.stage.go(step, fly);
    else this.stage.whole(fly);
    this.scale.rescale(this.stage.view.getResolution()!);
  }

  private choose(side: 'a' | 'b', key: string): void {
    this.change(side === 'a' ? { a: key, over: null } : { b: key, mode: this.how.mode === 'alone' ? 'divide' : this.how.mode });
  }

  private change(patch: Partial<ShownStep>): void {
    this.how = { ...this.how, ...patch };
    this.refresh();
  }

  private refresh(): void {
    const { how } = this;
    this.stage.compare(how);
    this.label.textContent = picturesText(how, this.walk.pictures);
    this.a.value = how.a;
    this.b.value = how.b ?? this.otherThan(how.a) ?? '';
    for (const item of this.modeButtons) item.setAttribute('aria-pressed', String(item.dataset['mode'] === how.mode));
    const named = amountNames[how.mode];
    this.amountRow.hidden = named === undefined;
    this.amountRow.firstElementChild!.textContent = named ?? '';
    this.amount.value = String(how.amount);
    this.b.closest('label')?.toggleAttribute('hidden', how.mode === 'alone');
  }

  private otherThan(key: string): string | null {
    return this.walk.pictures.find((p) => p.key !== key)?.key ?? null;
  }

  private hash(): number | null {
    const number = Number(location.hash.slice(1));
    return Number.isInteger(number) && number > 0 ? number - 1 : null;
  }

  private key(event: KeyboardEvent): void {
    const target = event.target as HTMLElement;
    if (event.ctrlKey || event.altKey || event.metaKey || target.matches('select, input, textarea, summary')) return;
    const onStage = target === this.stage.top;
    const act = onStage ? stageKeys(this.stage)[event.key] : undefined;
    const step = { PageDown: 1, PageUp: -1, ...(onStage ? {} : { ArrowRight: 1, ArrowLeft: -1 }) }[event.key];
    if (act) act();
    else if (step !== undefined) this.show(this.index + step);
    else if (event.key === 'Home') this.show(0);
    else if (event.key === 'End') this.show(this.walk.steps.length - 1);
    else return;
    event.preventDefault();
  }
}

const stageKeys = (stage: WalkStage): Record<string, () => void> => ({
  ArrowLeft: () => stage.pan(-0.1, 0), ArrowRight: () => stage.pan(0.1, 0), ArrowUp: () => stage.pan(0, -0.1), ArrowDown: () => stage.pan(0, 0.1),
  '+': () => stage.zoom(0.5), '=': () => stage.zoom(0.5), '-': () => stage.zoom(-0.5), h: () => stage.whole(!stillWanted()), H: () => stage.whole(!stillWanted()),
});
