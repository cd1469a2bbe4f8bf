// What the pointer does on the stage: look and select, draw a zone, measure. One tool at a time.
import Draw from 'ol/interaction/Draw';
import Modify from 'ol/interaction/Modify';
import Translate from 'ol/interaction/Translate';
import type Interaction from 'ol/interaction/Interaction';
import { altKeyOnly } from 'ol/events/condition';
import Collection from 'ol/Collection';
import Feature, { type FeatureLike } from 'ol/Feature';
import Point from 'ol/geom/Point';
import type LineString from 'ol/geom/LineString';
import type Polygon from 'ol/geom/Polygon';
import type VectorSource from 'ol/source/Vector';
import type { Geometry as ZoneShape } from './api';
import { t } from './language';
import { type Measure, Measures } from './measure';
import { fromMap, type Place, toMap } from './plane';
import { selfCrossing, simplify, withoutLoops } from './shapes';
import type { Stage } from './stage';
import { sketchStyle, writeShape } from './zonelayer';

export type Drawing = 'point' | 'line' | 'outline' | 'freehand';
/** Tools whose interaction is made by whoever keeps what they draw. */
export type Made = 'teach' | 'profile';
export type Tool = 'look' | Drawing | Measure | Made;
export const drawings: readonly Drawing[] = ['point', 'line', 'outline', 'freehand'];
export const measures: readonly Measure[] = ['length', 'angle', 'area'];

export interface ToolEvents {
  drawn(shape: ZoneShape): void;
  changed(zone: string, shape: ZoneShape): void;
  clicked(zone: string | null, place: Place): void;
  refused(message: string): void;
}

export class Tools {
  private tool: Tool = 'look';
  private draw: Draw | null = null;
  private readonly editable = new Collection<Feature>();
  private readonly editing: Interaction[];
  private readonly listeners: ((tool: Tool) => void)[] = [];
  /** Makes the interactions of such tools. */
  readonly makers: Partial<Record<Made, () => Draw>> = {};

  constructor(private readonly stage: Stage, private readonly zones: VectorSource, private readonly events: ToolEvents, readonly measures: Measures) {
    const modify = new Modify({ features: this.editable, style: sketchStyle(), pixelTolerance: 8 });
    // Only with Alt, so that moving the picture never moves a zone by mistake.
    const translate = new Translate({ features: this.editable, hitTolerance: 4, condition: altKeyOnly });
    this.editing = [translate, modify];
    for (const interaction of this.editing) stage.map.addInteraction(interaction);
    modify.on('modifyend', ({ features }) => features.forEach((f) => this.changed(f as Feature)));
    translate.on('translateend', ({ features }) => features.forEach((f) => this.changed(f as Feature)));
    stage.map.on('singleclick', (event) => this.tool === 'look' && this.click(event.pixel, fromMap(event.coordinate)));
  }

  /** Tells which tool was taken up. */
  on(listener: (tool: Tool) => void): void {
    this.listeners.push(listener);
  }

  get current(): Tool {
    return this.tool;
  }

  get isDrawing(): boolean {
    return this.draw !== null;
  }

  /** Takes up a tool. */
  take(tool: Tool): void {
    if (this.draw) this.stage.map.removeInteraction(this.draw);
    this.draw = null;
    this.tool = tool;
    if (tool !== 'look') {
      this.draw = tool === 'teach' || tool === 'profile' ? this.makers[tool]!() : (measures as readonly string[]).includes(tool) ? this.measures.draw(tool as Measure, this.stage.view.getResolution()!) : this.drawZone(tool as Drawing);
      this.draw.on('drawstart', () => { this.stage.held = true; });
      this.draw.on(['drawend', 'drawabort'] as never, () => { this.stage.held = false; });
      this.stage.map.addInteraction(this.draw);
    }
    for (const interaction of this.editing) interaction.setActive(tool === 'look');
    this.stage.element.dataset['tool'] = tool;
    for (const listener of this.listeners) listener(tool);
  }

  /** Makes one zone's corners and body movable; null for none. */
  edit(zone: string | null): void {
    this.editable.clear();
    const feature = zone === null ? null : this.zones.getFeatureById(zone);
    if (feature instanceof Feature) this.editable.push(feature);
  }

  /** Gives up what is being drawn; with nothing begun, puts the tool down. */
  escape(): boolean {
    if (this.tool === 'look') return false;
    if (this.stage.held) this.draw?.abortDrawing();
    else this.take('look');
    return true;
  }

  /** Takes back the last point. */
  back(): void {
    this.draw?.removeLastPoint();
  }

  /** Adds a point in the middle of the view, for drawing by keys. */
  pointAtMiddle(): void {
    if (this.tool === 'point') return this.events.drawn(writeShape(new Point(toMap(this.stage.middle))));
    if (this.tool !== 'freehand') this.draw?.appendCoordinates([toMap(this.stage.middle)]);
  }

  /** Ends what is being drawn. */
  finish(): void {
    this.draw?.finishDrawing();
  }

  private drawZone(drawing: Drawing): Draw {
    const draw = new Draw({
      type: drawing === 'point' ? 'Point' : drawing === 'line' ? 'LineString' : 'Polygon', freehand: drawing === 'freehand',
      freehandCondition: () => drawing === 'freehand', style: sketchStyle(), snapTolerance: 8,
    });
    draw.on('drawend', ({ feature }) => {
      const geometry = feature.getGeometry()!;
      if (drawing === 'freehand') this.smooth(geometry as Polygon);
      const ring = geometry.getType() === 'Polygon' ? (geometry as Polygon).getCoordinates()[0]!.map(fromMap) : [];
      if (geometry.getType() === 'Polygon' && ring.length < 4) return;
      if (selfCrossing(ring)) return this.events.refused(t('The outline crosses itself, so it encloses no single area. Draw it again without crossing.'));
      this.events.drawn(writeShape(geometry));
    });
    return draw;
  }

  /** A hand draws more points than its line needs, and crosses it where it closes. */
  private smooth(polygon: Polygon): void {
    const ring = polygon.getCoordinates()[0]!.map(fromMap);
    const clean = withoutLoops(simplify(ring, this.stage.view.getResolution()! * 0.75));
    polygon.setCoordinates([clean.map(toMap)]);
  }

  private changed(feature: Feature): void {
    const shape = writeShape(feature.getGeometry()! as Point | LineString | Polygon);
    this.events.changed(feature.getId() as string, shape);
  }

  private click(pixel: number[], place: Place): void {
    const hit = this.stage.map.forEachFeatureAtPixel(pixel, (f: FeatureLike) => (f.get('zone') ? (f.getId() as string) : undefined), { hitTolerance: 5 });
    this.events.clicked(hit ?? null, place);
  }
}
