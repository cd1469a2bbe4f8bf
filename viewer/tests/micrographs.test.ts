import { expect, test } from 'vitest';
import { stretched } from '../src/micrographs';
import { layer } from './samples';

test('micrographs of one section lie over each other whatever their cameras: all as wide as the first', () => {
  const [first, second] = stretched([layer({ width: 2000, height: 1500 }), layer({ width: 1000, height: 750 })]);
  expect(first!.extentMm).toEqual([0, 0, 2000, 1500]);
  expect(second!.extentMm).toEqual([0, 0, 2000, 1500]);
  expect([first!.mmPerPixel, second!.mmPerPixel]).toEqual([1, 2]);
});

test('no micrograph is none', () => expect(stretched([])).toEqual([]));
