// Relight on the Easel: ties the lamp, the layer that is shaded on A, the runs of the reading of relief and the panel together.
import { type Api, Lost, type Painting, Problem, type Run } from './api';
import { key, type Key } from './keys';
import { t } from './language';
import { Notices } from './notices';
import { initialRelight, type Relight, tidied, writeRelight } from './relightlamp';
import { RelightLayer } from './relightlayer';
import { RelightPanel } from './relightpanel';
import { type Surface, surfacesOf } from './relightruns';
import { RunBox } from './runbox';
import type { Stage } from './stage';
import type { Store } from './state';
import { button } from './toolbar';

const reading = 'relief';

export class RelightDesk {
  readonly element: HTMLElement;
  readonly button = button(t('Relight'), t('Move a lamp over the measured surface (Q)'), () => this.toggle());
  private readonly panel: RelightPanel;
  private readonly run: RunBox;
  private layer: RelightLayer | null = null;
  private surfaces: Surface[] = [];
  private chosen: Surface | null = null;
  private inputs: Record<string, string[]> | null = null;
  private last: Relight = initialRelight;

  constructor(private readonly painting: Painting, private readonly stage: Stage, private readonly store: Store, private readonly api: Api, private readonly notices: Notices) {
    this.run = new RunBox(api, painting, t('Measuring the surface'), (run) => this.ended(run), (running) => { if (this.panel) this.panel.measure.disabled = running; });
    this.panel = new RelightPanel({
      change: (patch) => this.change(patch), choose: (run) => this.choose(run),
      measure: () => void this.run.start(reading, {}, this.inputs ?? {}), close: () => this.toggle(),
    }, this.run);
    this.element = this.panel.element;
    this.button.setAttribute('aria-pressed', 'false');
    store.on((state, changed) => {
      if (changed.has('relight')) this.show(state.relight);
      if (changed.has('view') && state.relight) this.panel.lamp(state.relight, state.view?.turn ?? 0);
    });
  }

  keys(): Key[] {
    return [
      { keys: 'Q', says: t('relight: move a lamp over the measured surface'), group: t('Surface'), match: key('q'), act: () => this.toggle() },
      { keys: '← ↑ → ↓', says: t('on the lamp: turn, raise, lower; with Shift further'), group: t('Surface'), match: () => false, act: () => {} },
    ];
  }

  /** Lights the surface when the link says so. */
  begin(): void {
    this.show(this.store.now.relight);
  }

  /** Asks for the tiles again, after the server was lost. */
  refresh(): void {
    this.layer?.refresh();
  }

  private toggle(): void {
    this.store.set({ relight: this.store.now.relight ? null : this.last });
  }

  private change(patch: Partial<Relight>): void {
    const { relight } = this.store.now;
    if (relight) this.store.set({ relight: tidied({ ...relight, ...patch }, relight) });
  }

  private show(relight: Relight | null): void {
    const opened = relight !== null && this.element.hidden;
    this.element.hidden = relight === null;
    this.button.setAttribute('aria-pressed', String(relight !== null));
    if (relight) this.last = relight;
    if (opened) void this.load();
    if (relight && !opened) this.panel.lamp(relight, this.turn);
    this.layer?.light(this.last);
    this.lay();
  }

  private get turn(): number {
    return this.store.now.view?.turn ?? 0;
  }

  /** Reads which surfaces are there; with none, which photographs would make one. */
  private async load(): Promise<void> {
    try {
      const runs = await this.api.runs(this.painting.id, reading);
      this.surfaces = surfacesOf(runs, this.painting);
      this.inputs = this.surfaces.length === 0 ? await this.api.inputs(this.painting.id, reading) : null;
      this.choose(this.last.run);
      this.panel.focus();
      await this.run.resume(runs);
    } catch (error) {
      if (!(error instanceof Lost || error instanceof Problem)) throw error;
      this.run.tell(error.message);
    }
  }

  /** Shows the surface of a run, or the newest. */
  private choose(run: string | null): void {
    const surface = this.surfaces.find((s) => s.run.id === run) ?? this.surfaces[0] ?? null;
    if (surface !== this.chosen) {
      if (this.layer) this.stage.panes.a.uncover();
      this.layer?.dispose();
      this.layer = surface && new RelightLayer(surface.normals, surface.albedo, this.api, this.last, (layer) => this.notices.tileMissing(layer.label));
      this.chosen = surface;
    }
    this.panel.refresh(this.last, this.turn, this.surfaces, surface, this.inputs && planText(this.inputs));
    this.panel.measure.hidden = !this.inputs?.['raking'] || this.inputs['raking'].length < fewest;
    this.change({ run: surface?.run.id ?? null });
    this.lay();
  }

  /** Lays the surface over A, or takes it away. */
  private lay(): void {
    const { a } = this.stage.panes;
    const { relight } = this.store.now;
    if (relight && this.layer) a.cover(this.layer, relight.show === 'over');
    else a.uncover();
  }

  /** The new layers come with a fresh page. */
  private ended(run: Run): void {
    const link = new URL(location.href);
    link.searchParams.set('relight', writeRelight({ ...this.last, run: run.id }));
    history.replaceState(null, '', link);
    Notices.reloadSaying(t('The surface is measured.{0}', run.warnings.map((w) => ` ${w.message}`).join('')));
  }
}

/** Fewer lamps tell no surface. */
const fewest = 3;

/** What would be measured from what. */
export function planText(inputs: Readonly<Record<string, readonly string[]>>): string {
  const [count, boards] = [inputs['raking']?.length ?? 0, inputs['raking-board']?.length ?? 0];
  if (count < fewest) return t('The surface is not measured, and cannot be yet: it takes three or more photographs in raking light on the plane, each with its lamp elsewhere; there {0}.', count === 1 ? t('is one') : count === 0 ? t('is none') : t('are {0}', count));
  return t('The surface is not measured yet. It can be, from {0} photographs in raking light, {1}.', count, boards > 0 ? t('each with its even board') : t('without even boards: lamps are then taken for equally strong and even'));
}
