// Point pairs as they are set: places in the reference and pixels in the photograph. No drawing and no server here.
import type { Place } from './plane';

export interface Pair {
  readonly id: number;
  /** On the plane, mm; null until it is set. */
  readonly place: Place | null;
  /** In the photograph; null until it is set. */
  readonly pixel: Place | null;
  readonly used: boolean;
  /** A locked pair is moved by nothing. */
  readonly locked: boolean;
  /** How it came to lie where it does, in words. */
  readonly note: string;
}

/** A pair with both its points. */
export type WholePair = Pair & { place: Place; pixel: Place };

/** Which of its points: in the reference or in the photograph. */
export type Point = 'place' | 'pixel';

export const otherPoint = (point: Point): Point => (point === 'place' ? 'pixel' : 'place');

export const isWhole = (pair: Pair): pair is WholePair => pair.place !== null && pair.pixel !== null;

/** The list of pairs, with every former state for undoing. */
export class PairList {
  private before: (readonly Pair[])[] = [];
  private listeners: (() => void)[] = [];
  private last: number;

  constructor(private pairs: readonly Pair[] = []) {
    this.last = Math.max(0, ...pairs.map((p) => p.id));
  }

  get all(): readonly Pair[] {
    return this.pairs;
  }

  /** Those with both their points. */
  get whole(): WholePair[] {
    return this.pairs.filter(isWhole);
  }

  /** The pair that still lacks a point. */
  get half(): Pair | undefined {
    return this.pairs.find((p) => !isWhole(p));
  }

  get canUndo(): boolean {
    return this.before.length > 0;
  }

  on(listener: () => void): void {
    this.listeners.push(listener);
  }

  find(id: number): Pair | undefined {
    return this.pairs.find((p) => p.id === id);
  }

  /** Sets a point: of the pair that still lacks one, else of a new pair. Gives the pair. */
  set(point: Point, at: Place): Pair {
    const half = this.half;
    const pair = half ? { ...half, [point]: at } : this.fresh({ [point]: at });
    this.become(half ? this.with(pair) : [...this.pairs, pair]);
    return pair;
  }

  /** A new pair with both its points; what was half set gives way. */
  add(place: Place, pixel: Place): Pair {
    const pair = this.fresh({ place, pixel });
    this.become([...this.pairs.filter(isWhole), pair]);
    return pair;
  }

  /** Moves a point; a locked pair stays. */
  move(id: number, point: Point, at: Place): void {
    const pair = this.find(id);
    if (pair && !pair.locked) this.become(this.with({ ...pair, [point]: at, note: '' }));
  }

  /** What came of looking for the best match: part of setting the pair, so undone with it. */
  snapped(id: number, pixel: Place | null, note: string): void {
    const pair = this.find(id);
    if (!pair || pair.locked) return;
    this.pairs = this.with({ ...pair, pixel: pixel ?? pair.pixel, note });
    this.tell();
  }

  change(id: number, patch: Partial<Pick<Pair, 'used' | 'locked'>>): void {
    const pair = this.find(id);
    if (pair) this.become(this.with({ ...pair, ...patch }));
  }

  remove(id: number): void {
    this.become(this.pairs.filter((p) => p.id !== id));
  }

  undo(): void {
    const before = this.before.pop();
    if (!before) return;
    this.pairs = before;
    this.tell();
  }

  private fresh(points: Partial<Pair>): Pair {
    return { id: ++this.last, place: null, pixel: null, used: true, locked: false, note: '', ...points };
  }

  private with(changed: Pair): readonly Pair[] {
    return this.pairs.map((p) => (p.id === changed.id ? changed : p));
  }

  private become(pairs: readonly Pair[]): void {
    this.before.push(this.pairs);
    this.pairs = pairs;
    this.tell();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}
