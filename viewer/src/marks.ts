// The sheet of marks a person teaches with. A sheet is never changed in place: undo is the sheet before. What is made here is stored at once; what
// could not be stored stays here and is tried again.
import { type Api, type Geometry, Lost, Problem, type Sheet, told } from './api';
import { t } from './language';

/** More classes than this cannot be told apart in one run; the server refuses them. */
export const mostClasses = 8;

/** Words that are often wanted, as they are shown; any others will do. They are kept in English, by which kinds of zones are known. */
const words: Readonly<Record<string, string>> = { retouching: t('retouching'), 'varnish gap': t('varnish gap'), abrasion: t('abrasion'), 'exposed ground': t('exposed ground'), original: t('original') };

export const suggestions: readonly string[] = Object.keys(words);

/** A class's name as it is shown. */
export const shownName = (name: string): string => words[name] ?? name;

/** The name under which a class is kept that a person calls so. */
export const keptName = (shown: string): string => suggestions.find((s) => words[s] === shown.trim().toLowerCase()) ?? shown.trim();

const emptySheet: Sheet = { classes: [], strokeWidth: 1, layers: [], marks: { type: 'FeatureCollection', features: [] } };

/** Why a class cannot have this name, in words; null when it can. `except` is the class that is renamed. */
export function nameProblem(sheet: Sheet, name: string, except: number | null = null): string | null {
  const wanted = name.trim().toLowerCase();
  if (wanted === '') return t('Give the class a name.');
  if (sheet.classes.some((c, i) => i !== except && c.toLowerCase() === wanted)) return t('There is a class "{0}" already.', shownName(name.trim()));
  return except === null && sheet.classes.length >= mostClasses ? t('At most {0} classes can be told apart at once.', mostClasses) : null;
}

/** A sheet with one class more. */
export const withClass = (sheet: Sheet, name: string): Sheet => ({ ...sheet, classes: [...sheet.classes, name.trim()] });

/** A sheet whose class has another name; its marks follow. */
export const renamed = (sheet: Sheet, index: number, name: string): Sheet => ({
  ...sheet, classes: sheet.classes.map((c, i) => (i === index ? name.trim() : c)),
  marks: { ...sheet.marks, features: sheet.marks.features.map((m) => (m.properties.class === sheet.classes[index] ? { ...m, properties: { ...m.properties, class: name.trim() } } : m)) },
});

/** A sheet without a class and its marks. */
export const withoutClass = (sheet: Sheet, index: number): Sheet => ({
  ...sheet, classes: sheet.classes.filter((_, i) => i !== index),
  marks: { ...sheet.marks, features: sheet.marks.features.filter((m) => m.properties.class !== sheet.classes[index]) },
});

/** A sheet with one mark more. */
export const withMark = (sheet: Sheet, index: number, geometry: Geometry): Sheet =>
  ({ ...sheet, marks: { ...sheet.marks, features: [...sheet.marks.features, { type: 'Feature', properties: { class: sheet.classes[index]! }, geometry }] } });

/** A sheet without a mark. */
export const withoutMark = (sheet: Sheet, index: number): Sheet => ({ ...sheet, marks: { ...sheet.marks, features: sheet.marks.features.filter((_, i) => i !== index) } });

/** Positions of a class's marks. */
export const marksOf = (sheet: Sheet, index: number): number[] => sheet.marks.features.flatMap((m, i) => (m.properties.class === sheet.classes[index] ? [i] : []));

/** The marks class by class: a run numbers the classes in the order in which they first come. */
export const inOrder = ({ classes, marks }: Sheet): Sheet['marks'] =>
  ({ ...marks, features: [...marks.features].sort((a, b) => classes.indexOf(a.properties.class) - classes.indexOf(b.properties.class)) });

/** How things stand with the server. */
export type Keeping = 'stored' | 'storing' | 'unsent' | 'changed elsewhere' | 'refused';

export class MarksStore {
  private sheet = emptySheet;
  private stored = emptySheet;
  private revision = 0;
  private readonly done: Sheet[] = [];
  private readonly undone: Sheet[] = [];
  private readonly listeners: (() => void)[] = [];
  private sending: Promise<void> | null = null;
  keeping: Keeping = 'stored';
  /** What the server said of a sheet that it refused. */
  problem = '';

  constructor(private readonly api: Pick<Api, 'marks' | 'storeMarks'>, private readonly painting: string) {}

  get now(): Sheet {
    return this.sheet;
  }

  on(listener: () => void): void {
    this.listeners.push(listener);
  }

  /** Reads what is stored; what could not be stored yet stays. */
  async load(): Promise<void> {
    if (this.stored !== this.sheet) return this.send();
    const { revision, ...sheet } = await this.api.marks(this.painting);
    this.take(sheet, revision);
  }

  /** Makes a sheet the present one and stores it. */
  change(sheet: Sheet): void {
    this.done.push(this.sheet);
    this.undone.length = 0;
    this.put(sheet);
  }

  undo(): void {
    this.step(this.done, this.undone);
  }

  redo(): void {
    this.step(this.undone, this.done);
  }

  /** Stores what is not stored yet; ends when all is, or when it cannot be. */
  send(): Promise<void> {
    this.sending ??= this.sendAll().finally(() => { this.sending = null; });
    return this.sending;
  }

  /** After a change in another window: stores these marks over it. */
  async insist(): Promise<void> {
    this.revision = (await this.api.marks(this.painting)).revision;
    await this.send();
  }

  /** After a change in another window: takes it, and forgets these. */
  async giveWay(): Promise<void> {
    const { revision, ...sheet } = await this.api.marks(this.painting);
    this.done.push(this.sheet);
    this.take(sheet, revision);
  }

  private take(sheet: Sheet, revision: number): void {
    [this.sheet, this.stored, this.revision] = [sheet, sheet, revision];
    this.say('stored');
  }

  private step(from: Sheet[], to: Sheet[]): void {
    const sheet = from.pop();
    if (!sheet) return;
    to.push(this.sheet);
    this.put(sheet);
  }

  private put(sheet: Sheet): void {
    this.sheet = sheet;
    this.say('storing');
    void this.send();
  }

  private async sendAll(): Promise<void> {
    while (this.stored !== this.sheet) {
      const sheet = this.sheet;
      try {
        this.revision = (await this.api.storeMarks(this.painting, sheet, this.revision)).revision;
        this.stored = sheet;
      } catch (error) {
        return this.failed(error);
      }
    }
    this.say('stored');
  }

  private failed(error: unknown): void {
    if (error instanceof Lost) return this.say('unsent');
    if (!(error instanceof Problem)) throw error;
    this.problem = told(error);
    this.say(error.code === 'marks-changed' ? 'changed elsewhere' : error.status >= 500 ? 'unsent' : 'refused');
  }

  private say(keeping: Keeping): void {
    this.keeping = keeping;
    for (const listener of this.listeners) listener();
  }
}
