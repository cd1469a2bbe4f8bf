// Two panes that share one view, with zones over them: what a walk is shown on.
import OlMap from 'ol/Map';
import OlView from 'ol/View';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import type Feature from 'ol/Feature';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import { clampEdge, edgeAt, layOut, type Rect } from './compare';
import { el } from './dom';
import { eased, flight } from './flight';
import { planeProjection } from './layers';
import { fromMap, toMap, toMapExtent } from './plane';
import { resolutionFor, type ShownStep, type ShownZone } from './walkstep';
import { walkZoneStyle, zoneFeature } from './walkzones';

/** Shows pictures by their keys; `over` is the light and shade that lies over the picture. */
export interface WalkPane {
  readonly map: OlMap;
  show(key: string | null, over: string | null): void;
}

export type Comparing = Pick<ShownStep, 'a' | 'b' | 'over' | 'mode' | 'amount'>;

export interface StageSize {
  widthMm: number;
  heightMm: number;
  finest: number;
}

export class WalkStage {
  readonly element = el('div', { class: 'walkstage' });
  readonly top = el('div', { class: 'pane top' });
  readonly view: OlView;
  private readonly paneA = el('div', { class: 'pane a' });
  private readonly paneB = el('div', { class: 'pane b' });
  private readonly edge = el('div', { class: 'walkedge' });
  private readonly panes: { a: WalkPane; b: WalkPane };
  private readonly map: OlMap;
  private readonly zones = new VectorSource();
  private readonly zoneFeatures: Feature[];
  private how: Comparing = { a: '', b: null, over: null, mode: 'alone', amount: 0.5 };
  private pointer: [number, number] | null = null;
  private flying = 0;

  constructor(private readonly size: StageSize, all: readonly ShownZone[], makePane: (element: HTMLElement, view: OlView) => WalkPane, interactive: boolean, private readonly moved: (amount: number) => void = () => {}) {
    const room = Math.max(size.widthMm, size.heightMm);
    this.view = new OlView({
      projection: planeProjection, center: toMap([size.widthMm / 2, size.heightMm / 2]), resolution: room / 500, minResolution: size.finest / 8, maxResolution: room / 150,
      constrainResolution: false, showFullExtent: true, extent: toMapExtent([0, 0, size.widthMm, size.heightMm]), constrainOnlyCenter: true, enableRotation: false,
    });
    this.element.append(this.paneA, this.paneB, this.top, this.edge);
    this.panes = { a: makePane(this.paneA, this.view), b: makePane(this.paneB, this.view) };
    this.map = new OlMap({
      target: this.top, view: this.view, controls: [], interactions: interactive ? defaultInteractions({ altShiftDragRotate: false, pinchRotate: false, keyboard: false }) : [],
      layers: [new VectorLayer({ source: this.zones, style: walkZoneStyle })],
    });
    this.zoneFeatures = all.map(zoneFeature);
    if (interactive) this.listen();
    new ResizeObserver(() => this.arrange()).observe(this.element);
  }

  /** Shows pictures in a way of comparing. */
  compare(how: Comparing): void {
    this.how = how;
    this.panes.a.show(how.a, how.over);
    this.panes.b.show(how.mode === 'alone' ? null : how.b, null);
    this.arrange();
  }

  /** Shows these zones alone. */
  showZones(ids: readonly string[]): void {
    this.zones.clear();
    this.zones.addFeatures(this.zoneFeatures.filter((f) => ids.includes(f.getId() as string)));
  }

