// The plot of a profile, with axes in mm and um, and a cursor that pointer and keys move.
import { fill, svg } from './dom';
import { t } from './language';
import { heightAt, pieces, type Profile, rangeOfValues, summary, ticks } from './profileline';
import { fixed } from './units';

const margin = { left: 52, right: 12, top: 12, bottom: 34 };
const height = 190;

export class ProfilePlot {
  readonly element = svg('svg', { class: 'plot', tabindex: 0, role: 'slider', 'aria-label': t('Place along the line. Left and right arrows move it, with Shift further') });
  private readonly cursor = svg('g', { class: 'cursor' });
  private profile: Profile | null = null;
  private at: number | null = null;
  private width = 600;

  /** `onCursor` is told the number of the value under the cursor; null when it is taken away. */
  constructor(private readonly onCursor: (index: number | null) => void) {
    this.element.addEventListener('pointermove', (event) => this.point(event as PointerEvent));
    this.element.addEventListener('pointerleave', () => document.activeElement !== this.element && this.put(null));
    this.element.addEventListener('blur', () => this.put(null));
    this.element.addEventListener('keydown', (event) => this.step(event as KeyboardEvent));
    new ResizeObserver(([entry]) => {
      const width = Math.round(entry!.contentRect.width);
      if (width > 0 && width !== this.width) {
        this.width = width;
        this.draw();
      }
    }).observe(this.element);
  }

  show(profile: Profile | null): void {
    this.profile = profile;
    this.at = null;
    this.draw();
  }

  private draw(): void {
    const { profile, width } = this;
    this.element.setAttribute('viewBox', `0 0 ${width} ${height}`);
    if (!profile) return fill(this.element);
    const range = rangeOfValues(profile.values) ?? { low: 0, high: 0, lowAt: -1, highAt: -1 };
    const { low, high } = this.ends;
    const base = height - margin.bottom;
    const up = ticks(low, high, 5);
    const digits = up.length > 1 && Math.abs(up[1]! - up[0]!) < 1 ? (Math.abs(up[1]! - up[0]!) < 0.1 ? 2 : 1) : 0;
    const along = ticks(0, profile.lengthMm, Math.max(2, Math.floor(width / 90)));
    const alongDigits = along.length > 1 && along[1]! - along[0]! < 1 ? (along[1]! - along[0]! < 0.1 ? 2 : 1) : 0;
    const extreme = (index: number, value: number, word: string): SVGElement[] => index < 0 ? [] : [
      svg('circle', { class: 'extreme', cx: this.across(index), cy: this.up(value), r: 3.5 }, svg('title', {}, t('{0}: {1} at {2} mm', word, heightAt(value, high - low), fixed(index * profile.stepMm, 2))))];
    fill(this.element,
      ...up.flatMap((v) => [svg('line', { class: v === 0 ? 'zero' : 'grid', x1: margin.left, x2: width - margin.right, y1: this.up(v), y2: this.up(v) }), svg('text', { x: margin.left - 6, y: this.up(v) + 4, 'text-anchor': 'end' }, fixed(v, digits).replace('-', '−'))]),
      ...along.flatMap((s) => [svg('line', { class: 'tick', x1: this.acrossMm(s), x2: this.acrossMm(s), y1: base, y2: base + 4 }), svg('text', { x: this.acrossMm(s), y: base + 16, 'text-anchor': 'middle' }, fixed(s, alongDigits))]),
      svg('line', { class: 'tick', x1: margin.left, x2: width - margin.right, y1: base, y2: base }),
      svg('text', { x: (margin.left + width - margin.right) / 2, y: height - 4, 'text-anchor': 'middle' }, t('mm along the line')),
      svg('text', { x: 12, y: (margin.top + base) / 2, 'text-anchor': 'middle', transform: `rotate(-90 12 ${(margin.top + base) / 2})` }, t('height, µm')),
      ...pieces(profile.values, width).map((piece) => svg('polyline', { class: 'height', points: piece.map(([i, v]) => `${this.across(i).toFixed(1)},${this.up(v).toFixed(1)}`).join(' ') })),
      ...extreme(range.highAt, range.high, t('Peak')), ...extreme(range.lowAt, range.low, t('Valley')), this.cursor);
    this.element.setAttribute('aria-valuemin', '0');
    this.element.setAttribute('aria-valuemax', String(profile.values.length - 1));
    this.put(this.at);
  }

  /** Ends of the height's axis: room is left, so that a level line lies in the middle. */
  private get ends(): { low: number; high: number } {
    const range = rangeOfValues(this.profile!.values) ?? { low: 0, high: 0 };
    const room = Math.max((range.high - range.low) * 0.06, 0.05);
    return { low: range.low - room, high: range.high + room };
  }

  private acrossMm(s: number): number {
    return margin.left + (s / this.profile!.lengthMm) * (this.width - margin.left - margin.right);
  }

  private across(index: number): number {
    return this.acrossMm(index * this.profile!.stepMm);
  }

  private up(value: number): number {
    const { low, high } = this.ends;
    return margin.top + ((high - value) / (high - low)) * (height - margin.top - margin.bottom);
  }

  private point(event: PointerEvent): void {
    if (!this.profile) return;
    const { left, width } = this.element.getBoundingClientRect();
    const t = (((event.clientX - left) / width) * this.width - margin.left) / (this.width - margin.left - margin.right);
    this.put(Math.round(Math.min(1, Math.max(0, t)) * (this.profile.values.length - 1)));
  }

  private step(event: KeyboardEvent): void {
    if (!this.profile || event.ctrlKey || event.altKey || event.metaKey) return;
    const last = this.profile.values.length - 1;
    const far = event.shiftKey ? Math.max(1, Math.round(last / 20)) : 1;
    const to = { ArrowLeft: (this.at ?? 1) - far, ArrowRight: (this.at ?? -1) + far, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.put(Math.min(last, Math.max(0, to)));
  }

  private put(index: number | null): void {
    this.at = index;
    const value = index === null ? null : this.profile?.values[index] ?? null;
    const { profile } = this;
    fill(this.cursor, ...(index === null || !profile ? [] : [
      svg('line', { x1: this.across(index), x2: this.across(index), y1: margin.top, y2: height - margin.bottom }),
      value !== null && svg('circle', { cx: this.across(index), cy: this.up(value), r: 4 })]));
    this.element.setAttribute('aria-valuenow', String(index ?? 0));
    this.element.setAttribute('aria-valuetext', !profile ? '' : index === null ? summary(profile) : this.text(index));
    this.onCursor(index);
  }

  /** What lies under the cursor, in words. */
  text(index: number): string {
    const { low, high } = this.ends;
    return `${fixed(index * this.profile!.stepMm, 2)} mm: ${heightAt(this.profile!.values[index] ?? null, high - low)}`;
  }
}
