import { describe, expect, it } from 'vitest';
import { classesOf, hasInk, inked } from '../src/classhatch';

const share = (value: number): number => Array.from({ length: 64 * 64 }, (_, i) => Number(hasInk(value, i % 64, i >> 6))).reduce((a, b) => a + b) / 4096;

describe('maps of classes', () => {
  it('have patterns that grow denser with the class, so that grey print tells them apart', () => {
    const shares = [0, 1, 2, 3].map(share);
    expect(shares[0]).toBe(0);
    for (const k of [1, 2, 3]) expect(shares[k]! - shares[k - 1]!).toBeGreaterThan(0.05);
  });
  it('go on from tile to tile', () => {
    for (const value of [1, 2, 3]) for (let y = 0; y < 8; y++) expect(hasInk(value, 3, y)).toBe(hasInk(value, 3 + 512, y + 512));
  });
  it('take the nearest class where a smaller copy holds means', () => expect(hasInk(1.6, 0, 0)).toBe(hasInk(2, 0, 0)));
  it('leave coverage as it is, and stay inside the window', () => {
    const tile = inked(Float32Array.from([3, 1, 0, 1, 2, 0, 0, 1]), 2, { low: 0, high: 3 });
    expect([...tile]).toEqual([0, 1, 3, 1, 0, 0, 3, 1]);
    expect([...inked(Float32Array.from([0, 1]), 1, { low: 0, high: 0 })]).toEqual([1, 1]);
  });
  it('are shown so only when their classes have names, and not too many', () => {
    expect(classesOf({ classes: ['watery', 'thin'] })).toEqual(['watery', 'thin']);
    expect(classesOf({ classes: null })).toBeNull();
    expect(classesOf({ classes: ['a', 'b', 'c', 'd', 'e'] })).toBeNull();
  });
});
