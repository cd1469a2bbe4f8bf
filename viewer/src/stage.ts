// The stage: two panes, A and B, that share one view, and a transparent one over them that takes the pointer and carries zones and measures.
import OlMap from 'ol/Map';
import OlView from 'ol/View';
import type BaseLayer from 'ol/layer/Base';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import DragRotate from 'ol/interaction/DragRotate';
import { containsExtent } from 'ol/extent';
import { platformModifierKeyOnly } from 'ol/events/condition';
import type { Api, Layer, Painting } from './api';
import { layOut, type Rect } from './compare';
import { el } from './dom';
import { greyOfLightness } from './ground';
import { t } from './language';
import { planeProjection } from './layers';
import { Pane } from './pane';
import { type Box, fromMap, type Place, toMap, toMapExtent } from './plane';
import type { State, Store, View } from './state';

export class Stage {
  readonly element = el('div', { class: 'stage' });
  readonly top = el('div', {
    class: 'pane top', tabindex: '0', role: 'application', 'aria-label': t('The painting. Arrow keys move it, plus and minus zoom, question mark lists all keys.'),
  });
  readonly map: OlMap;
  readonly view: OlView;
  readonly panes: { a: Pane; b: Pane };
  private readonly echoElement = el('div', { class: 'pane echo' });
  private readonly cross = el('div', { class: 'cross', hidden: true });
  private readonly echo: OlMap;
  private readonly edges: Box;
  /** mm a pixel of the finest layer. */
  private readonly finest: number;
  /** Last pointer place on the stage, screen pixels; the loupe stays there. */
  pointer: [number, number] | null = null;
  /** While something is being drawn the top pane stays where it is. */
  held = false;
  private overB = false;
  /** The view that last showed the whole painting; while nobody has moved it, it follows the window's size. */
  private wholeView: View | null = null;

  constructor(parent: HTMLElement, painting: Painting, private readonly store: Store, api: Api, onMissing: (layer: Layer) => void) {
    this.edges = [0, 0, painting.widthMm || 100, painting.heightMm || 100];
    // A painting whose size is not known yet has none; its Easel is empty, but must stand.
    const room = Math.max(painting.widthMm, painting.heightMm) || 100;
    this.finest = Math.min(...painting.layers.filter((l) => l.onPlane).map((l) => l.mmPerPixel), room / 500);
    this.view = new OlView({
      projection: planeProjection, center: toMap([painting.widthMm / 2, painting.heightMm / 2]), resolution: room / 500,
      minResolution: this.finest / 16, maxResolution: room / 50, constrainResolution: false, constrainRotation: false, showFullExtent: true,
      extent: toMapExtent([-room, -room, painting.widthMm + room, painting.heightMm + room]), constrainOnlyCenter: true,
    });
    const a = el('div', { class: 'pane a' });
    const b = el('div', { class: 'pane b' });
    this.element.append(a, b, this.echoElement, this.top, this.cross);
    parent.append(this.element);
    const onDrawn = (): void => this.tellBusy();
    this.panes = { a: new Pane(a, this.view, painting, api, onMissing, onDrawn), b: new Pane(b, this.view, painting, api, onMissing, onDrawn) };
    this.map = new OlMap({
      target: this.top, view: this.view, controls: [], moveTolerance: 2,
      interactions: defaultInteractions({ altShiftDragRotate: false, shiftDragZoom: true, doubleClickZoom: false, keyboard: false })
        .extend([new DragRotate({ condition: platformModifierKeyOnly })]),
    });
    this.echo = new OlMap({ target: this.echoElement, view: this.view, controls: [], interactions: [] });
    this.element.addEventListener('pointermove', (event) => this.follow(event));
    new ResizeObserver(() => this.resize(parent)).observe(parent);
    store.on((state, changed) => {
      if (changed.has('a')) this.panes.a.show(state.a);
      if (changed.has('b') || changed.has('mode')) this.panes.b.show(state.mode === 'alone' ? null : state.b);
      if (['mode', 'edge', 'fade', 'loupe', 'ground'].some((k) => changed.has(k as keyof State))) this.arrange(state);
      if (changed.has('view') && state.view) this.look(state.view);
    });
    // For benchmarks: when the first picture stood there whole.
    this.panes.a.map.once('rendercomplete', () => performance.mark('sandarac:first-view'));
    this.view.on(['change:center', 'change:resolution', 'change:rotation'] as never, () => store.set({ view: this.viewNow() }));
  }

  /** Shows what the state says, at the start. */
  begin(): void {
    const state = this.store.now;
    this.snap(this.element.parentElement!);
    this.panes.a.show(state.a);
    this.panes.b.show(state.mode === 'alone' ? null : state.b);
    if (state.view) this.look(state.view);
    else this.whole();
  }

  /** Adds layers of drawn things: the first over the top pane, the second, of the same source, over the other pane when they lie side by side. */
  addOverlay(over: BaseLayer, echo?: BaseLayer): void {
    this.map.addLayer(over);
    if (echo) this.echo.addLayer(echo);
  }

  /** Brings the whole painting into view, upright. */
  whole(): void {
    const rect = layOut(this.store.now, this.element.clientWidth, this.element.clientHeight, [0, 0]).a;
    this.view.setRotation(0);
    this.view.fit(toMapExtent(this.edges), { size: [rect.width, rect.height], padding: [24, 24, 56, 24] });
    this.wholeView = this.viewNow();
  }

