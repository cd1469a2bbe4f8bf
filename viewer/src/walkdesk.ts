// Walks on the Easel: ties what is on the stage, the walks that are kept and their panel together.
import type { Api, Painting } from './api';
import { layOut } from './compare';
import { key, type Key, sign } from './keys';
import { counted, t } from './language';
import { Notices } from './notices';
import type { Stage } from './stage';
import { layerOf, type Store } from './state';
import { button } from './toolbar';
import { WalkKeeper } from './walkkeeper';
import { added, changed, moved, nameOf, putBefore, seenNow, shown, type WalkStep } from './walklist';
import { WalkPanel } from './walkpanel';
import type { ZoneStore } from './zonestore';

export class WalkDesk {
  readonly element: HTMLElement;
  readonly button = button(t('Walk'), t('Write a walk: views with captions, to present and to publish (Shift+W)'), () => this.toggle());
  private readonly keeper: WalkKeeper;
  private readonly panel: WalkPanel;
  private step: string | null = null;
  private loading: Promise<void> = Promise.resolve();
  private loaded = false;
  /** The walk that was open before the panel was put away. */
  private last: string | null = null;

  constructor(private readonly painting: Painting, private readonly stage: Stage, private readonly store: Store, api: Api, private readonly zones: ZoneStore, private readonly notices: Notices) {
    this.keeper = new WalkKeeper(api, painting.id, () => this.refresh(), (error) => notices.problem(error));
    this.panel = new WalkPanel(painting.id, api, {
      choose: (walk) => this.choose(walk), create: () => void this.create(), remove: () => void this.remove(), change: (patch) => this.walk && this.keeper.change(this.walk.id, patch),
      show: (id) => this.show(id), add: () => this.add(), take: () => this.take(), drop: (id) => this.drop(id), move: (id, by) => this.reorder((steps) => moved(steps, id, by)),
      put: (id, before) => this.reorder((steps) => putBefore(steps, id, before)), write: (id, patch) => this.reorder((steps) => changed(steps, id, patch)), close: () => this.toggle(), flush: () => this.keeper.flush(),
    });
    this.element = this.panel.element;
    this.button.setAttribute('aria-pressed', 'false');
    zones.on(() => this.refresh());
    store.on((state, what) => what.has('walk') && this.open(state.walk !== null));
  }

  keys(): Key[] {
    const open = (): boolean => this.store.now.walk !== null;
    return [
      { keys: t('Shift+W'), says: t('walk: views with captions'), group: t('Walk'), match: key('w', { shift: true }), act: () => this.toggle() },
      { keys: t('Shift+A'), says: t('add what is on the Easel to the walk'), group: t('Walk'), match: (e) => key('a', { shift: true })(e) && open(), act: () => this.add() },
      { keys: t('< and >'), says: t('the view of the walk before, the next'), group: t('Walk'), match: (e) => open() && sign('<', '>')(e), act: (e) => this.go(e.key === '>' ? 1 : -1) },
      { keys: t('Alt+↑ and ↓'), says: t('on a view of the list: move it up, down'), group: t('Walk'), match: () => false, act: () => {} },
    ];
  }

  begin(): void {
    this.open(this.store.now.walk !== null);
  }

  /** Stores what waits, after the server was lost. */
  flush(): Promise<void> {
    return this.keeper.flush();
  }

  private get walk(): ReturnType<WalkKeeper['get']> {
    return this.keeper.get(this.store.now.walk);
  }

  private toggle(): void {
    const opens = this.store.now.walk === null;
    this.store.set({ walk: opens ? (this.last ?? '') : null });
    if (opens) void this.loading.then(() => this.panel.focus());
    else this.button.focus();
  }

  private open(open: boolean): void {
    this.element.hidden = !open;
    this.button.setAttribute('aria-pressed', String(open));
    if (open && !this.loaded) this.loading = this.load();
    if (!open) return;
    this.last = this.store.now.walk;
    this.refresh();
  }

