// Profiles on the Easel: a line drawn on the plane, the height along it, and what the line tells of a pull of the brush.
import Feature from 'ol/Feature';
import LineString from 'ol/geom/LineString';
import Point from 'ol/geom/Point';
import Draw from 'ol/interaction/Draw';
import Modify from 'ol/interaction/Modify';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Circle, Fill, Stroke, Style } from 'ol/style';
import { type Api, isAbort, Lost, type Painting, Problem, told } from './api';
import { key, type Key } from './keys';
import { t } from './language';
import { fromMap, type Place, toMap } from './plane';
import { firstBreadth, placeAlong, type ProfileLine } from './profileline';
import { ProfilePanel } from './profilepanel';
import { initialRelight } from './relightlamp';
import { type Surface, surfacesOf } from './relightruns';
import { RunBox } from './runbox';
import { lengthOf } from './shapes';
import type { Stage } from './stage';
import type { Store } from './state';
import { button } from './toolbar';
import type { Tool, Tools } from './tools';
import { sketchStyle } from './zonelayer';

const nothing: ProfileLine = { line: [], breadth: firstBreadth };

export class ProfileDesk {
  readonly element: HTMLElement;
  readonly button = button(t('Profile'), t('Height along a line; a double click ends it (A)'), () => this.toggle());
  private readonly panel: ProfilePanel;
  private readonly run: RunBox;
  private readonly source = new VectorSource();
  private readonly cursor = new VectorSource();
  private readonly modify: Modify;
  private surface: Surface | null = null;
  private known = false;
  private asking = new AbortController();
  /** The line whose pull is measured: what is found is not told of another. */
  private followed: ProfileLine | null = null;

  constructor(private readonly painting: Painting, stage: Stage, private readonly store: Store, private readonly api: Api, private readonly tools: Tools) {
    this.run = new RunBox(api, painting, t('Following the pull'), (run) => this.followed === store.now.profile && this.panel.pulled(run), (running) => this.panel?.running(running));
    this.panel = new ProfilePanel({
      draw: () => this.tools.take('profile'), line: (line) => this.change({ line }), breadth: (breadth) => this.change({ breadth }), cursor: (mm) => this.point(mm),
      measure: () => this.store.set({ relight: initialRelight }), pull: () => void this.pull(), close: () => this.toggle(),
    }, this.run, painting.heightMm);
    this.element = this.panel.element;
    this.button.setAttribute('aria-pressed', 'false');
    stage.addOverlay(new VectorLayer({ source: this.source, style: lineStyle, zIndex: 3 }), new VectorLayer({ source: this.source, style: lineStyle }));
    stage.addOverlay(new VectorLayer({ source: this.cursor, style: cursorStyle, zIndex: 4 }), new VectorLayer({ source: this.cursor, style: cursorStyle }));
    this.modify = new Modify({ source: this.source, style: sketchStyle(), pixelTolerance: 8 });
    this.modify.on('modifyend', ({ features }) => features.forEach((f) => this.change({ line: placesOf(f as Feature) })));
    stage.map.addInteraction(this.modify);
    tools.makers.profile = () => this.draw();
    tools.on((tool) => this.taken(tool));
    store.on((state, changed) => {
      if (changed.has('profile')) this.show(state.profile);
      if (changed.has('relight') && state.profile && state.relight?.run !== this.surface?.run.id) void this.load();
    });
    this.modify.setActive(false);
  }

  keys(): Key[] {
    return [
      { keys: 'A', says: t('profile: height along a line'), group: t('Surface'), match: key('a'), act: () => this.toggle() },
      { keys: '← →', says: t('on the plot: move along the line; with Shift further'), group: t('Surface'), match: () => false, act: () => {} },
    ];
  }

  /** Shows the line that the link names. */
  begin(): void {
    this.show(this.store.now.profile);
  }

  private toggle(): void {
    if (this.store.now.profile) {
      if (this.tools.current === 'profile') this.tools.take('look');
      return this.store.set({ profile: null });
    }
    this.store.set({ profile: nothing });
    this.tools.take('profile');
  }

  private taken(tool: Tool): void {
    if (tool === 'profile' && !this.store.now.profile) this.store.set({ profile: nothing });
    this.modify.setActive(tool === 'look' && this.store.now.profile !== null);
    this.mark();
  }

  private change(patch: Partial<ProfileLine>): void {
    this.store.set({ profile: { ...(this.store.now.profile ?? nothing), ...patch } });
  }

