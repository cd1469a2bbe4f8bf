// What is said of a lesson, in words: each figure with its uncertainty, or why there is none.
import type { Figure, Run, Taught, TaughtClass } from './api';
import { counted, t } from './language';
import { shownName } from './marks';
import { fixed } from './units';

const percent = (share: number): string => fixed(100 * share, 0);

/** How far a class can be told from the others, in two words; the server's sentence says the rest. */
export const standing = ({ isSeparable }: Pick<TaughtClass, 'isSeparable'>): string => (isSeparable === null ? t('Not enough examples') : isSeparable ? t('Separable') : t('Not separable'));

/** A shape beside the words: full, open, crossed. */
export const sign = ({ isSeparable }: Pick<TaughtClass, 'isSeparable'>): string => (isSeparable === null ? '○' : isSeparable ? '●' : '⊘');

/** The part of a class's held-out examples that is recognised; empty when nobody can say. */
export const recognisedText = ({ isSeparable, recognised, lower, upper }: Pick<TaughtClass, 'isSeparable' | 'recognised' | 'lower' | 'upper'>): string =>
  isSeparable === null || recognised === null ? '' : t('{0} % recognised, between {1} and {2} %', percent(recognised), percent(lower!), percent(upper!));

/** Figure and meaning of what held-out examples say. */
export function qualityText({ quality, classes }: Pick<Taught, 'quality' | 'classes'>): [figure: string, meaning: string][] {
  if (quality === null) return [];
  return [
    [t('Balanced accuracy {0} %, between {1} and {2} %', percent(quality.balanced), percent(quality.lower), percent(quality.upper)), t('on examples held out whole, all classes alike; {0} % is chance', percent(1 / classes.length))],
    [t('Calibration error {0}', fixed(quality.calibrationError, 2)), t('mean distance between what was said and what was right; few examples make it larger; no interval')],
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
  return first ? t('{0} carries {1} %.', first.name, percent(first.share)) : importance.length > 0 ? t('No band carries anything.') : '';
}

/** The reliability plot in words. */
export const reliabilityText = (bins: readonly { weight: number; said: number; right: number }[]): string =>
  bins.map((b) => t('where {0} was said, {1} was right ({2} % of the marks)', fixed(b.said, 2), fixed(b.right, 2), percent(b.weight))).join('; ');

const ofName = (run: Pick<Run, 'figures'>, name: string): Figure[] => run.figures.filter((f) => f.name === name);

/** What has come of teaching the whole painting. */
export function taughtText(run: Pick<Run, 'figures' | 'warnings'>): string {
  const proposed = ofName(run, 'candidates').filter((f) => f.value);
  const total = proposed.reduce((sum, f) => sum + f.value!, 0);
  const areas = total === 0 ? t('No area is proposed.')
    : counted(total, "One area is proposed: {1}. It is a place to look at: keep it, or say 'Not this'.", "{0} areas are proposed: {1}. Each is a place to look at: keep it, or say 'Not this'.", proposed.map((f) => `${shownName(f.subject ?? '')} ${f.value}`).join(', '));
  const [balanced] = ofName(run, 'balanced-accuracy');
  const accuracy = balanced?.value == null ? '' : t(' Balanced accuracy {0} % ({1}).', fixed(balanced.value, 0), (balanced.note ?? '').split(':')[0]!);
  const classes = ofName(run, 'examples').map((f, i) => t('class {0} is {1}', i + 1, shownName(f.subject ?? '')));
  const maps = classes.length === 0 ? '' : t(' In the strip {0}.', classes.join(', '));
  return t('The whole painting was taught. {0}{1}{2}{3}', areas, accuracy, maps, run.warnings.map((w) => ` ${w.message}`).join(''));
}
