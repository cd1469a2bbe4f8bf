import { describe, expect, test } from 'vitest';
import { active, boundaryName, heightAt, meantBy, nearest, nearestOn, placesIn, placesText, readSteps, type Step, stepWords, withStep, writeSteps } from '../src/steering';
import type { Place } from '../src/plane';

const lower: Place[] = [[0, 100], [200, 100]];
const upper: Place[] = [[0, 40], [100, 60], [200, 40]];
const both = [lower, upper];

describe('which boundary a step means', () => {
  test('the nearest, by its shortest distance', () => {
    // The foot of the perpendicular from (0, 0) on the line through (0, 5) and (5, 0), by hand.
    expect(nearestOn([[0, 5], [5, 0]], [0, 0])).toEqual([2.5, 2.5]);
    expect(nearest(both, [100, 70])).toEqual({ index: 1, away: 10 });
    expect(nearest([], [1, 1])).toBeNull();
  });

  test('a line means the boundary where it begins, else the one where it ends, else a new one', () => {
    expect(meantBy(both, [[50, 97], [100, 61]], 12)).toBe(0);
    expect(meantBy(both, [[50, 80], [100, 61]], 12)).toBe(1);
    expect(meantBy(both, [[50, 80], [60, 80]], 12)).toBeNull();
  });

  test('steps on one boundary have one name, those elsewhere each their own', () => {
    const one = withStep([], both, 1, 'click', [[100, 63]]);
    const two = withStep(one, both, 1, 'stretch', [[20, 44], [60, 70]]);
    const three = withStep(two, both, 0, 'click', [[50, 98]]);
    expect(withStep(three, both, null, 'click', [[50, 80]]).map((s) => s.boundary)).toEqual(['b1', 'b1', 'b2', 'b3']);
    expect(two[1]!.meant).toEqual(nearestOn(upper, [20, 44]));
  });

  test('what steered a boundary that was taken out holds no more, and its name is not used again', () => {
    const one = withStep([], both, 1, 'click', [[100, 58]]);
    const out = withStep(one, both, 1, 'removal', [[100, 63]]);
    expect(out[1]).toEqual({ kind: 'removal', boundary: 'b1', places: [nearestOn(upper, [100, 63])] });
    expect(active(out)).toEqual([]);
    expect(withStep(out, both, 1, 'click', [[100, 58]])[2]!.boundary).toBe('b2');
  });
});

test('steps go through the document of the run and back', () => {
  const steps: Step[] = [
    { kind: 'click', boundary: 'b1', places: [[1.5, 2.25]], meant: [1.5, 3] }, { kind: 'stretch', boundary: 'b1', places: [[3, 4], [9, 4.5]] }, { kind: 'removal', boundary: 'b1', places: [[5, 4]] }];
  expect(readSteps(JSON.stringify(writeSteps(steps)))).toEqual(steps);
  expect(writeSteps([])).toBe('');
  expect(readSteps('')).toEqual([]);
  expect(readSteps('{"features":[{"properties":null,"geometry":{"type":"Point","coordinates":[1,2]}}]}')).toEqual([{ kind: 'click', boundary: 'step 1', places: [[1, 2]] }]);
  expect(steps.map(stepWords)).toEqual(['click at 2, 2 px', 'drawn from 3, 4 to 9, 5 px', 'boundary taken out at 5, 4 px']);
});

test('places are typed one a line', () => {
  expect(placesIn('1 2\n\n 3.5, 4 ')).toEqual([[1, 2], [3.5, 4]]);
  expect(placesIn(placesText([[1.234, 5], [6, 7]]))).toEqual([[1.23, 5], [6, 7]]);
  expect(placesIn('1 2 3')).toBeNull();
  expect(placesIn('1 b')).toBeNull();
});

test('the height of a boundary at a place, whichever way it is drawn', () => {
  expect(heightAt(upper, 50)).toBe(50);
  expect(heightAt([...upper].reverse(), 150)).toBe(50);
  expect([heightAt(upper, -5), heightAt(upper, 500)]).toEqual([40, 40]);
});

test('boundaries are called from the bottom up', () => expect([0, 1, 2].map(boundaryName)).toEqual(['lower edge of the section', 'top of layer 1', 'top of layer 2']));
