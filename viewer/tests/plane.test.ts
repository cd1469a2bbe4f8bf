import { describe, expect, it } from 'vitest';
import { flipCoordinates, fromEdges, fromMap, toMap, toMapExtent } from '../src/plane';

describe('the plane', () => {
  it('turns y over for OpenLayers and back without loss', () => {
    expect(toMap([12.5, 40])).toEqual([12.5, -40]);
    expect(fromMap(toMap([12.5, 40.25]))).toEqual([12.5, 40.25]);
    expect(Object.is(toMap([0, 0])[1], 0)).toBe(true);
  });
  it('keeps a box with its upper edge up', () => expect(toMapExtent([1, 2, 30, 40])).toEqual([1, -40, 30, -2]));
  it('counts from the left and from the bottom edge', () => {
    expect(fromEdges([123.4, 430], 518)).toEqual({ fromLeft: 123.4, fromBottom: 88 });
    expect(fromEdges([0, 518], 518).fromBottom).toBe(0);
  });
  it('turns nested coordinates, twice is as before', () => {
    const rings = [[[0, 1], [2, 3], [4, 5]], [[6, 7]]];
    expect(flipCoordinates(rings)[0]![1]).toEqual([2, -3]);
    expect(flipCoordinates(flipCoordinates(rings))).toEqual(rings);
  });
});
