// A loupe on one point of a photograph: shows its surroundings enlarged with a cross at the point, and moves it by dragging or by keys.
import type OlView from 'ol/View';
import type { Api, Layer, Painting } from './api';
import { el } from './dom';
import { t } from './language';
import { pixelView } from './original';
import { Pane } from './pane';
import { fromMap, type Place, toMap } from './plane';
import { plainLook } from './state';
import { fixed } from './units';

/** A point as it is named, and as it is told with its place. */
export interface PointWords {
  name: string;
  says: (at: string) => string;
}

/** Screen pixels for one pixel of the photograph. */
const enlarged = 4;

export class PointLoupe {
  readonly element: HTMLElement;
  private readonly frame: HTMLElement;
  private readonly figures = el('output', { class: 'figures' });
  private readonly view: OlView;
  private pane: Pane | null = null;
  private at: Place = [0, 0];

  constructor(private readonly words: PointWords, private readonly layer: Layer, private readonly painting: Painting, private readonly api: Api,
    private readonly missing: (layer: Layer) => void, private readonly moved: (to: Place) => void) {
    this.view = pixelView(layer);
    this.frame = el('div', { class: 'loupe', tabindex: '0', role: 'application' });
    this.element = el('figure', {}, this.frame, el('figcaption', {}, el('b', {}, words.name), ' ', this.figures));
    this.frame.addEventListener('keydown', (event) => this.key(event));
    this.frame.addEventListener('pointerdown', (event) => this.drag(event));
  }

  /** Looks at a place. */
  look(at: Place): void {
    this.at = at;
    this.view.setCenter(toMap(at));
    this.view.setResolution(1 / enlarged);
    const text = t('{0}, {1} px', fixed(at[0], 1), fixed(at[1], 1));
    this.figures.textContent = text;
    this.frame.setAttribute('aria-label', this.words.says(text));
    if (this.pane || !this.frame.isConnected) return;
    const inside = el('div', { class: 'pane whole' });
    this.frame.append(inside, el('div', { class: 'cross middle' }));
    this.pane = new Pane(inside, this.view, this.painting, this.api, this.missing);
    this.pane.show(plainLook(this.layer));
  }

  private key(event: KeyboardEvent): void {
    const step = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
    const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (!by) return;
    event.preventDefault();
    this.moved([this.at[0] + by[0]!, this.at[1] + by[1]!]);
  }

  /** The picture is drawn under the cross, so the point moves against the pointer; it counts once, when let go. */
  private drag(down: PointerEvent): void {
    this.frame.focus();
    this.frame.setPointerCapture(down.pointerId);
    const from = this.at;
    const move = (event: PointerEvent): void =>
      this.view.setCenter(toMap([from[0] - (event.clientX - down.clientX) / enlarged, from[1] - (event.clientY - down.clientY) / enlarged]));
    this.frame.addEventListener('pointermove', move);
    this.frame.addEventListener('pointerup', () => {
      this.frame.removeEventListener('pointermove', move);
      const to = fromMap(this.view.getCenter()!);
      if (to[0] !== from[0] || to[1] !== from[1]) this.moved(to);
    }, { once: true });
  }
}
