// What the page of pairs says, in words.
import type { Alignment, MapModel, PairsFit } from './api';
import { fixed } from './units';

/** The models: what may differ between two photographs, and the fewest pairs for each. */
export const models: readonly { id: MapModel; words: string; fewest: number }[] = [
  { id: 'similarity', words: 'Place, turn and size', fewest: 2 },
  { id: 'affine', words: 'Up to proportion and shear', fewest: 3 },
  { id: 'homography', words: 'Up to perspective', fewest: 4 },
  { id: 'homography-with-lens', words: 'Up to the lens', fewest: 7 },
  { id: 'smooth', words: 'Up to a smooth bending', fewest: 10 },
];

/** The fewest pairs for a model or for the automatic choice. */
export const fewestFor = (model: string): number => models.find((m) => m.id === model)?.fewest ?? 2;

const wordsOf = (model: MapModel): string => models.find((m) => m.id === model)!.words;

/** How far apart, mm: to a hundredth, finer where the photograph's pixels are. */
export const offText = (mm: number, mmPerPixel: number): string => fixed(mm, mmPerPixel < 0.1 ? 3 : 2);

/** What a fit says as a whole. */
export function summaryText(fit: PairsFit, numbers: readonly number[]): string[] {
  const { residual, leftOut } = fit;
  const off = (mm: number): string => `${offText(mm, fit.mmPerPixel)} mm`;
  const said = [`${wordsOf(fit.model)}, through ${numbers.length} pairs: half lie within ${off(residual.median)}, 95 % within ${off(residual.p95)}, the farthest is ${off(residual.max)} off.`];
  said.push(leftOut
    ? `Each left out in turn: half within ${off(leftOut.median)}, 95 % within ${off(leftOut.p95)}, the farthest ${off(leftOut.max)}.`
    : 'So many pairs just fix this model: nothing checks them. One more pair would.');
  said.push(`One pixel of the photograph is ${fixed(fit.mmPerPixel, 4)} mm.`);
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
  return { index: worst.index, says: telling ? `Agrees least: without it the others agree to ${offText(worst.othersRmsMm!, fit.mmPerPixel)} mm. Look at it again, or do not use it.` : 'Agrees least.' };
}

/** Which version is in force, and that none is lost. */
export const versionText = (now: Alignment | undefined): string =>
  !now ? 'This photograph has not been aligned yet.'
    : `Version ${now.version}${now.version > 1 ? '; earlier versions are kept' : ''}.`;