  private async load(): Promise<void> {
    this.loaded = true;
    await this.keeper.load();
    if (!this.walk) this.store.set({ walk: this.keeper.all[0]?.id ?? '' });
  }

  private choose(walk: string): void {
    this.step = null;
    this.store.set({ walk });
    this.refresh();
  }

  private async create(): Promise<void> {
    const made = await this.keeper.create({ title: t('Walk {0}', this.keeper.all.length + 1), language: document.documentElement.lang || 'en', steps: [] });
    if (!made) return;
    this.choose(made.id);
    this.panel.focusTitle();
  }

  private async remove(): Promise<void> {
    const { walk } = this;
    if (!walk) return;
    await this.keeper.remove(walk.id);
    this.choose(this.keeper.all[0]?.id ?? '');
    this.notices.offer(t('The walk "{0}" was taken out.', walk.content.title), t('Bring it back'), () => void this.keeper.restore(walk.id).then(() => this.choose(walk.id)));
  }

  /** The size of A as it is laid out now. */
  private get pane(): { width: number; height: number } {
    return layOut(this.store.now, this.stage.element.clientWidth, this.stage.element.clientHeight, [0, 0]).a;
  }

  private add(): void {
    const { walk } = this;
    const seen = seenNow(this.store.now, this.pane);
    if (!walk) return this.notices.say(t('There is no walk to add it to. Make a new one first.'));
    if (!seen || !layerOf(this.painting, seen.layerA)) return this.notices.say(t('Nothing on the plane lies on A. Put a photograph there that is aligned.'));
    const step: WalkStep = { id: crypto.randomUUID(), title: '', caption: '', zones: this.store.now.zone ? [this.store.now.zone] : [], ...seen };
    const behind = this.step;
    this.step = step.id;
    this.keeper.change(walk.id, { steps: added(walk.content.steps, step, behind) });
    if (Math.abs(this.store.now.view?.turn ?? 0) > 0.05) this.notices.say(t('A walk keeps views upright: this one is turned.'));
    this.panel.focusWords();
  }

  /** Takes over what is on the Easel into the view that is open. */
  private take(): void {
    const seen = seenNow(this.store.now, this.pane);
    if (this.step && seen) this.reorder((steps) => changed(steps, this.step!, seen));
  }

  private drop(id: string): void {
    const steps = this.walk?.content.steps ?? [];
    const at = steps.findIndex((s) => s.id === id);
    if (this.step === id) this.step = (steps[at + 1] ?? steps[at - 1])?.id ?? null;
    this.reorder((all) => all.filter((s) => s.id !== id));
  }

  private reorder(how: (steps: readonly WalkStep[]) => WalkStep[]): void {
    const { walk } = this;
    if (walk) this.keeper.change(walk.id, { steps: how(walk.content.steps) });
  }

  private go(by: number): void {
    const steps = this.walk?.content.steps ?? [];
    const at = steps.findIndex((s) => s.id === this.step);
    const to = steps[at < 0 ? 0 : Math.min(steps.length - 1, Math.max(0, at + by))];
    if (to) this.show(to.id);
  }

  private show(id: string): void {
    const step = this.walk?.content.steps.find((s) => s.id === id);
    if (!step) return;
    this.step = id;
    // First how both share the stage, which decides A's size, then the place.
    const layout = layOut({ ...this.store.now, mode: step.compare }, this.stage.element.clientWidth, this.stage.element.clientHeight, [0, 0]).a;
    const { patch, missing } = shown(step, this.store.now, this.painting, layout);
    this.store.set({ ...patch, stretch: false });
    if (missing.length > 0) this.notices.say(counted(missing.length, 'View "{1}" was written for a picture that is no longer there.', 'View "{1}" was written for pictures that are no longer there.', nameOf(step)));
    this.refresh();
  }

  private refresh(): void {
    if (this.element.hidden) return;
    const { walk } = this;
    if (!walk?.content.steps.some((s) => s.id === this.step)) this.step = null;
    this.panel.refresh(this.keeper.all, walk, this.step, this.zones.all.filter((z) => !z.isCandidate), this.keeper.isUnsaved);
  }
}
