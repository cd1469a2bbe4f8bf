import { describe, expect, it } from 'vitest';
import type { PairsFit } from '../src/api';
import { fewestFor, offText, summaryText, versionText, worstOf } from '../src/pairwords';

const pair = (mm: number, leftOutMm: number | null = null, othersRmsMm: number | null = null): PairsFit['pairs'][number] =>
  ({ residual: [mm, 0], mm, px: mm * 10, leftOutMm, othersRmsMm });
const fit = (changes: Partial<PairsFit>): PairsFit =>
  ({ model: 'affine', mmPerPixel: 0.1, pairs: [], residual: { median: 0.08, p95: 0.2, max: 0.23 }, leftOut: null, ...changes });

describe('what is said of pairs', () => {
  it('distances, finer where pixels are', () => expect([offText(0.234, 0.4), offText(0.0123, 0.05)]).toEqual(['0.23', '0.012']));
  it('says when nothing checks a fit', () => expect(summaryText(fit({}), [1, 2, 3])[1]).toContain('nothing checks them'));
  it('gives the figures of pairs left out in turn', () =>
    expect(summaryText(fit({ leftOut: { median: 0.1, p95: 0.3, max: 0.4 } }), [1, 2, 3, 4])[1]).toContain('95 % within 0.30 mm'));
  const all = [true, true, true, true];
  it('doubts the pair without which the others agree, not the one that it throws off', () =>
    expect(worstOf(fit({ pairs: [pair(0.6, 44, 1.2), pair(2.8, 4.2, 0.1), pair(0.7, 20, 1.3), pair(0.7, 19, 1.3)] }), all)).toMatchObject({ index: 1, says: expect.stringContaining('0.10 mm') }));
  it('gives no advice while leaving a pair out changes little', () =>
    expect(worstOf(fit({ pairs: [pair(0.1, 0.3, 0.09), pair(0.1, 0.2, 0.08), pair(0.1, 0.3, 0.1), pair(0.1, 0.3, 0.1)] }), all)).toEqual({ index: 1, says: 'Agrees least.' }));
  it('passes over pairs that do not count, and goes by distance where nothing can be left out', () =>
    expect(worstOf(fit({ pairs: [pair(0.3), pair(9), pair(0.2), pair(0.1)] }), [true, false, true, true])?.index).toBe(0));
  it('finds none where the pairs just fix the map', () => expect(worstOf(fit({ pairs: [pair(0), pair(0), pair(1e-9)] }), [true, true, true])).toBeNull());
  it('says that versions are kept', () => {
    expect(versionText(undefined)).toContain('not been aligned');
    expect(versionText({ version: 3, verdict: 'aligned', reason: '', residuals: null, inForce: true })).toBe('Version 3; earlier versions are kept.');
  });
  it('the automatic choice begins with two pairs', () => expect([fewestFor('auto'), fewestFor('smooth')]).toEqual([2, 10]));
});