  /** Brings a drawn thing into view, if part of it is out of sight. */
  bring(extent: number[]): void {
    const seen = this.view.calculateExtent(this.map.getSize());
    if (!containsExtent(seen, extent)) this.view.fit(extent, { size: this.map.getSize(), padding: [80, 80, 80, 80], minResolution: this.view.getResolution()! });
  }

  /** Flies to a drawn thing: it fills the middle third of the view, or less where that would be closer than a pixel on a pixel. */
  fly(extent: number[]): void {
    const [width, height] = this.map.getSize()!;
    this.view.fit(extent, { size: [width!, height!], padding: [height! / 3, width! / 3, height! / 3, width! / 3], minResolution: this.finest });
  }

  /** Moves by steps of 60 screen pixels. */
  pan(dx: number, dy: number, times: number): void {
    const step = 60 * times * this.view.getResolution()!;
    const turn = this.view.getRotation();
    const [x, y] = this.middle;
    this.view.setCenter(toMap([x + step * (dx * Math.cos(turn) + dy * Math.sin(turn)), y + step * (dy * Math.cos(turn) - dx * Math.sin(turn))]));
  }

  /** Zooms by so many doublings about the middle. */
  zoom(doublings: number): void {
    this.view.adjustResolution(2 ** -doublings);
  }

  /** Middle of the view, mm. */
  get middle(): Place {
    return fromMap(this.view.getCenter()!);
  }

  /** The place under a point of the page; null when it is off the stage. */
  placeAt(event: MouseEvent): Place | null {
    const coordinate = this.map.getEventCoordinate(event);
    return coordinate ? fromMap(coordinate) : null;
  }

  private viewNow(): View {
    const [x, y] = this.middle;
    return { x, y, mmPerPixel: this.view.getResolution()!, turn: (this.view.getRotation() * 180) / Math.PI };
  }

  private look(view: View): void {
    if (same(this.viewNow(), view)) return;
    this.view.setResolution(view.mmPerPixel);
    this.view.setRotation((view.turn * Math.PI) / 180);
    this.view.setCenter(toMap([view.x, view.y]));
  }

  private follow(event: PointerEvent): void {
    const box = this.element.getBoundingClientRect();
    this.pointer = [event.clientX - box.left, event.clientY - box.top];
    const { mode } = this.store.now;
    if (mode === 'loupe') this.panes.b.element.style.clipPath = layOut(this.store.now, box.width, box.height, this.pointer).clip;
    if (mode !== 'beside') return;
    const overB = this.pointer[0] > box.width / 2;
    if (overB !== this.overB && !this.held && event.buttons === 0) {
      this.overB = overB;
      this.arrange(this.store.now);
    }
    this.cross.hidden = false;
    const half = Math.floor((box.width - 2) / 2) + 2;
    place(this.cross, { left: this.pointer[0] + (this.overB ? -half : half), top: this.pointer[1], width: 0, height: 0 });
  }

  private resize(parent: HTMLElement): void {
    this.snap(parent);
    if (this.wholeView && same(this.wholeView, this.viewNow())) this.whole();
  }

  /** Puts the stage on whole screen pixels, whatever lies above it: a picture between two pixels would be blurred. */
  private snap(parent: HTMLElement): void {
    const { left, top, right, bottom } = parent.getBoundingClientRect();
    this.element.style.inset = `${Math.ceil(top) - top}px ${right - Math.floor(right)}px ${bottom - Math.floor(bottom)}px ${Math.ceil(left) - left}px`;
    this.arrange(this.store.now);
  }

  private tellBusy(): void {
    this.element.setAttribute('aria-busy', String(this.panes.a.busy || this.panes.b.busy));
  }

  private arrange(state: State): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    const layout = layOut(state, width, height, this.pointer ?? [width / 2, height / 2]);
    const { a, b } = this.panes;
    const beside = state.mode === 'beside';
    const front = beside && this.overB ? layout.b! : layout.a;
    place(a.element, layout.a);
    place(b.element, layout.b);
    place(this.top, front);
    place(this.echoElement, beside ? (this.overB ? layout.a : layout.b) : null);
    b.element.style.clipPath = layout.clip;
    b.element.style.opacity = String(layout.opacity);
    if (!beside) this.cross.hidden = true;
    const grey = greyOfLightness(state.ground);
    this.element.style.setProperty('--ground', `rgb(${grey}, ${grey}, ${grey})`);
    this.element.dataset['mode'] = state.mode;
    for (const map of [a.map, b.map, this.map, this.echo]) map.updateSize();
    this.tellBusy();
  }
}

function place(element: HTMLElement, rect: Rect | null): void {
  element.hidden = rect === null;
  if (rect === null) return;
  element.style.left = `${rect.left}px`;
  element.style.top = `${rect.top}px`;
  if (rect.width > 0) {
    element.style.width = `${rect.width}px`;
    element.style.height = `${rect.height}px`;
  }
}

function same(a: View, b: View): boolean {
  return a.x === b.x && a.y === b.y && a.mmPerPixel === b.mmPerPixel && a.turn === b.turn;
}
