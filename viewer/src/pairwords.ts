// What the page of pairs says, in words.
import type { Alignment, MapModel, PairsFit } from './api';
import { fixed } from './units';

/** The models: what may differ between two photographs, and the fewest pairs for each. */
export const models: readonly { id: MapModel; words: string; fewest: number }[] = [
  { id: 'similarity', words: 'Place, turn and size', fewest: 2 },
  { id: 'affine', words: 'Also proportion and shear', fewest: 3 },
  { id: 'homography', words: 'Also perspective', fewest: 4 },
  { id: 'homography-with-lens', words: 'Also the lens', fewest: 7 },
  { id: 'smooth', words: 'Also a smooth bending', fewest: 10 },
];

/** The fewest pairs for a model or for the automatic choice. */
export const fewestFor = (model: string): number => models.find((m) => m.id === model)?.fewest ?? 2;

const wordsOf = (model: MapModel): string => models.find((m) => m.id === model)!.words;

/** How far apart, mm: to a hundredth, finer below a twentieth. */
export const offText = (mm: number): string => fixed(mm, mm < 0.05 ? 3 : 2);

/** What a fit says as a whole. */
export function summaryText(fit: PairsFit, numbers: readonly number[]): string[] {
  const { residual, leftOut } = fit;
  const said = [`${wordsOf(fit.model)}, through ${numbers.length} pairs: half lie within ${offText(residual.median)} mm, 95 % within ${offText(residual.p95)} mm, the farthest is ${offText(residual.max)} mm off.`];
  said.push(leftOut
    ? `Each left out in turn: half within ${offText(leftOut.median)} mm, 95 % within ${offText(leftOut.p95)} mm, the farthest ${offText(leftOut.max)} mm.`
    : 'So many pairs just fix this model: nothing checks them. One more pair would.');
  said.push(`One pixel of the photograph is ${fixed(fit.mmPerPixel, 4)} mm.`);
  return said;
}

/** Index of the pair that is farthest off: by the fit without it where there is one. Null while all lie within a pixel, or too few say anything. */
export function worstOf(fit: PairsFit, used: readonly boolean[]): number | null {
  const off = fit.pairs.map((p, i) => (used[i] ? p.leftOutMm ?? p.mm : -1));
  const worst = off.indexOf(Math.max(...off));
  return worst >= 0 && off[worst]! > fit.mmPerPixel && off.filter((o) => o >= 0).length > 2 ? worst : null;
}

/** Which version is in force, and that none is lost. */
export const versionText = (now: Alignment | undefined): string =>
  !now ? 'This photograph has not been aligned yet.'
    : `Version ${now.version}${now.version > 1 ? '; earlier versions are kept' : ''}.`;
