// Corners by hand: the original pixels with the four corners of the painted face, each with a loupe; then the photograph is aligned again.
import Feature from 'ol/Feature';
import OlMap from 'ol/Map';
import Polygon from 'ol/geom/Polygon';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import Modify from 'ol/interaction/Modify';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import type { Api, Layer, Painting } from './api';
import { CornerLoupe, cornerNames } from './cornerloupe';
import { debounce, el, fill } from './dom';
import { t } from './language';
import { Notices } from './notices';
import { pixelView, showWhole, withLayer } from './original';
import { Pane } from './pane';
import { fromMap, type Place, toMap } from './plane';
import { endedAs, followRun, residualText } from './runs';
import { plainLook } from './state';
import { button } from './toolbar';
import { sketchStyle } from './zonelayer';

/** Opens the corners of one photograph. */
export async function openCorners(main: HTMLElement, painting: Painting, photograph: string, api: Api): Promise<void> {
  const [layer, { corners }] = await Promise.all([api.layer(`o-${photograph}`), api.corners(photograph)]);
  new CornersPage(main, withLayer(painting, layer), layer, api, corners ?? inset(layer)).show();
}

/** Where corners start when none were found: a tenth in from the frame. */
export const inset = ({ width, height }: Pick<Layer, 'width' | 'height'>): Place[] =>
  [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]].map(([x, y]) => [x! * width, y! * height]);

class CornersPage {
  private readonly outline = new Feature<Polygon>();
  private readonly loupes: CornerLoupe[];
  private readonly notices = new Notices(() => location.reload());
  private readonly result = el('p', { class: 'result', role: 'status', 'aria-live': 'polite' });
  private readonly align = button(t('Align again'), t('Stores these corners and aligns the photograph by them'), () => void this.alignAgain());
  private readonly element = el('div', { class: 'pane whole' });
  private readonly undone: Place[][] = [];
  private readonly pane: Pane;
  private readonly view;

  constructor(private readonly main: HTMLElement, painting: Painting, private readonly layer: Layer, private readonly api: Api, private corners: Place[]) {
    api.onReach = (reached) => this.notices.reach(reached);
    const missing = (l: Layer): void => this.notices.tileMissing(l.label);
    this.view = pixelView(layer);
    this.pane = new Pane(this.element, this.view, painting, api, missing);
    this.pane.map.addLayer(new VectorLayer({ source: new VectorSource({ features: [this.outline as Feature] }), style: sketchStyle(), zIndex: 5, updateWhileInteracting: true }));
    this.loupes = cornerNames.map((name, i) => new CornerLoupe(name, layer, painting, api, missing, (to) => this.move(i, to)));
  }

  show(): void {
    const name = this.layer.label;
    fill(this.main,
      el('div', { class: 'centre' },
        el('div', { class: 'toolbar' }, el('a', { class: 'button', href: location.pathname }, t('Back to the Easel')), this.align,
          button(t('Undo'), t('Take back the last move (Ctrl+Z)'), () => this.undo())),
        el('div', { class: 'frame' }, el('div', { class: 'stage' }, this.element, el('div', { class: 'label a' }, t('{0}: corners of the painted face', name))), this.notices.element)),
      el('section', { class: 'column loupes', 'aria-label': t('Corners') },
        el('p', {}, t('Put each corner where the painted face ends. Drag it, or focus a loupe and use the arrow keys; with Shift ten pixels, with Alt a tenth.')),
        el('div', { class: 'fourfold' }, ...this.loupes.map((l) => l.element)), this.result));
    this.main.classList.add('easel', 'corners');
    this.pane.show(plainLook(this.layer));
    showWhole(this.pane.map, this.view, this.layer);
    this.interact();
    this.place(this.corners);
    document.addEventListener('keydown', (event) => event.key === 'z' && (event.ctrlKey || event.metaKey) && this.undo());
  }

  private interact(): void {
    const map: OlMap = this.pane.map;
    defaultInteractions({ doubleClickZoom: false }).forEach((interaction) => map.addInteraction(interaction));
    const source = new VectorSource({ features: [this.outline as Feature] });
    const modify = new Modify({ source, style: sketchStyle(), pixelTolerance: 14, insertVertexCondition: () => false, deleteCondition: () => false });
    modify.on('modifystart', () => this.remember());
    modify.on('modifyend', () => this.place(this.drawn()));
    map.addInteraction(modify);
    this.outline.on('change', debounce(30, () => this.loupes.forEach((l, i) => l.look(this.drawn()[i]!))));
  }

  private drawn(): Place[] {
    return this.outline.getGeometry()!.getCoordinates()[0]!.slice(0, 4).map(fromMap);
  }

  private remember(): void {
    this.undone.push(this.corners);
  }

  private undo(): void {
    const before = this.undone.pop();
    if (before) this.place(before);
  }

  private move(index: number, to: Place): void {
    this.remember();
    this.place(this.corners.map((corner, i) => (i === index ? to : corner)));
  }

  private place(corners: Place[]): void {
    this.corners = corners;
    this.outline.setGeometry(new Polygon([[...corners, corners[0]!].map(toMap)]));
    this.loupes.forEach((loupe, i) => loupe.look(corners[i]!));
  }

  private async alignAgain(): Promise<void> {
    this.align.disabled = true;
    try {
      const photograph = this.layer.photographId!;
      const { runId } = await this.api.setCorners(photograph, this.corners);
      const run = await followRun(this.api, runId, (text) => fill(this.result, text));
      const { alignments } = await this.api.photograph(photograph);
      const now = alignments.find((a) => a.inForce);
      fill(this.result, run.state === 'done' && now ? residualText(now) : run.problem?.message ?? run.noAnswer ?? endedAs(run));
    } catch (error) {
      fill(this.result, error instanceof Error ? error.message : String(error));
    } finally {
      this.align.disabled = false;
    }
  }
}
