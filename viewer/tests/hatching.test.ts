import { describe, expect, it } from 'vitest';
import { appearances, strokeAt } from '../src/hatching';
import { probabilityAt } from '../src/probability';

/** Share of a field of 240 x 240 screen pixels that is not picture any more. */
function covered(hatch: number, probability: number): number {
  let count = 0;
  for (let y = 0; y < 240; y++) for (let x = 0; x < 240; x++) if (strokeAt(hatch, probability, x + 0.5, y + 0.5) !== null) count++;
  return count / 240 ** 2;
}

describe('hatches', () => {
  it.each([0, 1, 2, 3, 4, 5, 6, 7])('hatch %i grows with probability and never hides the picture', (hatch) => {
    const shares = [0.3, 0.6, 0.8, 1].map((p) => covered(hatch, p));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares[0]).toBeGreaterThan(0);
    expect(shares[3]! - shares[1]!).toBeGreaterThan(0.04);
    expect(shares[3]).toBeLessThan(0.7);
  });
  it('nothing is drawn where a class is improbable, or nothing is known', () => expect([covered(0, 0.2), covered(0, NaN)]).toEqual([0, 0]));
  it('classes look different from each other, and known ones like their zones', () => {
    const eight = appearances(['original', 'Varnish gap', 'c', 'd', 'retouching', 'f', 'abrasion', 'h']);
    expect(new Set(eight.map((a) => a.hatch)).size).toBe(8);
    expect(new Set(eight.map((a) => a.colour)).size).toBe(8);
    expect([eight[1]!.hatch, eight[4]!.hatch, eight[6]!.hatch]).toEqual([1, 0, 2]);
  });
});

describe('a probability at a place', () => {
  const raster = { view: [10, 20, 14, 22] as const, mmPerPixel: 2, width: 2, height: 1, values: Float32Array.of(0, 1) };
  it('is a pixel’s own in its middle, and between two of them linear', () => expect([11, 12, 12.5, 13].map((x) => probabilityAt(raster, x, 21))).toEqual([0, 0.5, 0.75, 1]));
  it('is none beside the raster, nor where a neighbour has no data', () => {
    expect(probabilityAt(raster, 9.9, 21)).toBeNaN();
    expect(probabilityAt({ ...raster, values: Float32Array.of(NaN, 1) }, 12, 21)).toBeNaN();
  });
});
