// Zones and measures on the Easel: ties the tools, the stored zones, their panel and "What is here" together.
import Feature from 'ol/Feature';
import Point from 'ol/geom/Point';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Circle, Stroke, Style } from 'ol/style';
import type { Api, Geometry, Painting, Zone } from './api';
import { CandidateDesk } from './candidates';
import { el } from './dom';
import { FindingsOfZones } from './findings';
import { HereColumn } from './here';
import { key, type Key, sign } from './keys';
import { kindOf } from './kinds';
import { nameOf } from './kindwords';
import { t } from './language';
import { Measures } from './measure';
import type { Notices } from './notices';
import { fromEdges, type Place, toMap } from './plane';
import type { Stage } from './stage';
import type { Store } from './state';
import { button } from './toolbar';
import { type Drawing, drawings, type Made, measures, type Tool, Tools } from './tools';
import { placeText } from './units';
import { ZonePanel } from './zoneform';
import { zoneLayer, zoneSource } from './zonelayer';
import { ZoneStore } from './zonestore';

type Named = Exclude<Tool, 'look' | Made>;

const words: Record<Named, [word: string, key: string, hint: string]> = {
  point: [t('Point'), 'P', t('Draw a point zone')],
  line: [t('Line'), 'N', t('Draw a line zone; a double click ends it')],
  outline: [t('Outline'), 'O', t('Draw the outline of a zone; a double click ends it')],
  freehand: [t('Freehand'), 'E', t('Draw the outline of a zone in one stroke')],
  length: [t('Length'), 'K', t('Measure a length; a double click ends it')],
  angle: [t('Angle'), 'J', t('Measure an angle: end, corner, end')],
  area: [t('Area'), 'U', t('Measure an area; a double click ends it')],
};

export class ZoneDesk {
  readonly zones: ZoneStore;
  readonly column = el('section', { class: 'column', 'aria-label': t('This place') });
  readonly buttons: HTMLElement[];
  readonly tools: Tools;
  private readonly findings = new FindingsOfZones();
  private openCandidates = -1;
  private readonly here: HereColumn;
  private readonly panel: ZonePanel;
  private readonly candidates: CandidateDesk;
  private readonly source: VectorSource;
  private readonly layers: [VectorLayer, VectorLayer];
  private readonly kept = new VectorSource();
  private readonly spoken = el('div', { class: 'spoken', role: 'status', 'aria-live': 'polite' });
  private kind = 'note';

  constructor(private readonly painting: Painting, private readonly stage: Stage, private readonly store: Store, private readonly api: Api, notices: Notices) {
    this.zones = new ZoneStore(api, painting.id, (error) => notices.problem(error));
    this.source = zoneSource(this.zones);
    const selected = (): string | null => store.now.zone;
    this.layers = [zoneLayer(this.source, this.findings, selected), zoneLayer(this.source, this.findings, selected)];
    stage.addOverlay(...this.layers);
    stage.addOverlay(new VectorLayer({ source: this.kept, style: keptStyle() }));
    this.here = new HereColumn(painting, api, (zone) => this.select(zone));
    this.candidates = new CandidateDesk(this.zones, selected, (zone) => this.select(zone, true), (message) => notices.say(message));
    this.panel = new ZonePanel(painting.id, this.zones, this.findings, selected, (zone) => this.select(zone));
    this.tools = new Tools(stage, this.source, {
      drawn: (shape) => void this.add(shape),
      changed: (zone, geometry) => void this.zones.change(zone, { geometry }, t('shape')),
      clicked: (zone, place) => (zone ? this.select(zone) : this.keep(place)),
      refused: (message) => notices.say(message),
    }, new Measures(painting, api));
    this.tools.on((tool) => this.mark(tool));
    stage.addOverlay(this.tools.measures.layer);
    this.buttons = this.makeButtons();
    this.column.append(this.candidates.element, this.tools.measures.element, this.here.element, this.panel.element, this.spoken);
    this.zones.on(() => this.refresh());
    this.zones.on(() => void this.readFindings());
    store.on((_, changed) => changed.has('zone') && this.refresh());
    stage.element.addEventListener('pointermove', (event) => this.here.point(stage.placeAt(event)));
    stage.element.addEventListener('pointerleave', () => this.here.point(null));
  }

  /** Reads the zones and shows the one the link names. */
  async begin(): Promise<void> {
    await this.zones.load();
    if (this.store.now.zone && !this.zones.get(this.store.now.zone)) this.store.set({ zone: null });
  }

  keys(): Key[] {
    const take = (tool: Named): Key => ({
      keys: words[tool][1], says: words[tool][2].toLowerCase(), group: drawings.includes(tool as Drawing) ? t('Zones') : t('Measures'),
      match: key(words[tool][1]), act: () => this.tools.take(this.tools.current === tool ? 'look' : tool),
    });
    return [
      ...this.candidates.keys(),
      ...drawings.map(take),
      { keys: t('Space'), says: t('with a tool: a point in the middle of the view'), group: t('Zones'), match: (e) => e.key === ' ' && this.tools.isDrawing && onStage(e), act: () => this.tools.pointAtMiddle() },
      { keys: t('Enter'), says: t('end the drawing; otherwise: keep the middle and read it out'), group: t('Zones'), match: (e) => e.key === 'Enter' && onStage(e), act: () => (this.tools.isDrawing ? this.tools.finish() : this.keep(this.stage.middle)) },
      { keys: t('Backspace'), says: t('take back the last point'), group: t('Zones'), match: (e) => e.key === 'Backspace' && this.tools.isDrawing, act: () => this.tools.back() },
      { keys: t('Del'), says: t('delete the selected zone'), group: t('Zones'), match: (e) => e.key === 'Delete' && this.store.now.zone !== null, act: () => void this.zones.remove(this.store.now.zone!) },
      { keys: 'V', says: t('hide zones, show them again'), group: t('Zones'), match: key('v'), act: () => this.layers.forEach((l) => l.setVisible(!l.getVisible())) },
      { keys: 'Ctrl+Z', says: t('undo'), group: t('Zones'), match: key('z', { control: true }), act: () => void this.zones.undo() },
      { keys: t('Ctrl+Shift+Z'), says: t('redo'), group: t('Zones'), match: (e) => key('z', { control: true, shift: true })(e) || key('y', { control: true })(e), act: () => void this.zones.redo() },
      ...measures.map(take),
      { keys: 'Esc', says: t('give up, put the tool down, let go'), group: t('Zones'), match: sign('Escape'), act: () => this.letGo() },
    ];
  }

