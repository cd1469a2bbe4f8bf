// The foot of the stage: where the pointer is, and the scale bar.
import { el } from './dom';
import { fromEdges, type Place } from './plane';
import { placeText, roundLength, scaleText } from './units';

/** Widest the scale bar may grow, screen pixels. */
const barPixels = 160;

export class Readout {
  readonly place = el('output', { class: 'place', 'aria-live': 'off' });
  readonly scale = el('div', { class: 'scale' });
  private readonly bar = el('span', { class: 'rule' });
  private readonly length = el('span', { class: 'length' });

  constructor(private readonly heightMm: number) {
    this.scale.append(this.bar, this.length);
  }

  /** Shows a place on the plane, or nothing. */
  show(place: Place | null): void {
    this.place.textContent = place === null ? '' : placeText(fromEdges(place, this.heightMm));
  }

  /** Redraws the bar for a new magnification. */
  rescale(mmPerPixel: number): void {
    const mm = roundLength(mmPerPixel, barPixels);
    this.bar.style.width = `${mm / mmPerPixel}px`;
    this.length.textContent = scaleText(mm);
  }
}
