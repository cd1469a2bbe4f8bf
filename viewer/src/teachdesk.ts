// Teaching on the Easel: ties the strokes, the sheet that keeps them, the lesson that the server gives, and the panel together.
import type LineString from 'ol/geom/LineString';
import type { Api, Painting, Run } from './api';
import { appearances } from './hatching';
import { digitOf, key, type Key, sign } from './keys';
import { t } from './language';
import { Lesson } from './lesson';
import { inOrder, MarksStore, renamed, withClass, withMark, withoutClass, withoutMark } from './marks';
import { Notices } from './notices';
import { ProbabilityLayer } from './probability';
import { RunBox } from './runbox';
import type { Stage } from './stage';
import type { Store } from './state';
import { StrokeLayer } from './strokelayer';
import { TeachPanel } from './teachpanel';
import { taughtText } from './teachwords';
import { button } from './toolbar';
import type { Tools } from './tools';
import type { ZoneStore } from './zonestore';
import { writeShape } from './zonelayer';

const reading = 'taught-zones';

export class TeachDesk {
  readonly element: HTMLElement;
  readonly button = button(t('Teach'), t('Mark what you know and see where else the painting looks so (T)'), () => this.toggle());
  private readonly marks: MarksStore;
  private readonly strokes: StrokeLayer;
  private readonly probability = new ProbabilityLayer();
  private readonly panel: TeachPanel;
  private readonly run: RunBox;
  private readonly lesson: Lesson;
  private pen = -1;
  private stroke: number | null = null;
  private visible = true;
  private running = false;
  /** Runs that had ended with a result when the tool was taken up. */
  private runs = new Set<string>();

  constructor(private readonly painting: Painting, private readonly stage: Stage, private readonly store: Store, private readonly api: Api, private readonly tools: Tools, private readonly zones: ZoneStore, private readonly notices: Notices) {
    this.marks = new MarksStore(api, painting.id);
    this.strokes = new StrokeLayer(() => ({ sheet: this.marks.now, stroke: this.stroke, pen: this.pen }));
    this.lesson = new Lesson(api, painting.id, stage, () => (this.isActive ? { sheet: this.marks.now, layers: this.lookedAt } : null), () => this.show());
    this.run = new RunBox(api, painting, t('Teaching the whole painting'), (run) => void this.ended(run), (running) => { this.running = running; this.panel?.refresh(this.view(), this.lookedAt); });
    this.panel = new TeachPanel({
      pen: (index) => this.take(index), show: (index) => this.store.set({ teach: index === null ? 0 : index + 1 }),
      add: (name) => this.change(withClass(this.marks.now, name), this.marks.now.classes.length),
      rename: (index, name) => this.change(renamed(this.marks.now, index, name)),
      removeClass: (index) => this.change(withoutClass(this.marks.now, index)),
      select: (mark) => this.select(mark), removeMark: (mark) => this.change(withoutMark(this.marks.now, mark)),
      width: (strokeWidth) => this.change({ ...this.marks.now, strokeWidth }), layers: (layers) => this.change({ ...this.marks.now, layers }),
      opacity: (value) => this.probability.setOpacity(value), whole: () => void this.whole(), withdraw: () => void this.zones.remove(...this.proposals),
      send: () => void this.marks.send(), insist: () => void this.marks.insist().catch((e: unknown) => this.notices.problem(e)),
      giveWay: () => void this.marks.giveWay().catch((e: unknown) => this.notices.problem(e)), leave: () => this.tools.take('look'),
    }, this.run, this.layers);
    this.element = this.panel.element;
    this.button.setAttribute('aria-pressed', 'false');
    stage.addOverlay(...this.probability.layers);
    stage.addOverlay(...this.strokes.layers);
    tools.makers.teach = () => this.strokes.draw(() => stage.view.getResolution()!, (line) => this.drawn(line));
    tools.on((tool) => this.active(tool === 'teach'));
    this.marks.on(() => this.changed());
    zones.on(() => this.isActive && this.refresh());
    stage.map.on('click', (event) => this.isActive && this.click(event.pixel));
    store.on((state, changed) => {
      if (changed.has('teach') && state.teach !== null) this.show();
      if (changed.has('view') && this.isActive) this.lesson.askLater();
    });
    addEventListener('beforeunload', (event) => { if (this.marks.keeping === 'unsent') event.preventDefault(); });
  }

  /** Reads the marks; takes the tool up when the link says so. */
  async begin(): Promise<void> {
    try {
      await this.marks.load();
      if (this.store.now.teach !== null && !this.isActive) this.tools.take('teach');
    } catch (error) {
      this.notices.problem(error);
    }
  }

  keys(): Key[] {
    const now = (match: (event: KeyboardEvent) => boolean) => (event: KeyboardEvent): boolean => this.isActive && match(event);
    return [
      { keys: 'T', says: t('teach: mark classes, see where they are probable'), group: t('Teach'), match: key('t'), act: () => this.toggle() },
      { keys: t('1 to 8'), says: t('while teaching: strokes of that class; with Shift: show it'), group: t('Teach'), match: now((e) => digitOf(e) !== null), act: (e) => this.digit(digitOf(e)! - 1, e.shiftKey) },
      { keys: 'Y', says: t('while teaching: hide the probability, show it again'), group: t('Teach'), match: now(key('y')), act: () => this.see(!this.visible) },
      { keys: t('Del'), says: t('while teaching: remove the selected stroke'), group: t('Teach'), match: now(sign('Delete')), act: () => this.stroke !== null && this.change(withoutMark(this.marks.now, this.stroke)) },
      { keys: 'Ctrl+Z', says: t('while teaching: undo; with Shift redo'), group: t('Teach'), match: now((e) => key('z', { control: true })(e) || key('z', { control: true, shift: true })(e)), act: (e) => (e.shiftKey ? this.marks.redo() : this.marks.undo()) },
      { keys: t('Alt and drag'), says: t('while teaching: move the picture'), group: t('Teach'), match: () => false, act: () => {} },
    ];
  }

