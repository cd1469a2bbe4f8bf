// What is said of a lesson, in words: each figure with its uncertainty, or why there is none.
import type { Figure, Run, Taught, TaughtClass } from './api';
import { fixed } from './units';

const percent = (share: number): string => fixed(100 * share, 0);

/** How far a class can be told from the others, in two words; the server's sentence says the rest. */
export const standing = ({ isSeparable }: Pick<TaughtClass, 'isSeparable'>): string => (isSeparable === null ? 'Not enough examples' : isSeparable ? 'Separable' : 'Not separable');

/** A shape beside the words: full, open, crossed. */
export const sign = ({ isSeparable }: Pick<TaughtClass, 'isSeparable'>): string => (isSeparable === null ? '○' : isSeparable ? '●' : '⊘');

/** The part of a class's held-out examples that is recognised; empty when nobody can say. */
export const recognisedText = ({ isSeparable, recognised, lower, upper }: Pick<TaughtClass, 'isSeparable' | 'recognised' | 'lower' | 'upper'>): string =>
  isSeparable === null || recognised === null ? '' : `${percent(recognised)} % recognised, between ${percent(lower!)} and ${percent(upper!)} %`;

/** Figure and meaning of what held-out examples say. */
export function qualityText({ quality, classes }: Pick<Taught, 'quality' | 'classes'>): [figure: string, meaning: string][] {
  if (quality === null) return [];
  return [
    [`Balanced accuracy ${percent(quality.balanced)} %, between ${percent(quality.lower)} and ${percent(quality.upper)} %`, `on examples held out whole, all classes alike; ${percent(1 / classes.length)} % is chance`],
    [`Calibration error ${fixed(quality.calibrationError, 2)}`, 'mean distance between what was said and what was right; few examples make it larger; no interval'],
  ];
}

/** A file's name without its ending, which tells a person nothing here. */
const plain = (name: string): string => name.replace(/\.(tiff?|png|jpe?g)\b/gi, '');

/** What carries a lesson: bands, or whole photographs; most first, what carries less than a hundredth left out. */
export const carriers = (importance: Taught['importance'], whole: boolean): { name: string; share: number }[] =>
  importance.filter((i) => i.name.startsWith('all of ') === whole && (i.share ?? 0) >= 0.01).map((i) => ({ name: plain(i.name.replace(/^all of /, '')), share: i.share! }));

/** "UVL_01 green carries 61 %." */
export function carriedText(importance: Taught['importance']): string {
  const [first] = carriers(importance, false);
  return first ? `${first.name} carries ${percent(first.share)} %.` : importance.length > 0 ? 'No band carries anything.' : '';
}

/** The reliability plot in words. */
export const reliabilityText = (bins: readonly { weight: number; said: number; right: number }[]): string =>
  bins.map((b) => `where ${fixed(b.said, 2)} was said, ${fixed(b.right, 2)} was right (${percent(b.weight)} % of the marks)`).join('; ');

const ofName = (run: Pick<Run, 'figures'>, name: string): Figure[] => run.figures.filter((f) => f.name === name);

/** What has come of teaching the whole painting. */
export function taughtText(run: Pick<Run, 'figures' | 'warnings'>): string {
  const proposed = ofName(run, 'candidates').filter((f) => f.value);
  const total = proposed.reduce((sum, f) => sum + f.value!, 0);
  const areas = total === 0 ? 'No area is proposed.' : `${total === 1 ? 'One area is' : `${total} areas are`} proposed: ${proposed.map((f) => `${f.subject} ${f.value}`).join(', ')}. Each is a place to look at: keep it, or say 'Not this'.`;
  const [balanced] = ofName(run, 'balanced-accuracy');
  const accuracy = balanced?.value == null ? '' : ` Balanced accuracy ${fixed(balanced.value, 0)} % (${(balanced.note ?? '').split(':')[0]}).`;
  const classes = ofName(run, 'examples').map((f, i) => `class ${i + 1} is ${f.subject}`);
  const maps = classes.length === 0 ? '' : ` In the strip ${classes.join(', ')}.`;
  return `The whole painting was taught. ${areas}${accuracy}${maps}${run.warnings.map((w) => ` ${w.message}`).join('')}`;
}
