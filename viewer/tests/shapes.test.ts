import { describe, expect, it } from 'vitest';
import type { Place } from '../src/plane';
import { angleOf, areaOf, lengthOf, selfCrossing, simplify, withoutLoops } from '../src/shapes';

const square: Place[] = [[0, 0], [10, 0], [10, 10], [0, 10], [0, 0]];

describe('measures', () => {
  it('a 3-4-5 triangle', () => {
    const triangle: Place[] = [[0, 0], [3, 0], [3, 4], [0, 0]];
    expect(lengthOf(triangle)).toBe(12);
    expect(areaOf(triangle)).toBe(6);
    // atan(4/3), Euclid's triangle.
    expect(angleOf([3, 0], [0, 0], [3, 4])).toBeCloseTo(53.13010235415598, 12);
  });
  it('area does not depend on the way round', () => expect(areaOf([...square].reverse())).toBe(areaOf(square)));
  it('straight and right angles', () => {
    expect(angleOf([-5, 0], [0, 0], [7, 0])).toBeCloseTo(180, 12);
    expect(angleOf([0, -1], [0, 0], [1, 0])).toBeCloseTo(90, 12);
    expect(angleOf([0, 0], [0, 0], [1, 0])).toBeNull();
  });
});

describe('outlines', () => {
  it('a simple ring does not cross itself, neighbours touching do not count', () => expect(selfCrossing(square)).toBeNull());
  it('a bow tie crosses in its middle', () => expect(selfCrossing([[0, 0], [10, 10], [10, 0], [0, 10], [0, 0]])!.at).toEqual([5, 5]));
  it('loses a small loop and keeps the large part', () => {
    const withLoop: Place[] = [[0, 0], [10, 0], [10, 10], [5, 10], [5, 11], [6, 11], [6, 9.5], [0, 9.5], [0, 0]];
    const clean = withoutLoops(withLoop);
    expect(selfCrossing(clean)).toBeNull();
    expect(areaOf(clean)).toBeGreaterThan(94);
    expect(clean[0]).toEqual(clean.at(-1));
  });
  it('simplifies without leaving the line by more than the tolerance', () => {
    const wave = Array.from({ length: 400 }, (_, i): Place => [i / 4, Math.sin(i / 15)]);
    const few = simplify(wave, 0.05);
    expect(few.length).toBeLessThan(60);
    expect(few[0]).toEqual(wave[0]);
    for (const [x, y] of wave) {
      const i = few.findIndex(([fx]) => fx >= x);
      const [a, b] = [few[Math.max(0, i - 1)]!, few[i]!];
      const at = b[0] === a[0] ? a[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
      expect(Math.abs(y - at)).toBeLessThan(0.06);
    }
  });
});
