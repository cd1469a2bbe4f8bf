// What the marks teach in the present view: asked anew as marks and view change. An older question is given up; what was learnt before stays until then.
import { type Api, isAbort, Lost, Problem, type Sheet, type Taught, told } from './api';
import { debounce } from './dom';
import { t } from './language';
import { inOrder } from './marks';
import { fromMapExtent } from './plane';
import { type Raster, rasterOf } from './probability';
import type { Stage } from './stage';

/** After a stroke, ms: the next one often follows at once. */
const afterStroke = 250;

/** After the view moved, ms. */
const afterView = 600;

export class Lesson {
  taught: Taught | null = null;
  /** Why nothing is shown, or what is being done. */
  saying = '';
  private rasters: Raster[] = [];
  private asked: Sheet | null = null;
  private asking: AbortController | null = null;
  readonly askLater = debounce(afterView, () => void this.ask());
  private readonly soon = debounce(afterStroke, () => void this.ask());

  /** `question` gives the sheet and the photographs that are looked at; null while nobody wants to know. */
  constructor(private readonly api: Api, private readonly painting: string, private readonly stage: Stage, private readonly question: () => { sheet: Sheet; layers: string[] } | null, private readonly onChange: () => void) {}

  get busy(): boolean {
    return this.asking !== null;
  }

  /** Asks, unless the last question was of this sheet. */
  askOf(sheet: Sheet): void {
    if (sheet !== this.asked) this.soon();
  }

  /** The probability of a class; null while nothing is learnt of it. */
  rasterFor(name: string | undefined): Raster | null {
    return this.rasters[this.taught?.classes.findIndex((c) => c.name === name) ?? -1] ?? null;
  }

  /** Gives up what is being asked. */
  stop(): void {
    this.asking?.abort();
    this.asking = null;
    this.asked = null;
  }

  private async ask(): Promise<void> {
    this.stop();
    const question = this.question();
    if (!question) return;
    const { sheet, layers } = question;
    this.asked = sheet;
    if (new Set(sheet.marks.features.map((m) => m.properties.class)).size < 2) return this.learnt(null, [], t('Nothing is learnt yet: mark at least two classes.'));
    const asking = (this.asking = new AbortController());
    this.tell(t('Learning.'));
    const { view, map } = this.stage;
    try {
      const taught = await this.api.teach(this.painting, {
        marks: inOrder(sheet), strokeWidth: sheet.strokeWidth, layers, view: fromMapExtent(view.calculateExtent(map.getSize())), mmPerPixel: view.getResolution()!,
      }, asking.signal);
      const rasters = await Promise.all(taught.classes.map((c) => rasterOf(taught, c.probability)));
      if (this.asking !== asking) return;
      this.asking = null;
      this.learnt(taught, rasters, taught.noAnswer ?? '');
    } catch (error) {
      if (isAbort(error) || this.asking !== asking) return;
      this.asking = null;
      if (!(error instanceof Lost || error instanceof Problem)) throw error;
      this.tell(error instanceof Problem ? told(error) : t('The server does not answer: what is shown was learnt before.'));
    }
  }

  private learnt(taught: Taught | null, rasters: Raster[], saying: string): void {
    [this.taught, this.rasters] = [taught, rasters];
    this.tell(saying);
  }

  private tell(text: string): void {
    this.saying = text;
    this.onChange();
  }
}
