// The Walk panel: which walk, its views in their order, the words of the one that is open, and the ways out: present and export.
import type { Api, Zone } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { WalkExportForm } from './walkexport';
import { type Walk, type WalkContent, type WalkStep, nameOf } from './walklist';

export interface WalkActions {
  choose(walk: string): void;
  create(): void;
  remove(): void;
  change(patch: Partial<WalkContent>): void;
  show(id: string): void;
  add(): void;
  take(): void;
  drop(id: string): void;
  move(id: string, by: number): void;
  put(id: string, before: string | null): void;
  write(id: string, patch: Partial<WalkStep>): void;
  close(): void;
  /** Stores what waits, before the page is left or the walk is read by others. */
  flush(): Promise<void>;
}

const languages: readonly [tag: string, name: string][] = [
  ['en', t('English')], ['es', t('Spanish')], ['de', t('German')], ['fr', t('French')], ['it', t('Italian')], ['nl', t('Dutch')], ['pt', t('Portuguese')], ['ca', t('Catalan')], ['pl', t('Polish')], ['cs', t('Czech')],
  ['sv', t('Swedish')], ['da', t('Danish')], ['nb', t('Norwegian')], ['fi', t('Finnish')], ['el', t('Greek')], ['ru', t('Russian')], ['uk', t('Ukrainian')], ['tr', t('Turkish')], ['ar', t('Arabic')], ['he', t('Hebrew')], ['ja', t('Japanese')], ['zh', t('Chinese')], ['ko', t('Korean')],
];

export class WalkPanel {
  readonly element = el('section', { class: 'walk', 'aria-label': t('Walk'), hidden: true });
  private readonly choice = el('select', { 'aria-label': t('Walk'), change: () => this.act.choose(this.choice.value) });
  private readonly title = el('input', { type: 'text', maxlength: 200, dir: 'auto', input: () => this.title.value.trim() && this.act.change({ title: this.title.value }) });
  private readonly language = el('select', { change: () => this.act.change({ language: this.language.value }) });
  private readonly list = el('ol', { 'aria-label': t('Views') });
  private readonly none = el('p', { class: 'quiet' });
  private readonly words: HTMLElement;
  private readonly stepTitle = el('input', { type: 'text', maxlength: 200, dir: 'auto', input: () => this.write({ title: this.stepTitle.value }) });
  private readonly caption = el('textarea', { rows: 5, maxlength: 5000, dir: 'auto', input: () => this.write({ caption: this.caption.value }) });
  private readonly zones = el('div', { class: 'zonechoice' });
  private readonly zonesBox = el('details', {}, el('summary', {}, t('Zones that are shown')), this.zones);
  private readonly kept = el('p', { class: 'quiet', role: 'status' });
  private readonly begin = el('button', { type: 'button', title: t('Begin another walk'), click: () => this.act.create() }, t('New walk'));
  private readonly present = el('a', { class: 'button' }, t('Present'));
  private readonly exporting: WalkExportForm;
  private readonly ofWalk: HTMLElement;
  private open: string | null = null;
  private dragged: string | null = null;

  constructor(private readonly painting: string, api: Api, private readonly act: WalkActions) {
    this.exporting = new WalkExportForm(api, () => act.flush());
    const button = (word: string, title: string, click: () => void): HTMLElement => el('button', { type: 'button', title, click }, word);
    this.words = el('div', { class: 'words' },
      el('label', {}, t('Title'), this.stepTitle), el('label', {}, t('Caption'), this.caption), this.zonesBox,
      el('div', { class: 'row' }, button(t('Take the Easel as it is'), t('Keep what is on the Easel now as this view; the words stay'), () => act.take()), button(t('Take out'), t('Take this view out of the walk'), () => this.open && act.drop(this.open))));
    this.ofWalk = el('div', { class: 'ofwalk' },
      el('label', {}, t('Called'), this.title), el('label', {}, t('Language of the captions'), this.language), this.list, this.none,
      button(t('Add this view'), t('Add what is on the Easel, behind the view that is open (Shift+A)'), () => act.add()), this.words,
      el('div', { class: 'row' }, this.present, button(t('Take the walk out'), t('It can be brought back'), () => act.remove())), this.exporting.element, this.kept);
    this.element.append(
      el('header', {}, el('h2', {}, t('Walk')), button(t('Close'), t('Close (Shift+W)'), () => act.close())),
      el('div', { class: 'row' }, this.choice, this.begin), this.ofWalk);
    this.present.addEventListener('click', (event) => void this.leave(event));
    this.list.addEventListener('keydown', (event) => this.key(event));
  }