  private get isActive(): boolean {
    return this.tools.current === 'teach';
  }

  /** Photographs on the plane: what can be looked at. */
  private get layers(): Painting['layers'] {
    return this.painting.layers.filter((l) => l.onPlane && l.kind === 'photograph' && l.photographId !== null);
  }

  /** Those chosen; before anybody chose, those that show the whole painting: one that shows a part would hide the rest. */
  private get lookedAt(): string[] {
    const { layers } = this.marks.now;
    if (layers.length > 0) return layers;
    const covers = ({ extentMm: [left, top, right, bottom] }: Painting['layers'][number]): boolean =>
      right - left > 0.98 * this.painting.widthMm && bottom - top > 0.98 * this.painting.heightMm;
    return this.layers.filter((l) => covers(l) && l.verdict !== 'not aligned').map((l) => l.photographId!);
  }

  private toggle(): void {
    this.tools.take(this.isActive ? 'look' : 'teach');
  }

  private active(active: boolean): void {
    this.button.setAttribute('aria-pressed', String(active));
    this.element.hidden = !active;
    this.strokes.setVisible(active);
    this.probability.setVisible(active && this.visible);
    this.store.set({ teach: active ? this.store.now.teach ?? 1 : null, ...(active ? { zone: null } : {}) });
    if (!active) return this.lesson.stop();
    this.element.parentElement!.scrollTop = 0;
    this.changed();
    void this.readRuns();
  }

  private async readRuns(): Promise<void> {
    try {
      const runs = await this.api.runs(this.painting.id, reading);
      this.runs = new Set(runs.filter((r) => r.state === 'done').map((r) => r.id));
      this.refresh();
      await this.run.resume(runs);
    } catch (error) {
      this.notices.problem(error);
    }
  }

  /** What teaching proposed and nobody has kept. */
  private get proposals(): string[] {
    return this.zones.all.filter((z) => z.isCandidate && z.runId !== null && this.runs.has(z.runId)).map((z) => z.id);
  }

  private digit(index: number, show: boolean): void {
    if (index >= this.marks.now.classes.length) return;
    if (show) this.store.set({ teach: index + 1 });
    else this.take(index);
  }

  private take(index: number): void {
    [this.pen, this.stroke] = [index, null];
    this.refresh();
  }

  private select(mark: number): void {
    this.pen = this.marks.now.classes.indexOf(this.marks.now.marks.features[mark]!.properties.class);
    this.stroke = mark === this.stroke ? null : mark;
    this.refresh();
  }

  private see(visible: boolean): void {
    this.visible = visible;
    this.probability.setVisible(visible && this.isActive);
  }

  private click(pixel: number[]): void {
    const hit = this.stage.map.forEachFeatureAtPixel(pixel, (f) => StrokeLayer.markOf(f), { hitTolerance: 5 });
    if (hit !== undefined) this.select(hit);
  }

  private drawn(line: LineString): void {
    if (this.pen < 0) return this.notices.say(t('Name a class first: a stroke says what it marks.'));
    this.change(withMark(this.marks.now, this.pen, writeShape(line)));
  }

  private change(sheet: MarksStore['now'], pen = this.pen): void {
    [this.pen, this.stroke] = [pen, null];
    this.marks.change(sheet);
  }

  /** After the sheet became another, or was stored. */
  private changed(): void {
    const { classes } = this.marks.now;
    this.pen = Math.min(Math.max(this.pen, 0), classes.length - 1);
    if (this.stroke !== null && this.stroke >= this.marks.now.marks.features.length) this.stroke = null;
    this.refresh();
    if (this.isActive) this.lesson.askOf(this.marks.now);
  }

  private refresh(): void {
    this.strokes.refresh();
    this.panel.refresh(this.view(), this.lookedAt);
  }

  private view(): Parameters<TeachPanel['refresh']>[0] {
    const { teach } = this.store.now;
    return {
      sheet: this.marks.now, pen: this.pen, shown: teach ? teach - 1 : null, stroke: this.stroke, taught: this.lesson.taught, keeping: this.marks.keeping, problem: this.marks.problem,
      saying: this.lesson.saying, asking: this.lesson.busy, running: this.running, proposals: this.proposals.length,
    };
  }

  /** Lays the chosen class over the picture. */
  private show(): void {
    const { teach } = this.store.now;
    const { classes } = this.marks.now;
    const index = (teach ?? 0) - 1;
    this.probability.show(this.lesson.rasterFor(classes[index]), appearances(classes)[index] ?? { hatch: 0, colour: '#000000' });
    this.panel.refresh(this.view(), this.lookedAt);
  }

  private async whole(): Promise<void> {
    const sheet = this.marks.now;
    await this.run.start(reading, { marks: inOrder(sheet), 'stroke-width': sheet.strokeWidth }, { layers: this.lookedAt });
  }

  /** New layers and zones come with a fresh page; what is shown on it stands in the link. */
  private async ended(run: Run): Promise<void> {
    if (this.runs.has(run.id)) return this.run.tell(t('The whole painting was taught with these very marks before: what was proposed then stands among the zones, unless it was taken away.'));
    await this.marks.send();
    if (this.marks.keeping === 'stored') Notices.reloadSaying(taughtText(run));
    else this.run.tell(t('{0} Load the page again to see them.', taughtText(run)));
  }
}
