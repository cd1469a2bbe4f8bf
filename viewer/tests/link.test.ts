import { describe, expect, it } from 'vitest';
import { readLink, writeLink } from '../src/link';
import { initialState, plainLook, type State } from '../src/state';
import { layer, painting } from './samples';

const uv = layer({ id: 'p-2', light: 'UVL' });
const infrared = layer({ id: 'p-3', light: 'IR', bands: ['grey'] });
const whole = painting([layer(), uv, infrared]);

const state: State = {
  ...initialState, mode: 'divide', edge: 0.317, view: { x: 123.456, y: 88.001, mmPerPixel: 0.0731234, turn: -12.5 }, zone: 'z-9', ground: 20, teach: 2, stretch: true, treat: { step: 's-4', day: '2026-03-05' },
  a: { ...plainLook(layer()), low: 1234, high: 40000, gamma: 1.25, show: 'ir:p-3', irLow: 7, irHigh: 30000, mirror: true },
  b: { ...plainLook(uv), show: 'band:2', invert: true },
};

describe('the link', () => {
  it('restores everything it wrote', () => {
    const query = writeLink(state, whole, new URLSearchParams());
    expect({ ...initialState, ...readLink(new URLSearchParams(query.toString()), whole) }).toEqual(state);
  });
  it('is the same after a second round', () => {
    const once = writeLink(state, whole, new URLSearchParams()).toString();
    const again = writeLink({ ...initialState, ...readLink(new URLSearchParams(once), whole) }, whole, new URLSearchParams()).toString();
    expect(again).toBe(once);
  });
  it('leaves out what is plain, and leaves others alone', () => {
    const query = writeLink({ ...initialState, a: plainLook(layer()) }, whole, new URLSearchParams('other=1&zone=old'));
    expect(query.toString()).toBe('other=1&a=p-1');
  });
  it('passes over nonsense and layers that are gone', () => {
    const read = readLink(new URLSearchParams('a=p-99&b=p-2~wx_y~g-1&mode=sideways&edge=7&mm=-1&at=,&turn=x&fade=NaN'), whole);
    expect(read).toEqual({ b: plainLook(uv), edge: 0.98 });
  });
});