  /** Shows the walks, the one that is open and its view. */
  refresh(walks: readonly Walk[], walk: Walk | undefined, step: string | null, zones: readonly Zone[], unsaved: boolean): void {
    this.choice.hidden = walks.length === 0;
    fill(this.choice, ...walks.map((w) => el('option', { value: w.id, selected: w === walk }, w.content.title)));
    this.ofWalk.hidden = walk === undefined;
    this.exporting.show(walk?.id ?? null, walk?.content.steps.length ?? 0);
    if (!walk) return;
    const { content } = walk;
    set(this.title, content.title);
    const known = languages.some(([tag]) => tag === content.language);
    fill(this.language, ...[...languages, ...(known ? [] : [[content.language, content.language] as const])].map(([tag, name]) => el('option', { value: tag, selected: tag === content.language }, name)));
    this.caption.lang = this.stepTitle.lang = this.title.lang = content.language;
    this.present.href = `/paintings/${this.painting}/walks/${walk.id}/present?step=${Math.max(1, content.steps.findIndex((s) => s.id === step) + 1)}`;
    this.present.hidden = content.steps.length === 0;
    this.none.textContent = content.steps.length === 0 ? t('No views yet. Bring a place, lights and a way of comparing onto the Easel, then add it.') : '';
    this.kept.textContent = unsaved ? t('Being kept …') : t('Kept.');
    this.showList(content.steps, step);
    this.open = step;
    const of = content.steps.find((s) => s.id === step);
    this.words.hidden = of === undefined;
    if (of) this.showWords(of, zones);
  }

  /** Takes the keys to the views, or to where the first walk begins. */
  focus(): void {
    (this.list.querySelector<HTMLElement>('button') ?? this.begin).focus();
  }

  focusTitle(): void {
    this.title.select();
  }

  focusWords(): void {
    this.stepTitle.focus();
  }

  private showList(steps: readonly WalkStep[], open: string | null): void {
    const focused = this.list.contains(document.activeElement) ? (document.activeElement as HTMLElement).dataset['step'] : undefined;
    fill(this.list, ...steps.map((step) => {
      const item = el('li', { draggable: 'true', 'data-step': step.id },
        el('button', { type: 'button', 'data-step': step.id, dir: 'auto', title: t('Show it. Alt with ↑ or ↓ moves it; it can be dragged too'), 'aria-current': step.id === open ? 'step' : 'false', click: () => this.act.show(step.id) }, nameOf(step)));
      item.addEventListener('dragstart', () => { this.dragged = step.id; });
      item.addEventListener('dragover', (event) => event.preventDefault());
      item.addEventListener('drop', (event) => {
        event.preventDefault();
        const below = event.offsetY > item.clientHeight / 2;
        if (this.dragged) this.act.put(this.dragged, below ? (steps[steps.indexOf(step) + 1]?.id ?? null) : step.id);
        this.dragged = null;
      });
      return item;
    }));
    if (focused) this.list.querySelector<HTMLElement>(`button[data-step='${focused}']`)?.focus();
  }

  private showWords(step: WalkStep, zones: readonly Zone[]): void {
    set(this.stepTitle, step.title);
    set(this.caption, step.caption);
    this.zonesBox.hidden = zones.length === 0;
    const chosen = new Set(step.zones);
    fill(this.zones, ...zones.map((zone) => el('label', { class: 'check' }, el('input', {
      type: 'checkbox', checked: chosen.has(zone.id), change: (event) => this.write({ zones: (event.target as HTMLInputElement).checked ? [...chosen, zone.id] : step.zones.filter((z) => z !== zone.id) }),
    }), zone.name)));
  }

  private write(patch: Partial<WalkStep>): void {
    if (this.open) this.act.write(this.open, patch);
  }

  private key(event: KeyboardEvent): void {
    const id = (event.target as HTMLElement).dataset['step'];
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (!id || by === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    if (event.altKey) return this.act.move(id, by);
    const items = [...this.list.querySelectorAll<HTMLElement>('button')];
    items[items.findIndex((i) => i.dataset['step'] === id) + by]?.focus();
  }

  private async leave(event: Event): Promise<void> {
    event.preventDefault();
    await this.act.flush();
    location.href = this.present.href;
  }
}

/** Sets a field, unless someone writes in it. */
function set(field: HTMLInputElement | HTMLTextAreaElement, value: string): void {
  if (document.activeElement !== field && field.value !== value) field.value = value;
}
