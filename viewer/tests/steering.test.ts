import { describe, expect, test } from 'vitest';
import { boundaryName, distanceTo, heightAt, nearest, readClicks, withClick, withPin, writeClicks } from '../src/steering';
import type { Place } from '../src/plane';

const lower: Place[] = [[0, 100], [200, 100]];
const upper: Place[] = [[0, 40], [100, 60], [200, 40]];

describe('which boundary a click means', () => {
  test('the nearest, by its shortest distance', () => {
    // Distance of (0, 0) from the line through (0, 5) and (5, 0), by hand: 5 / sqrt 2.
    expect(distanceTo([[0, 5], [5, 0]], [0, 0])).toBeCloseTo(5 / Math.SQRT2, 12);
    expect(nearest([lower, upper], [100, 70])).toEqual({ index: 1, away: 10 });
    expect(nearest([], [1, 1])).toBeNull();
  });

  test('clicks on one boundary have one name, those elsewhere each their own', () => {
    const one = withClick([], [lower, upper], [100, 63], 12);
    const two = withClick(one, [lower, upper], [20, 47], 12);
    const three = withClick(two, [lower, upper], [50, 98], 12);
    const four = withClick(three, [lower, upper], [50, 80], 12);
    expect(four.map((c) => c.boundary)).toEqual(['b1', 'b1', 'b2', 'b3']);
  });

  test('a pin is of the boundary that was chosen, however far off', () => {
    const first = withPin([], [lower, upper], 1, [100, 58]);
    expect(withPin(first, [lower, upper], 1, [10, 90])[1]).toEqual({ at: [10, 90], boundary: 'b1' });
    expect(withPin(first, [lower, upper], 0, [10, 58])[1]!.boundary).toBe('b2');
  });
});

test('clicks go through the document of the run and back', () => {
  const clicks = [{ at: [1.5, 2.25] as Place, boundary: 'b1' }, { at: [3, 4] as Place, boundary: 'b1' }];
  expect(readClicks(JSON.stringify(writeClicks(clicks)))).toEqual(clicks);
  expect(writeClicks([])).toBe('');
  expect(readClicks('')).toEqual([]);
  expect(readClicks('{"features":[{"properties":null,"geometry":{"coordinates":[1,2]}}]}')).toEqual([{ at: [1, 2], boundary: 'click 1' }]);
});

test('the height of a boundary at a place, whichever way it is drawn', () => {
  expect(heightAt(upper, 50)).toBe(50);
  expect(heightAt([...upper].reverse(), 150)).toBe(50);
  expect([heightAt(upper, -5), heightAt(upper, 500)]).toEqual([40, 40]);
});

test('boundaries are called from the bottom up', () => expect([0, 1, 2].map(boundaryName)).toEqual(['lower edge of the section', 'top of layer 1', 'top of layer 2']));
