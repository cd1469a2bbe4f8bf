// The alignment in force, in words and as arrows, and the run that makes the next one.
import { type Alignment, type Api, told } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { versionText } from './pairwords';
import { enlarged, ResidualArrows } from './residualarrows';
import { endedAs, followRun, residualText, verdictWords } from './runs';
import { button } from './toolbar';
import { fixed } from './units';

export class AlignmentState {
  readonly element = el('section', { 'aria-label': t('Alignment in force') });
  readonly arrows = new ResidualArrows(1.5);
  inForce: Alignment | undefined;
  private readonly said = el('p', { class: 'verdict' });
  private readonly legend = el('p', { class: 'quiet legend' });
  private readonly result = el('p', { class: 'result', role: 'status', 'aria-live': 'polite' });
  private readonly stop = button(t('Stop'), t('Stop aligning; nothing of it is kept'), () => void this.stopRun());
  private running: string | null = null;

  constructor(private readonly api: Api, private readonly photograph: string, private readonly busy: (busy: boolean) => void) {
    this.stop.hidden = true;
    this.element.append(el('h2', {}, t('Alignment in force')), this.said, this.legend, this.result, this.stop);
  }

  /** Reads what is in force now. */
  async load(): Promise<void> {
    const [{ alignments }, residuals] = await Promise.all([this.api.photograph(this.photograph), this.api.residual(this.photograph)]);
    const now = (this.inForce = alignments.find((a) => a.inForce));
    fill(this.said, ...(now ? [el('b', {}, versionText(now)), ` ${residualText(now)}`] : [versionText(now)]));
    this.arrows.show(residuals);
    const longest = Math.max(0, ...residuals.map((r) => Math.hypot(...r.residual)));
    this.legend.textContent = residuals.length > 0
      ? t('Thin arrows: what it leaves at {0} places, drawn {1} times as long; the longest is {2} mm. They should point every way: where many point one way, that part lies wrong.', residuals.length, enlarged, fixed(longest, 2))
      : '';
  }

  /** Follows a run to its end and says what came of it. */
  async follow(start: () => Promise<{ runId: string }>): Promise<void> {
    this.busy(true);
    try {
      fill(this.result, t('Waiting for its turn.'));
      const { runId } = await start();
      this.running = runId;
      this.stop.hidden = this.stop.disabled = false;
      const run = await followRun(this.api, runId, (text) => fill(this.result, text));
      if (run.state === 'done') await this.load();
      fill(this.result, run.state === 'done' && this.inForce ? t('Version {0} is in force now: {1}.', this.inForce.version, verdictWords[this.inForce.verdict] ?? this.inForce.verdict)
        : run.state === 'cancelled' ? t('Stopped. Nothing was changed.')
        : (run.problem && told(run.problem)) || run.noAnswer || endedAs(run));
    } catch (error) {
      fill(this.result, error instanceof Error ? error.message : String(error));
    } finally {
      this.running = null;
      this.stop.hidden = true;
      this.busy(false);
    }
  }

  private async stopRun(): Promise<void> {
    this.stop.disabled = true;
    if (this.running) await this.api.cancelRun(this.running);
  }
}
