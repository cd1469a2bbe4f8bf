// A reading that is run from the Easel: how far it is, a way to stop it, and what came of it.
import { type Api, type Painting, Problem, type Run, told } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { followRun } from './runs';

export class RunBox {
  readonly element = el('div', { class: 'runbox' });
  private readonly said = el('p', { role: 'status', 'aria-live': 'polite' });
  private readonly bar = el('progress', { max: 1, value: 0, 'aria-label': t('How far it is') });
  private readonly stop = el('button', { type: 'button', click: () => void this.cancel() }, t('Cancel'));
  private running: string | null = null;

  /** `done` is told of a run that ended with a result; whatever else it ended with is said here. */
  constructor(private readonly api: Api, private readonly painting: Painting, private readonly doing: string, private readonly done: (run: Run) => void, private readonly onChange: (running: boolean) => void) {
    fill(this.element, this.said, el('div', { class: 'row' }, this.bar, this.stop));
    this.show(null);
  }

  /** Asks for a run and follows it. */
  async start(reading: string, parameters: Record<string, unknown>, inputs: Record<string, string[]>): Promise<void> {
    try {
      this.tell(t('Asked for.'));
      await this.follow((await this.api.startRun(this.painting.id, reading, parameters, inputs)).runId);
    } catch (error) {
      this.failed(error);
    }
  }

  /** Follows the run among these that was begun before the page was loaded. */
  async resume(runs: readonly Run[]): Promise<void> {
    const live = runs.find((r) => r.state === 'queued' || r.state === 'running');
    if (live && this.running === null) await this.follow(live.id).catch((error: unknown) => this.failed(error));
  }

  /** Says something in the place of a run's progress. */
  tell(text: string): void {
    this.said.textContent = text;
  }

  private async follow(id: string): Promise<void> {
    this.show(id);
    const run = await followRun(this.api, id, (text, progress) => {
      this.tell(text);
      this.bar.value = progress;
    }, 400, this.doing);
    this.show(null);
    this.tell(endText(run));
    if (run.state === 'done') this.done(run);
  }

  private async cancel(): Promise<void> {
    this.stop.disabled = true;
    try {
      if (this.running) await this.api.cancelRun(this.running);
    } catch (error) {
      this.failed(error);
    }
  }

  private failed(error: unknown): void {
    this.show(null);
    this.tell(error instanceof Problem ? told(error) : t('The server does not answer. What was begun goes on there; load the page again to see it.'));
  }

  private show(running: string | null): void {
    this.running = running;
    this.bar.hidden = this.stop.hidden = running === null;
    this.stop.disabled = false;
    this.bar.value = 0;
    this.onChange(running !== null);
  }
}

/** How a run ended, in words. */
export function endText(run: Pick<Run, 'state' | 'problem' | 'noAnswer'>): string {
  if (run.state === 'done') return t('Done.');
  if (run.state === 'no-answer') return run.noAnswer ?? t('There is no answer.');
  if (run.state === 'cancelled') return t('Cancelled: nothing of it is kept.');
  return run.problem ? told(run.problem) : t('It was interrupted: nothing of it is kept. Run it again.');
}
