import { describe, expect, it } from 'vitest';
import { formLink, lineOf, readLineAsked, scaleOf, withLine, withScale } from '../src/lineasked';

const layer = { width: 1400, height: 160 };
const query = new URLSearchParams('line=p1&reading=ring-widths&input-wood=p1&parameter-band=4');

describe('a line for a reading', () => {
  it('is asked for with its photograph and its reading', () => {
    expect(readLineAsked(query)).toMatchObject({ photograph: 'p1', reading: 'ring-widths' });
    expect(readLineAsked(new URLSearchParams('line=p1'))).toBeNull();
  });

  it('begins along the middle of the longer side, as the reading has it', () => {
    expect(lineOf(query, layer)).toEqual([[140, 80], [1260, 80]]);
    expect(lineOf(query, { width: 160, height: 1400 })).toEqual([[80, 140], [80, 1260]]);
  });

  it('goes into the fields of the form with all else that was entered, and comes back', () => {
    const drawn = withLine(query, [[10.123, 20], [1380, -3]], layer);
    expect(formLink(drawn)).toBe('readings?reading=ring-widths&input-wood=p1&parameter-band=4&parameter-from-x=10.12&parameter-from-y=20&parameter-to-x=1380&parameter-to-y=0');
    expect(lineOf(drawn, layer)).toEqual([[10.12, 20], [1380, 0]]);
  });

  it('along a ruler tells how large a pixel is', () => {
    expect(scaleOf(query)).toBeNull();
    expect(scaleOf(withScale(query, [[0, 0], [300, 400]], 25))).toBe(0.05);
  });

  it('that does not lie on the photograph is none', () => {
    expect(lineOf(withLine(query, [[10, 20], [1400, 160]], layer), { width: 1000, height: 160 })[1]).toEqual([900, 80]);
    expect(lineOf(new URLSearchParams('parameter-from-x=-1&parameter-from-y=-1&parameter-to-x=-1&parameter-to-y=-1'), layer)[0]).toEqual([140, 80]);
  });
});
