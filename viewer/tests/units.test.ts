import { describe, expect, it } from 'vitest';
import { areaText, lengthText, placeText, roundLength, scaleText, valueText } from '../src/units';

describe('figures as people read them', () => {
  it('places', () => expect(placeText({ fromLeft: 123.4, fromBottom: 88 })).toBe('123.4 mm from left, 88.0 from bottom'));
  it('lengths', () => expect([lengthText(0.126), lengthText(12.34)]).toEqual(['0.13 mm', '12.3 mm']));
  it('areas in cm2', () => expect([areaText(2.5), areaText(1234), areaText(213416)]).toEqual(['0.025 cm²', '12.34 cm²', '2134.2 cm²']));
  it('values: integers whole, others four figures, holes in words', () =>
    expect([valueText(65535), valueText(0.123456), valueText(null), valueText(NaN)]).toEqual(['65535', '0.1235', 'no data', 'no data']));
});

describe('the scale bar', () => {
  it.each([[0.1, 160, 10], [0.8, 160, 100], [0.05, 160, 5], [0.001, 160, 0.1], [1, 200, 200]])('%f mm a pixel on %i pixels: %f mm', (scale, pixels, mm) =>
    expect(roundLength(scale, pixels)).toBeCloseTo(mm, 12));
  it('is never longer than its room and never shorter than two fifths of it', () => {
    for (let s = 0.0001; s < 100; s *= 1.07) {
      const mm = roundLength(s, 160);
      expect(mm / s).toBeLessThanOrEqual(160 * (1 + 1e-8));
      expect(mm / s).toBeGreaterThan(160 * 0.4 - 1e-6);
    }
  });
  it('says um, mm or cm', () => expect([scaleText(0.5), scaleText(20), scaleText(100)]).toEqual(['500 µm', '20 mm', '10 cm']));
});
