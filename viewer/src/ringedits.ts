/** Boundaries of a ring series while a person moves them: what the fields of the form must say, so that the form alone keeps them. */
export class RingEdits {
  /** Places now, mm along the line; null for one taken out. The first ones are those that are kept, by their numbers. */
  readonly places: (number | null)[];

  constructor(private readonly kept: readonly number[], private readonly longest: number) {
    this.places = [...kept];
  }

  /** Moves one, within the line. */
  move(index: number, mm: number): number {
    return (this.places[index] = Math.min(Math.max(0, mm), this.longest));
  }

  takeOut(index: number): void {
    this.places[index] = null;
  }

  /** Sets a new one; its index. */
  add(mm: number): number {
    this.places.push(null);
    this.move(this.places.length - 1, mm);
    return this.places.length - 1;
  }

  /** Numbers of kept boundaries that are to go, because they were taken out or moved. */
  get out(): string {
    return this.kept.flatMap((mm, i) => (this.places[i] === mm ? [] : [i + 1])).join(' ');
  }

  /** Where new ones are to be, and moved ones now. */
  get in(): string {
    return this.places.flatMap((mm, i) => (mm === null || mm === this.kept[i] ? [] : [mm.toFixed(3)])).join(' ');
  }
}