  private select(zone: string | null, fly = false): void {
    this.tools.take('look');
    this.store.set({ zone });
    const extent = zone === null ? null : (this.source.getFeatureById(zone) as Feature | null)?.getGeometry()?.getExtent();
    if (extent) fly ? this.stage.fly(extent) : this.stage.bring(extent);
  }

  private keep(place: Place): void {
    this.store.set({ zone: null });
    this.kept.clear();
    this.kept.addFeature(new Feature(new Point(toMap(place))));
    this.here.keep({ place });
    this.spoken.textContent = placeText(fromEdges(place, this.painting.heightMm));
  }

  private letGo(): void {
    if (this.tools.escape()) return;
    this.kept.clear();
    this.tools.measures.clear();
    this.here.keep(null);
    this.store.set({ zone: null });
  }

  private async add(geometry: Geometry): Promise<void> {
    const tool = this.tools.current;
    const number = this.zones.all.filter((z) => z.kind === this.kind).length + 1;
    const zone = await this.zones.create({ name: `${nameOf(kindOf(this.kind))} ${number}`, kind: this.kind, note: '', geometry, isCandidate: false });
    // Storing takes a moment: who has taken another tool meanwhile is left to it.
    if (!zone || this.tools.current !== tool) return;
    this.select(zone.id);
    this.panel.focusName();
  }

  /** Numbers of findings are shown beside their zones: read at the beginning, and when a candidate became a finding or is one no more. */
  private async readFindings(): Promise<void> {
    const open = this.zones.all.filter((z) => z.isCandidate).length;
    if (open === this.openCandidates) return;
    this.openCandidates = open;
    this.findings.take(await this.api.findings(this.painting.id).catch(() => []));
    this.panel.refresh();
    this.source.changed();
  }

  /** After zones or the selection changed. */
  private refresh(): void {
    const zone: Zone | undefined = this.zones.get(this.store.now.zone);
    if (zone) {
      this.kind = kindOf(zone.kind).id;
      this.kept.clear();
      this.here.keep({ zone });
    } else if (this.kept.isEmpty()) this.here.keep(null);
    this.tools.edit(zone?.id ?? null);
    this.candidates.refresh();
    this.panel.refresh();
    this.source.changed();
    this.undo.disabled = this.zones.undoes === null;
    this.undo.title = t('Undo {0} (Ctrl+Z)', this.zones.undoes ?? '');
    this.redo.disabled = this.zones.redoes === null;
    this.redo.title = t('Redo {0} (Ctrl+Shift+Z)', this.zones.redoes ?? '');
  }

  private readonly undo = button(t('Undo'), t('Undo (Ctrl+Z)'), () => void this.zones.undo());
  private readonly redo = button(t('Redo'), t('Redo (Ctrl+Shift+Z)'), () => void this.zones.redo());

  private makeButtons(): HTMLElement[] {
    const make = (tool: Named): HTMLElement => {
      const [word, letter, hint] = words[tool];
      const made = button(word, `${hint} (${letter})`, () => this.tools.take(this.tools.current === tool ? 'look' : tool));
      made.dataset['tool'] = tool;
      made.setAttribute('aria-pressed', 'false');
      return made;
    };
    this.undo.disabled = this.redo.disabled = true;
    return [
      el('span', { class: 'group', role: 'group', 'aria-label': t('Draw a zone') }, el('span', { class: 'quiet' }, t('Zone')), ...drawings.map(make), this.undo, this.redo),
      el('span', { class: 'group', role: 'group', 'aria-label': t('Measure') }, el('span', { class: 'quiet' }, t('Measure')), ...measures.map(make)),
    ];
  }

  private mark(tool: Tool): void {
    // Strokes and probabilities are looked at then; zones stay in sight as a reminder.
    for (const layer of this.layers) layer.setOpacity(tool === 'teach' ? 0.4 : 1);
    for (const group of this.buttons)
      for (const item of group.querySelectorAll<HTMLElement>('button[data-tool]')) item.setAttribute('aria-pressed', String(item.dataset['tool'] === tool));
  }
}

const onStage = (event: KeyboardEvent): boolean => event.target instanceof HTMLElement && event.target.matches('.pane.top, body');

const keptStyle = (): Style[] => [
  new Style({ image: new Circle({ radius: 7, stroke: new Stroke({ color: '#ffffff', width: 4 }) }) }),
  new Style({ image: new Circle({ radius: 7, stroke: new Stroke({ color: '#000000', width: 1.5 }) }) }),
];
