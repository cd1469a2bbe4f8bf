// Exports a walk as a zip: what it is to say of itself, how far it is, the file.
import { type Api, Lost, Problem, told, type WalkExport } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { fixed } from './units';

/** How often a running export is asked after, ms. */
const interval = 400;

export class WalkExportForm {
  readonly element = el('details', { class: 'export' }, el('summary', {}, t('Export')));
  private readonly base = el('input', { type: 'url', placeholder: 'https://museum.example/walks/ferry' });
  private readonly attribution = el('input', { type: 'text', maxlength: 500 });
  private readonly rights = el('input', { type: 'url', list: 'walk-rights' });
  private readonly longest = el('input', { type: 'number', min: 512, step: 1 });
  private readonly begin = el('button', { type: 'button', click: () => void this.start() }, t('Make the folder'));
  private readonly said = el('div', { role: 'status', 'aria-live': 'polite' });
  private readonly bar = el('progress', { max: 1, value: 0, 'aria-label': t('How far the export is'), hidden: true });
  private readonly stop = el('button', { type: 'button', hidden: true, click: () => void this.cancel() }, t('Cancel'));
  private walk: string | null = null;
  private running: string | null = null;

  constructor(private readonly api: Api, private readonly before: () => Promise<void>) {
    this.element.append(el('div', { class: 'words' },
      el('p', { class: 'quiet' }, t('A folder that opens by itself, offline too, with the pictures of this walk; and the same as IIIF with Web Annotations. What is in it can be read by whoever gets it.')),
      el('label', {}, t('Who is to be named'), this.attribution), el('label', {}, t('Licence or statement of rights'), this.rights),
      el('datalist', { id: 'walk-rights' }, ...known.map(([value, name]) => el('option', { value }, name))),
      el('label', {}, t('Longer side at most, pixels (empty: all there are)'), this.longest), el('label', {}, t('Where it will be served (for IIIF only)'), this.base),
      el('div', { class: 'row' }, this.begin, this.bar, this.stop), this.said));
  }

  /** Which walk would be exported. */
  show(walk: string | null, steps: number): void {
    this.element.hidden = steps === 0;
    if (walk === this.walk) return;
    this.walk = walk;
    fill(this.said);
  }

  private async start(): Promise<void> {
    if (!this.walk) return;
    await this.guard(async () => {
      await this.before();
      const ask = { base: this.base.value, attribution: this.attribution.value, rights: this.rights.value, longestSide: this.longest.value === '' ? null : Number(this.longest.value) };
      await this.follow(await this.api.exportWalk(this.walk!, ask));
    });
  }

  private async follow(begun: WalkExport): Promise<void> {
    let now = begun;
    this.running = now.id;
    try {
      for (; now.state === 'running'; now = await this.api.walkExport(now.id)) {
        this.mark(now);
        await new Promise((resolve) => setTimeout(resolve, interval));
      }
    } finally {
      this.running = null;
      this.mark(null);
    }
    if (now.state === 'done') {
      fill(this.said, el('p', {}, el('a', { class: 'button', href: `/api/exports/${now.id}/zip`, download: '' }, t('Download (zip, {0} MB)', fixed((now.bytes ?? 0) / 1e6, 1)))), ...now.warnings.map((w) => el('p', { class: 'quiet' }, w.message)));
      this.said.querySelector('a')!.focus();
    } else this.tell(now.state === 'cancelled' ? t('Cancelled; nothing was kept.') : [now.problem, now.remedy].filter(Boolean).join(' '));
  }

  private mark(now: WalkExport | null): void {
    this.bar.hidden = this.stop.hidden = now === null;
    this.begin.disabled = now !== null;
    if (now === null) return;
    this.bar.value = now.done;
    this.tell(t('{0} % of the pictures are written.', Math.round(100 * now.done)));
  }

  private async cancel(): Promise<void> {
    const { running } = this;
    if (running) await this.guard(() => this.api.cancelExport(running));
  }

  private tell(text: string): void {
    fill(this.said, el('p', {}, text));
  }

  private async guard(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Lost || error instanceof Problem)) throw error;
      this.tell(error instanceof Problem ? told(error) : error.message);
    }
  }
}

/** As IIIF wants them written. */
const known: readonly [address: string, name: string][] = [
  ['http://creativecommons.org/publicdomain/zero/1.0/', t('CC0: no rights reserved')], ['http://creativecommons.org/licenses/by/4.0/', 'CC BY 4.0'], ['http://creativecommons.org/licenses/by-nc/4.0/', 'CC BY-NC 4.0'],
  ['http://rightsstatements.org/vocab/InC/1.0/', t('In copyright')], ['http://rightsstatements.org/vocab/NoC-OKLR/1.0/', t('No copyright, other legal restrictions')],
];