  private mark(): void {
    this.button.setAttribute('aria-pressed', String(this.store.now.profile !== null));
  }

  private draw(): Draw {
    const draw = new Draw({ type: 'LineString', freehandCondition: () => false, style: sketchStyle(), snapTolerance: 8 });
    draw.on('drawend', ({ feature }) => {
      const line = placesOf(feature);
      if (lengthOf(line) === 0) return;
      this.change({ line });
      // Putting the tool down takes the interaction away, which is still at work here.
      setTimeout(() => this.tools.current === 'profile' && this.tools.take('look'));
    });
    return draw;
  }

  private show(profile: ProfileLine | null): void {
    const opened = profile !== null && this.element.hidden;
    this.element.hidden = profile === null;
    this.modify.setActive(profile !== null && this.tools.current === 'look');
    this.mark();
    this.source.clear();
    this.cursor.clear();
    this.panel.pulled(null);
    this.run.tell('');
    if (profile === null) return;
    if (profile.line.length > 1) this.source.addFeature(new Feature(new LineString(profile.line.map(toMap))));
    this.panel.refresh(profile, this.surface, this.known);
    if (opened) void this.load();
    else void this.ask();
  }

  /** Finds the surface: the one that is lit, or the newest. */
  private async load(): Promise<void> {
    try {
      const surfaces = surfacesOf(await this.api.runs(this.painting.id, 'relief'), this.painting);
      this.surface = surfaces.find((s) => s.run.id === this.store.now.relight?.run) ?? surfaces[0] ?? null;
      this.known = true;
      this.panel.refresh(this.store.now.profile ?? nothing, this.surface, true);
      await this.ask();
    } catch (error) {
      this.panel.show(null, wrong(error));
    }
  }

  private async ask(): Promise<void> {
    this.asking.abort();
    const { profile } = this.store.now;
    if (profile === null || !this.known) return;
    if (this.surface === null) return this.panel.show(null, t('The surface is not measured yet.'));
    if (profile.line.length < 2) return this.panel.show(null, t('Draw a line on the painting, or enter its ends.'));
    this.asking = new AbortController();
    const { signal } = this.asking;
    try {
      const read = await this.api.profile(this.surface.height.id, profile.line, profile.breadth, signal);
      if (!signal.aborted) this.panel.show(read);
    } catch (error) {
      if (!isAbort(error)) this.panel.show(null, wrong(error));
    }
  }

  /** Marks the place of the plot's cursor on the painting. */
  private point(mm: number | null): void {
    this.cursor.clear();
    const line = this.store.now.profile?.line ?? [];
    if (mm !== null && line.length > 1) this.cursor.addFeature(new Feature(new Point(toMap(placeAlong(line, mm)))));
  }

  private async pull(): Promise<void> {
    const { profile } = this.store.now;
    if (profile === null) return;
    this.followed = profile;
    try {
      const inputs = await this.api.inputs(this.painting.id, 'brush-pull');
      const lines = { type: 'FeatureCollection', features: [{ type: 'Feature', properties: { class: 'pull' }, geometry: { type: 'LineString', coordinates: profile.line.map((p) => p.map((v) => Number(v.toFixed(3)))) } }] };
      await this.run.start('brush-pull', { lines, breadth: profile.breadth }, inputs);
    } catch (error) {
      this.run.tell(wrong(error));
    }
  }
}

function wrong(error: unknown): string {
  if (error instanceof Problem) return told(error);
  if (error instanceof Lost) return error.message;
  throw error;
}

const placesOf = (feature: Feature): Place[] => (feature.getGeometry() as LineString).getCoordinates().map(fromMap);

/** The line, and a mark where it begins, so that left and right of the plot are known. */
const lineStyle = (feature: unknown): Style[] => [
  new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: 4 }) }),
  new Style({ stroke: new Stroke({ color: '#000000', width: 1.5 }) }),
  new Style({ geometry: new Point(((feature as Feature).getGeometry() as LineString).getFirstCoordinate()), image: new Circle({ radius: 4, fill: new Fill({ color: '#000000' }), stroke: new Stroke({ color: '#ffffff', width: 1.5 }) }) }),
];

const cursorStyle = [
  new Style({ image: new Circle({ radius: 7, stroke: new Stroke({ color: '#ffffff', width: 4 }) }) }),
  new Style({ image: new Circle({ radius: 7, stroke: new Stroke({ color: '#000000', width: 2 }) }) }),
];