  /** Goes to a place, flying unless that is not wanted. */
  go(to: { x: number; y: number; widthMm: number }, fly: boolean): void {
    cancelAnimationFrame(this.flying);
    const pane = this.paneSize();
    const [x, y] = fromMap(this.view.getCenter()!);
    // Widths of what is seen: the view knows mm a pixel.
    const [from, until] = [{ x, y, width: this.view.getResolution()! * pane.width }, { x: to.x, y: to.y, width: resolutionFor(to.widthMm, pane) * pane.width }];
    const way = flight(from, until);
    if (!fly || way.seconds === 0) return this.look(until.x, until.y, until.width / pane.width);
    const begun = performance.now();
    const step = (now: number): void => {
      const share = Math.min(1, (now - begun) / 1000 / way.seconds);
      const at = way.at(eased(share));
      this.look(at.x, at.y, at.width / pane.width);
      if (share < 1) this.flying = requestAnimationFrame(step);
    };
    this.flying = requestAnimationFrame(step);
  }

  /** Brings the whole painting into view. */
  whole(fly: boolean): void {
    const { width, height } = this.paneSize();
    const resolution = Math.max(this.size.widthMm / (width - 16), this.size.heightMm / (height - 16));
    this.go({ x: this.size.widthMm / 2, y: this.size.heightMm / 2, widthMm: Math.min(resolution * width, (resolution * height * 16) / 10) }, fly);
  }

  /** Moves by shares of the pane. */
  pan(dx: number, dy: number): void {
    const { width, height } = this.paneSize();
    const [x, y] = fromMap(this.view.getCenter()!);
    const resolution = this.view.getResolution()!;
    this.view.setCenter(toMap([x + dx * width * resolution, y + dy * height * resolution]));
  }

  /** Zooms by doublings about the middle. */
  zoom(doublings: number): void {
    this.view.adjustResolution(2 ** -doublings);
  }

  private look(x: number, y: number, mmPerPixel: number): void {
    this.view.setResolution(mmPerPixel);
    this.view.setCenter(toMap([x, y]));
  }

  private paneSize(): { width: number; height: number } {
    const { a } = this.layout();
    return { width: Math.max(1, a.width), height: Math.max(1, a.height) };
  }

  private layout(): ReturnType<typeof layOut> {
    const { clientWidth: width, clientHeight: height } = this.element;
    const { mode, amount } = this.how;
    return layOut({ mode, edge: clampEdge(amount), fade: amount, loupe: loupeRadius(width, height) }, width, height, this.pointer ?? [width / 2, height / 2]);
  }

  private arrange(): void {
    const { clientWidth: width } = this.element;
    if (width === 0) return;
    const layout = this.layout();
    place(this.paneA, layout.a);
    place(this.paneB, layout.b);
    place(this.top, layout.a);
    this.paneB.style.clipPath = layout.clip;
    this.paneB.style.opacity = String(layout.opacity);
    this.edge.hidden = this.how.mode !== 'divide';
    this.edge.style.left = `${edgeAt(clampEdge(this.how.amount), width)}px`;
    this.element.dataset['mode'] = this.how.mode;
    for (const map of [this.panes.a.map, this.panes.b.map, this.map]) map.updateSize();
  }

  /** The loupe follows the pointer, the edge is dragged. */
  private listen(): void {
    const at = (event: PointerEvent): [number, number] => {
      const box = this.element.getBoundingClientRect();
      return [event.clientX - box.left, event.clientY - box.top];
    };
    this.element.addEventListener('pointermove', (event) => {
      this.pointer = at(event);
      if (this.how.mode === 'loupe') this.paneB.style.clipPath = this.layout().clip;
    });
    this.edge.addEventListener('pointerdown', (event) => {
      this.edge.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    this.edge.addEventListener('pointermove', (event) => {
      if (!this.edge.hasPointerCapture(event.pointerId)) return;
      this.how = { ...this.how, amount: clampEdge(at(event)[0] / this.element.clientWidth) };
      this.arrange();
      this.moved(this.how.amount);
    });
  }
}

const loupeRadius = (width: number, height: number): number => Math.round(0.28 * Math.min(width, height));

function place(element: HTMLElement, rect: Rect | null): void {
  element.hidden = rect === null;
  if (rect === null) return;
  for (const side of ['left', 'top', 'width', 'height'] as const) element.style[side] = `${rect[side]}px`;
}

/** Whether the reader asked for less movement. */
export const stillWanted = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;
