// Following a run on the server until it ends.
import { type Alignment, type Api, type Run, told } from './api';
import { fixed } from './units';

const wait = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds));

/** Asks for a run until it has ended, saying meanwhile how far it is. */
export async function followRun(api: Pick<Api, 'run'>, id: string, say: (text: string, progress: number) => void, pause = 400, doing = 'Aligning'): Promise<Run> {
  for (;;) {
    const run = await api.run(id);
    if (run.state !== 'queued' && run.state !== 'running') return run;
    say(run.state === 'queued' ? 'Waiting for its turn.' : `${doing}, ${Math.round(run.progress * 100)} % done.`, run.progress);
    await wait(pause);
  }
}

const upper = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** How well an alignment fits, in a sentence. */
export function residualText({ verdict, reason, residuals }: Alignment): string {
  const within = residuals?.p95Mm != null ? `95 % of the check points within ${fixed(residuals.p95Mm, 2)} mm` : residuals?.note ?? '';
  const half = residuals?.medianMm != null ? `half within ${fixed(residuals.medianMm, 2)} mm` : '';
  const farthest = residuals?.maxMm != null ? `the farthest ${fixed(residuals.maxMm, 2)} mm off` : '';
  return `${[upper(verdict), within, half, farthest].filter(Boolean).join(', ').replace(/\.$/, '')}. ${upper(reason)}`;
}

/** What has come of a size corrected by one measured distance, given the runs that aligned the photographs again. */
export function resizedText(runs: readonly Pick<Run, 'state' | 'inputs' | 'problem' | 'noAnswer'>[]): string {
  const failed = runs.filter((r) => r.state !== 'done');
  const why = failed.map((r) => `${r.inputs[0]?.fileName}: ${r.problem ? told(r.problem) : r.noAnswer ?? `the run ended as ${r.state}.`}`);
  const aligned = failed.length === 0 ? `Photographs aligned again: ${runs.length}.`
    : `${failed.length} of ${runs.length} photographs could not be aligned again and are out of place: ${why.join(' ')}`;
  return `The painting's size is corrected. ${aligned} Readings keep their former places until the folder is examined again.`;
}
