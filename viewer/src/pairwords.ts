// What the page of pairs says, in words.
import type { Alignment, MapModel, PairsFit } from './api';
import { counted, t } from './language';
import { fixed } from './units';

/** The models: what may differ between two photographs, and the fewest pairs for each. */
export const models: readonly { id: MapModel; words: string; fewest: number }[] = [
  { id: 'similarity', words: t('Place, turn and size'), fewest: 2 },
  { id: 'affine', words: t('Up to proportion and shear'), fewest: 3 },
  { id: 'homography', words: t('Up to perspective'), fewest: 4 },
  { id: 'homography-with-lens', words: t('Up to the lens'), fewest: 7 },
  { id: 'smooth', words: t('Up to a smooth bending'), fewest: 10 },
];

/** The fewest pairs for a model or for the automatic choice. */
export const fewestFor = (model: string): number => models.find((m) => m.id === model)?.fewest ?? 2;

const wordsOf = (model: MapModel): string => models.find((m) => m.id === model)!.words;

/** How far apart, mm: to a hundredth, finer where the photograph's pixels are. */
export const offText = (mm: number, mmPerPixel: number): string => fixed(mm, mmPerPixel < 0.1 ? 3 : 2);

/** How many pairs are still needed. */
export const neededText = (missing: number, forModel: boolean): string => forModel
  ? counted(missing, 'One pair more is needed for this model.', '{0} pairs more are needed for this model.') : counted(missing, 'One pair more is needed.', '{0} pairs more are needed.');

/** What a fit says as a whole. */
export function summaryText(fit: PairsFit, numbers: readonly number[]): string[] {
  const { residual, leftOut } = fit;
  const off = (mm: number): string => `${offText(mm, fit.mmPerPixel)} mm`;
  const said = [t('{0}, through {1} pairs: half lie within {2}, 95 % within {3}, the farthest is {4} off.', wordsOf(fit.model), numbers.length, off(residual.median), off(residual.p95), off(residual.max))];
  said.push(leftOut
    ? t('Each left out in turn: half within {0}, 95 % within {1}, the farthest {2}.', off(leftOut.median), off(leftOut.p95), off(leftOut.max))
    : t('So many pairs just fix this model: nothing checks them. One more pair would.'));
  said.push(t('One pixel of the photograph is {0} mm.', fixed(fit.mmPerPixel, 4)));
  return said;
}

/** The pair to doubt, by its index, and what there is to say of it: the one without which the others agree best. Null where too few say anything. */
export function worstOf(fit: PairsFit, used: readonly boolean[]): { index: number; says: string } | null {
  const doubted = fit.pairs.map((p, index) => ({ ...p, index })).filter((p) => used[p.index]);
  if (doubted.length < 3) return null;
  const worst = doubted.every((p) => p.othersRmsMm !== null) ? doubted.reduce((a, b) => (b.othersRmsMm! < a.othersRmsMm! ? b : a)) : doubted.reduce((a, b) => (b.mm > a.mm ? b : a));
  if (worst.mm < 1e-6) return null;
  const rms = Math.hypot(...doubted.map((p) => p.mm)) / Math.sqrt(doubted.length);
  const telling = worst.othersRmsMm !== null && worst.othersRmsMm < rms / 2 && worst.leftOutMm! > 2 * fit.mmPerPixel;
  return { index: worst.index, says: telling ? t('Agrees least: without it the others agree to {0} mm. Look at it again, or do not use it.', offText(worst.othersRmsMm!, fit.mmPerPixel)) : t('Agrees least.') };
}

/** Which version is in force, and that none is lost. */
export const versionText = (now: Alignment | undefined): string =>
  !now ? t('This photograph has not been aligned yet.')
    : t('Version {0}{1}.', now.version, now.version > 1 ? t('; earlier versions are kept') : '');
