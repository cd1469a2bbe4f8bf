// A round dial in which the lamp is moved by hand: overhead in the middle, at the rim on the plane, on the side where it stands beside the picture.
import { svg } from './dom';
import { t } from './language';
import { lampAt, lampText, placeOf, type Relight } from './relightlamp';
import { angleText } from './units';

const radius = 60;
const margin = 14;

type Lamp = Pick<Relight, 'azimuth' | 'elevation'>;

const steps: Record<string, readonly [azimuth: number, elevation: number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

export class LampDial {
  readonly element: SVGElement;
  private readonly lamp = svg('circle', { r: 8, class: 'lamp' });
  private readonly ray = svg('line', { x1: 0, y1: 0, class: 'ray' });
  private now: Lamp = { azimuth: 0, elevation: 90 };
  private turn = 0;

  constructor(private readonly move: (lamp: Lamp) => void) {
    const side = 2 * (radius + margin);
    const rings = [30, 60].map((e) => svg('circle', { r: radius * (1 - e / 90) }));
    const said = [30, 60].map((e) => svg('text', { x: 3, y: radius * (1 - e / 90) - 2 }, `${e}°`));
    this.element = svg('svg', {
      class: 'dial', viewBox: `${-side / 2} ${-side / 2} ${side} ${side}`, tabindex: 0, role: 'slider', 'aria-label': t('Lamp. Left and right arrows turn it, up and down raise and lower it, with Shift further'),
      'aria-valuemin': 0, 'aria-valuemax': 360,
    }, svg('circle', { r: radius, class: 'rim' }), ...rings, ...said, this.ray, svg('circle', { r: 2, class: 'middle' }), this.lamp);
    this.element.addEventListener('pointerdown', (event) => this.take(event as PointerEvent));
    this.element.addEventListener('pointermove', (event) => this.element.hasPointerCapture((event as PointerEvent).pointerId) && this.drag(event as PointerEvent));
    this.element.addEventListener('keydown', (event) => this.step(event as KeyboardEvent));
  }

  /** Shows where the lamp stands; `turn` is how far the view is turned. */
  show(lamp: Lamp, turn: number): void {
    [this.now, this.turn] = [lamp, turn];
    const [x, y] = placeOf(lamp, turn).map((t) => t * radius) as [number, number];
    for (const [name, value] of [['cx', x], ['cy', y]] as const) this.lamp.setAttribute(name, String(value));
    for (const [name, value] of [['x2', x], ['y2', y]] as const) this.ray.setAttribute(name, String(value));
    this.element.setAttribute('aria-valuenow', String(Math.round(lamp.azimuth)));
    this.element.setAttribute('aria-valuetext', t('{0}, azimuth {1}, elevation {2}', lampText(lamp), angleText(lamp.azimuth), angleText(lamp.elevation)));
  }

  private take(event: PointerEvent): void {
    this.element.setPointerCapture(event.pointerId);
    this.element.focus();
    this.drag(event);
    event.preventDefault();
  }

  private drag(event: PointerEvent): void {
    const { left, top, width, height } = this.element.getBoundingClientRect();
    const scale = (2 * (radius + margin)) / radius;
    this.move(lampAt(((event.clientX - left) / width - 0.5) * scale, ((event.clientY - top) / height - 0.5) * scale, this.turn));
  }

  private step(event: KeyboardEvent): void {
    const by = steps[event.key];
    if (!by || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const far = event.shiftKey ? 10 : 1;
    this.move({ azimuth: this.now.azimuth + by[0] * 2 * far, elevation: this.now.elevation + by[1] * far });
  }
}
