import { describe, expect, it } from 'vitest';
import { channelChoices, rangeOf } from '../src/contrast';
import { count } from '../src/histogram';
import { boxOf, decode, gridOf, mirrorRows, styleVariables, tilesAt } from '../src/layers';
import { plainLook } from '../src/state';
import { layer, painting } from './samples';

describe('the tile grid', () => {
  it('counts tiles, halving and rounding up', () => {
    expect(tilesAt(layer(), 0)).toEqual({ columns: 9, rows: 11 });
    expect(tilesAt(layer(), 3)).toEqual({ columns: 2, rows: 2 });
    expect(tilesAt({ width: 513, height: 512, tileSize: 512 }, 1)).toEqual({ columns: 1, rows: 1 });
  });
  it('puts each tile where its pixels lie on the plane', () => {
    const grid = gridOf(layer(), null);
    // Level 0 is zoom 4; tile (1, 2) covers 51.2 to 102.4 mm from the left and 102.4 to 153.6 from the top.
    const extent = grid.getTileCoordExtent([4, 1, 2]);
    [51.2, -153.6, 102.4, -102.4].forEach((v, i) => expect(extent[i]).toBeCloseTo(v, 9));
    expect(grid.getResolution(0)).toBeCloseTo(1.6, 12);
  });
  it('mirrored, hangs from the right edge so that the last column lies left', () => {
    const grid = gridOf(layer(), 206);
    // The mirrored first column must end exactly at the painting's right edge.
    expect(grid.getTileCoordExtent([4, 8, 0])[2]).toBeCloseTo(412, 9);
    expect(boxOf({ extentMm: [10, 0, 110, 50] }, 206)).toEqual([302, 0, 402, 50]);
  });
});

describe('tiles', () => {
  it('16-bit values arrive unchanged', () => {
    const values = Uint16Array.from({ length: 4 * 4 * 3 }, (_, i) => i * 1337);
    expect([...decode(values.buffer, { format: 'u16', bands: ['R', 'G', 'B'], tileSize: 4 })]).toEqual([...values]);
  });
  it('NaN becomes a hole, not a value', () => {
    const values = Float32Array.from([1.5, NaN, -2, Infinity]);
    expect([...decode(values.buffer, { format: 'f32', bands: ['height'], tileSize: 2 })]).toEqual([1.5, 1, 0, 0, -2, 1, 0, 0]);
  });
  it('a short tile is refused', () =>
    expect(() => decode(new ArrayBuffer(8), { format: 'u16', bands: ['R'], tileSize: 512 })).toThrow(RangeError));
  it('mirrors rows band by band; twice is as before', () => {
    const data = Float32Array.from([1, 2, 3, 4, 5, 6, 7, 8]);
    expect([...mirrorRows(data.slice(), 2)]).toEqual([3, 4, 1, 2, 7, 8, 5, 6]);
    expect([...mirrorRows(mirrorRows(data.slice(), 2), 2)]).toEqual([...data]);
  });
});

describe('contrast', () => {
  it('windows are in the unit of the layer; 8-bit textures are scaled to one', () => {
    expect(styleVariables(layer(), { ...plainLook(layer()), low: 1000, high: 5000 })).toMatchObject({ low: 1000, span: 4000 });
    const eight = layer({ format: 'u8', high: 255, fullScale: 255 });
    expect(styleVariables(eight, { ...plainLook(eight), low: 51 }).low).toBeCloseTo(0.2, 12);
  });
  it('a window of no width does not divide by zero', () => expect(styleVariables(layer(), { ...plainLook(layer()), low: 5, high: 5 }).span).toBeGreaterThan(0));
  it('false colour: visible gives green and blue, infrared red', () => {
    const look = { ...plainLook(layer()), show: 'ir:p-2' };
    expect(styleVariables(layer(), look)).toMatchObject({ red: 0, others: 1, shift: 1 });
    expect(styleVariables(layer({ id: 'p-2', bands: ['grey'] }), look, true)).toMatchObject({ red: 1, others: 0, shift: 0, single: 1 });
  });
  it('offers false colour only beside an aligned infrared photograph', () => {
    const infrared = layer({ id: 'p-2', light: 'IR', label: 'IR_01', bands: ['grey'] });
    expect(channelChoices(layer(), painting([layer(), infrared])).map(([v]) => v)).toContain('ir:p-2');
    expect(channelChoices(layer(), painting([layer(), { ...infrared, onPlane: false }])).map(([v]) => v)).toEqual(['colour', 'grey', 'band:0', 'band:1', 'band:2']);
    expect(channelChoices(infrared, painting([layer(), infrared]))).toHaveLength(1);
  });
  it('counts values into bins, holes left out', () => {
    expect(count([0, 10, 19.9, 20, -1], (i) => i !== 1, [0, 20], 2).bins).toEqual([1, 1]);
    expect(rangeOf(layer({ format: 'f32', low: 0, high: 100 }))).toEqual([-50, 150]);
  });
});
