// Following a run on the server until it ends.
import { type Alignment, type Api, type Run, told } from './api';
import { t } from './language';
import { fixed } from './units';

const wait = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds));

/** Asks for a run until it has ended, saying meanwhile how far it is. */
export async function followRun(api: Pick<Api, 'run'>, id: string, say: (text: string, progress: number) => void, pause = 400, doing = t('Aligning')): Promise<Run> {
  for (;;) {
    const run = await api.run(id);
    if (run.state !== 'queued' && run.state !== 'running') return run;
    say(run.state === 'queued' ? t('Waiting for its turn.') : t('{0}, {1} % done.', doing, Math.round(run.progress * 100)), run.progress);
    await wait(pause);
  }
}

const upper = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** The verdicts on an alignment. */
export const verdictWords: Readonly<Record<string, string>> = { aligned: t('aligned'), uncertain: t('uncertain'), 'not aligned': t('not aligned') };

const ends: Partial<Record<Run['state'], string>> = { failed: t('The run failed.'), interrupted: t('The run was interrupted.'), cancelled: t('The run was cancelled.'), 'no-answer': t('The run has no answer.') };

/** How a run ended of which nothing else is known. */
export const endedAs = ({ state }: Pick<Run, 'state'>): string => ends[state] ?? t('Done.');

/** How well an alignment fits, in a sentence. */
export function residualText({ verdict, reason, residuals }: Alignment): string {
  const within = residuals?.p95Mm != null ? t('95 % of the check points within {0} mm', fixed(residuals.p95Mm, 2)) : residuals?.note ?? '';
  const half = residuals?.medianMm != null ? t('half within {0} mm', fixed(residuals.medianMm, 2)) : '';
  const farthest = residuals?.maxMm != null ? t('the farthest {0} mm off', fixed(residuals.maxMm, 2)) : '';
  return `${[upper(verdictWords[verdict] ?? verdict), within, half, farthest].filter(Boolean).join(', ').replace(/\.$/, '')}. ${upper(reason)}`;
}

/** What has come of a size corrected by one measured distance, given the runs that aligned the photographs again. */
export function resizedText(runs: readonly Pick<Run, 'state' | 'inputs' | 'problem' | 'noAnswer'>[]): string {
  const failed = runs.filter((r) => r.state !== 'done');
  const why = failed.map((r) => `${r.inputs[0]?.fileName}: ${r.problem ? told(r.problem) : r.noAnswer ?? endedAs(r)}`);
  const aligned = failed.length === 0 ? t('Photographs aligned again: {0}.', runs.length)
    : t('{0} of {1} photographs could not be aligned again and are out of place: {2}', failed.length, runs.length, why.join(' '));
  return t("The painting's size is corrected. {0} Readings keep their former places until the folder is examined again.", aligned);
}
