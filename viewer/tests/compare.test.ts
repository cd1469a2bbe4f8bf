import { describe, expect, it } from 'vitest';
import { clampEdge, clampLoupe, layOut } from '../src/compare';

const how = { edge: 0.25, fade: 0.3, loupe: 100 };

describe('laying out A and B', () => {
  it('beside: two panes of nearly one size that do not overlap', () => {
    const { a, b } = layOut({ ...how, mode: 'beside' }, 1001, 600, [0, 0]);
    expect(a.width + 2).toBe(b!.left);
    expect(b!.left + b!.width).toBe(1001);
    expect(Math.abs(a.width - b!.width)).toBeLessThanOrEqual(1);
  });
  it('divide: B starts at the edge', () => expect(layOut({ ...how, mode: 'divide' }, 1000, 600, [0, 0]).clip).toBe('inset(0px 0px 0px 250px)'));
  it('fade: B as strong as asked, whole', () => expect(layOut({ ...how, mode: 'fade' }, 1000, 600, [0, 0])).toMatchObject({ opacity: 0.3, clip: 'none' }));
  it('loupe: B around the pointer', () => expect(layOut({ ...how, mode: 'loupe' }, 1000, 600, [40, 50]).clip).toBe('circle(100px at 40px 50px)'));
  it('alone: no B', () => expect(layOut({ ...how, mode: 'alone' }, 1000, 600, [0, 0]).b).toBeNull());
  it('keeps edge and loupe within reach', () => {
    expect([clampEdge(-1), clampEdge(2)]).toEqual([0.02, 0.98]);
    expect([clampLoupe(1), clampLoupe(9999)]).toEqual([30, 600]);
  });
});
