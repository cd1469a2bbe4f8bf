// One of the two panes on the page of pairs: a picture, its numbered marks, and the keys and pointer that set and move them.
import Overlay from 'ol/Overlay';
import type OlView from 'ol/View';
import { defaults as defaultInteractions } from 'ol/interaction/defaults';
import type { Api, Layer, Painting } from './api';
import { el } from './dom';
import { t } from './language';
import type { Pair, Point } from './pairlist';
import { Pane } from './pane';
import { fromMap, type Place, toMap } from './plane';

export interface PairPaneActions {
  /** A point is set here. */
  set(point: Point, at: Place): void;
  move(id: number, point: Point, to: Place): void;
  select(id: number): void;
  /** Someone looks elsewhere in this pane. */
  look(point: Point): void;
  pointer(point: Point, at: Place): void;
  drawn(): void;
}

const arrows: Record<string, Place> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** How far an arrow key goes, in steps: with Shift ten, with Alt a tenth. Null for other keys. */
export function nudge(event: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'altKey'>, step: number): Place | null {
  const by = arrows[event.key];
  const size = step * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1);
  return by ? [by[0] * size, by[1] * size] : null;
}

export class PairPane {
  readonly element: HTMLElement;
  readonly pane: Pane;
  private readonly marks = new Map<number, { overlay: Overlay; button: HTMLButtonElement }>();
  private pairs: readonly Pair[] = [];
  private moving = false;

  /** `step` is one pixel of the picture in its own unit. */
  constructor(readonly point: Point, private readonly name: string, readonly view: OlView, painting: Painting, api: Api, private readonly actions: PairPaneActions,
    missing: (layer: Layer) => void, public step = 1) {
    this.element = el('div', {
      class: 'pane whole', 'data-point': point, tabindex: '0', role: 'application', 'aria-label': t('{0}. Arrow keys move it, plus and minus zoom, Enter sets a point in its middle.', name),
    }, el('div', { class: 'cross middle' }));
    this.pane = new Pane(this.element, view, painting, api, missing, () => actions.drawn());
    const { map } = this.pane;
    defaultInteractions({ doubleClickZoom: false, altShiftDragRotate: false, pinchRotate: false, keyboard: false }).forEach((i) => map.addInteraction(i));
    map.on('singleclick', (event) => actions.set(point, fromMap(event.coordinate)));
    map.on('pointermove', (event) => actions.pointer(point, fromMap(event.coordinate)));
    this.element.addEventListener('keydown', (event) => this.key(event));
    view.on(['change:center', 'change:resolution'] as never, () => !this.moving && actions.look(point));
  }

  get middle(): Place {
    return fromMap(this.view.getCenter()!);
  }

  /** Looks at a place without being taken for someone who looks elsewhere. */
  lookAt(at: Place, resolution?: number): void {
    this.quietly(() => {
      if (resolution) this.view.setResolution(resolution);
      this.view.setCenter(toMap(at));
    });
  }

  quietly(action: () => void): void {
    this.moving = true;
    action();
    this.moving = false;
  }

  /** Shows the marks of pairs. */
  show(pairs: readonly Pair[], selected: number | null): void {
    this.pairs = pairs;
    for (const [id, { overlay }] of this.marks) if (!pairs.some((p) => p.id === id && p[this.point])) this.forget(id, overlay);
    for (const pair of pairs) {
      const at = pair[this.point];
      if (!at) continue;
      const { overlay, button } = this.marks.get(pair.id) ?? this.make(pair.id);
      overlay.setPosition(toMap(at));
      button.className = ['mark', pair.id === selected && 'on', !pair.used && 'unused', pair.locked && 'locked'].filter(Boolean).join(' ');
      button.setAttribute('aria-label', t('Pair {0} in {1}{2}{3}. Arrow keys move it.', pair.id, this.name, pair.locked ? t(', locked') : '', pair.used ? '' : t(', not used')));
    }
  }

  /** Puts the keyboard on a pair's mark. */
  focus(id: number): void {
    this.marks.get(id)?.button.focus({ preventScroll: true });
  }

  private make(id: number): { overlay: Overlay; button: HTMLButtonElement } {
    const button = el('button', { type: 'button', class: 'mark', 'data-pair': id }, el('span', {}, String(id)));
    const overlay = new Overlay({ element: button, positioning: 'center-center' });
    button.addEventListener('focus', () => this.actions.select(id));
    button.addEventListener('keydown', (event) => this.nudge(event, id));
    button.addEventListener('pointerdown', (event) => this.drag(event, id, overlay));
    this.pane.map.addOverlay(overlay);
    this.marks.set(id, { overlay, button });
    return { overlay, button };
  }

  private forget(id: number, overlay: Overlay): void {
    const focused = overlay.getElement() === document.activeElement;
    this.pane.map.removeOverlay(overlay);
    this.marks.delete(id);
    if (focused) this.element.focus({ preventScroll: true });
  }

  private nudge(event: KeyboardEvent, id: number): void {
    const by = nudge(event, this.step);
    const at = this.pairs.find((p) => p.id === id)?.[this.point];
    if (!by || !at) return;
    event.preventDefault();
    event.stopPropagation();
    this.actions.move(id, this.point, [at[0] + by[0], at[1] + by[1]]);
  }

  private drag(down: PointerEvent, id: number, overlay: Overlay): void {
    const pair = this.pairs.find((p) => p.id === id);
    const from = pair?.[this.point];
    const button = overlay.getElement()!;
    button.focus({ preventScroll: true });
    if (!from || pair.locked || down.button !== 0) return;
    button.setPointerCapture(down.pointerId);
    const start = fromMap(this.pane.map.getEventCoordinate(down));
    let to = from;
    const move = (event: PointerEvent): void => {
      const [x, y] = fromMap(this.pane.map.getEventCoordinate(event));
      to = [from[0] + x - start[0], from[1] + y - start[1]];
      overlay.setPosition(toMap(to));
    };
    button.addEventListener('pointermove', move);
    button.addEventListener('lostpointercapture', () => {
      button.removeEventListener('pointermove', move);
      if (to[0] !== from[0] || to[1] !== from[1]) this.actions.move(id, this.point, to);
    }, { once: true });
  }

  private key(event: KeyboardEvent): void {
    if (event.target !== this.element || event.ctrlKey || event.metaKey) return;
    const by = nudge(event, 60 * this.view.getResolution()!);
    if (by) this.view.setCenter(toMap([this.middle[0] + by[0], this.middle[1] + by[1]]));
    else if (event.key === '+' || event.key === '=') this.view.adjustResolution(0.5);
    else if (event.key === '-') this.view.adjustResolution(2);
    else if (event.key === 'Enter') this.actions.set(this.point, this.middle);
    else return;
    event.preventDefault();
  }
}
