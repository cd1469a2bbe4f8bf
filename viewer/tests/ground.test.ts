import { describe, expect, it } from 'vitest';
import { greyOfLightness, nextGround } from '../src/ground';

describe('the ground', () => {
  // scikit-image 0.19.3 (Debian), lab2rgb of (L, 0, 0), times 255, rounded: see References/SOURCE.md.
  it.each([[20, 48], [35, 82], [50, 119], [65, 158], [80, 198], [0, 0], [100, 255]])('L* %i is grey %i', (lightness, grey) =>
    expect(greyOfLightness(lightness)).toBe(grey));
  it('steps through and stops at the ends', () => {
    expect(nextGround(50, 1)).toBe(65);
    expect(nextGround(80, 1)).toBe(80);
    expect(nextGround(20, -1)).toBe(20);
  });
});
