// Points of a photograph that are set by hand in its own pixels: each is dragged on the picture, or moved in a loupe of its own by pointer and keys; moves can be taken back.
import Feature from 'ol/Feature';
import type Geometry from 'ol/geom/Geometry';
import LineString from 'ol/geom/LineString';
import Polygon from 'ol/geom/Polygon';
import Draw from 'ol/interaction/Draw';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import Modify from 'ol/interaction/Modify';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import type { StyleLike } from 'ol/style/Style';
import type { Api, Layer, Painting } from './api';
import { debounce, el } from './dom';
import { t } from './language';
import type { Notices } from './notices';
import { pixelView, showWhole, withLayer } from './original';
import { Pane } from './pane';
import { fromMap, type Place, toMap } from './plane';
import { PointLoupe, type PointWords } from './pointloupe';
import { plainLook } from './state';
import { button } from './toolbar';
import { sketchStyle } from './zonelayer';

export class Handles {
  readonly stage: HTMLElement;
  readonly loupes: readonly PointLoupe[];
  readonly undoing = button(t('Undo'), t('Take back the last move (Ctrl+Z)'), () => this.undo());
  private readonly shape = new Feature<Geometry>();
  private readonly undone: Place[][] = [];
  private readonly pane: Pane;
  private drawing: Draw | null = null;
  private readonly view;

  /** Two points are a line, more an outline. `moved` is told of every move that counts. */
  constructor(private readonly layer: Layer, painting: Painting, api: Api, notices: Notices, title: string, words: readonly PointWords[], private points: readonly Place[],
    private readonly moved: (points: readonly Place[]) => void, style: StyleLike = sketchStyle()) {
    const shown = withLayer(painting, layer);
    const missing = (l: Layer): void => notices.tileMissing(l.label);
    const element = el('div', { class: 'pane whole top' });
    this.view = pixelView(layer);
    this.pane = new Pane(element, this.view, shown, api, missing);
    this.pane.map.addLayer(new VectorLayer({ source: new VectorSource({ features: [this.shape] }), style, zIndex: 5, updateWhileInteracting: true }));
    this.loupes = words.map((w, i) => new PointLoupe(w, layer, shown, api, missing, (to) => this.set(this.points.map((p, k) => (k === i ? to : p)))));
    this.stage = el('div', { class: 'stage' }, element, el('div', { class: 'label a' }, title));
  }

  /** Shows the photograph and its points; the stage is in the page by then. */
  begin(): void {
    this.pane.show(plainLook(this.layer));
    showWhole(this.pane.map, this.view, this.layer);
    const modify = new Modify({ source: new VectorSource({ features: [this.shape] }), style: sketchStyle(), pixelTolerance: 14, insertVertexCondition: () => false, deleteCondition: () => false });
    defaultInteractions({ doubleClickZoom: false }).forEach((interaction) => this.pane.map.addInteraction(interaction));
    modify.on('modifyend', () => this.set(this.drawn()));
    this.pane.map.addInteraction(modify);
    this.shape.on('change', debounce(30, () => this.loupes.forEach((l, i) => l.look(this.drawn()[i]!))));
    document.addEventListener('keydown', (event) => {
      if (event.key === 'z' && (event.ctrlKey || event.metaKey)) this.undo();
      if (event.key === 'Escape') this.putDown();
    });
    this.place(this.points);
  }

  /** Moves the points. */
  set(points: readonly Place[]): void {
    this.undone.push([...this.points]);
    this.place(points);
  }

  /** Has both ends of a line pressed on the picture, one after the other. */
  draw(): void {
    this.putDown();
    const draw = (this.drawing = new Draw({ type: 'LineString', maxPoints: 2, freehandCondition: () => false, style: sketchStyle() }));
    draw.on('drawend', ({ feature }) => {
      this.set((feature.getGeometry() as LineString).getCoordinates().map(fromMap));
      // The interaction is still at work here.
      setTimeout(() => this.putDown());
    });
    this.pane.map.addInteraction(draw);
    this.stage.dataset['tool'] = 'line';
  }

  private putDown(): void {
    if (this.drawing) this.pane.map.removeInteraction(this.drawing);
    this.drawing = null;
    this.stage.dataset['tool'] = 'look';
  }

  private drawn(): Place[] {
    const geometry = this.shape.getGeometry()!;
    return (geometry instanceof Polygon ? geometry.getCoordinates()[0]!.slice(0, -1) : (geometry as LineString).getCoordinates()).map(fromMap);
  }

  private undo(): void {
    const before = this.undone.pop();
    if (before) this.place(before);
  }

  private place(points: readonly Place[]): void {
    this.points = points;
    const coordinates = points.map(toMap);
    this.shape.setGeometry(points.length > 2 ? new Polygon([[...coordinates, coordinates[0]!]]) : new LineString(coordinates));
    this.loupes.forEach((loupe, i) => loupe.look(points[i]!));
    this.moved(points);
  }
}
