import { describe, expect, it } from 'vitest';
import { flight } from '../src/flight';
import { initialState, plainLook, type State } from '../src/state';
import { added, changed, moved, nameOf, putBefore, seenNow, shown, type WalkStep } from '../src/walklist';
import { picturesText, resolutionFor, widthSeen } from '../src/walkstep';
import { tileAddress } from '../src/walktiles';
import { layer, painting } from './samples';

const step = (id: string, patch: Partial<WalkStep> = {}): WalkStep =>
  ({ id, title: id, caption: '', x: 100, y: 80, widthMm: 60, layerA: 'p-1', layerB: null, compare: 'alone', amount: 0.5, lampAzimuth: null, lampElevation: null, zones: [], ...patch });
const ids = (steps: readonly WalkStep[]): string => steps.map((s) => s.id).join('');
const list = ['a', 'b', 'c', 'd'].map((id) => step(id));

describe('the order of views', () => {
  it.each([['b', -1, 'bacd'], ['b', 1, 'acbd'], ['a', -1, 'abcd'], ['d', 9, 'abcd'], ['a', 9, 'bcda'], ['x', 1, 'abcd']] as const)('%s moved by %i', (id, by, order) => expect(ids(moved(list, id, by))).toBe(order));
  it.each([['a', 'd', 'bcad'], ['d', 'a', 'dabc'], ['a', null, 'bcda'], ['b', 'b', 'abcd'], ['a', 'x', 'abcd']] as const)('%s put before %s', (id, before, order) => expect(ids(putBefore(list, id, before))).toBe(order));
  it('a new one comes behind the one that is open, or last', () => {
    expect(ids(added(list, step('n'), 'b'))).toBe('abncd');
    expect(ids(added(list, step('n'), null))).toBe('abcdn');
  });
  it('one is changed and the others are the same', () => expect(changed(list, 'b', { title: 'new' }).map((s) => s.title)).toEqual(['a', 'new', 'c', 'd']));
  it('is called by its title, else by how its caption begins', () => {
    expect([nameOf({ title: 'T', caption: 'C' }), nameOf({ title: '', caption: 'First line\nsecond' }), nameOf({ title: '', caption: '' })]).toEqual(['T', 'First line', 'without words']);
  });
});

const run = '01a21561-7337-7790-a69f-a604430fca6f';
const [vis, uvl, normals] = [layer(), layer({ id: 'p-2', light: 'UVL' }), layer({ id: `r-${run}-normals`, kind: 'reading', bands: ['x', 'y'] })];
const all = painting([vis, uvl, normals]);
const pane = { width: 1000, height: 700 };
const state = (patch: Partial<State> = {}): State =>
  ({ ...initialState, a: plainLook(vis), b: plainLook(uvl), view: { x: 100, y: 80, mmPerPixel: 0.06, turn: 0 }, ...patch });

describe('a view and what is on the Easel', () => {
  it.each([['alone', null], ['beside', 'p-2'], ['divide', 'p-2'], ['fade', 'p-2'], ['loupe', 'p-2']] as const)('%s: goes there and back', (mode, layerB) => {
    const before = state({ mode, edge: 0.3, fade: 0.7 });
    const seen = seenNow(before, pane)!;
    expect(seen).toMatchObject({ compare: mode, layerA: 'p-1', layerB, x: 100, y: 80, widthMm: 60 });
    const { patch, missing } = shown({ ...step('a'), ...seen }, state({ mode: 'alone', a: plainLook(uvl), view: { x: 0, y: 0, mmPerPixel: 1, turn: 30 } }), all, pane);
    expect(missing).toEqual([]);
    expect(patch).toMatchObject({ mode, view: { x: 100, y: 80, turn: 0 }, relight: null });
    expect(patch.a!.layer).toBe('p-1');
    expect(patch.view!.mmPerPixel).toBeCloseTo(0.06, 9);
    if (mode === 'divide') expect(patch.edge).toBe(0.3);
    if (mode === 'fade') expect(patch.fade).toBe(0.7);
  });
  it('a lamp over the surface goes there and back, by itself and over a picture', () => {
    const lamp = { azimuth: 90, elevation: 12, times: 4, gloss: 0, run };
    const alone = seenNow(state({ relight: { ...lamp, show: 'shade' } }), pane)!;
    expect(alone).toMatchObject({ layerA: normals.id, lampAzimuth: 90, lampElevation: 12 });
    expect(shown({ ...step('a'), ...alone }, state(), all, pane).patch.relight).toMatchObject({ azimuth: 90, elevation: 12, show: 'shade', run });
    const over = seenNow(state({ relight: { ...lamp, show: 'over' } }), pane)!;
    expect(over.layerA).toBe('p-1');
    expect(shown({ ...step('a'), ...over }, state(), all, pane).patch.relight).toMatchObject({ show: 'over' });
  });
  it('what is gone is told, and what is there is left', () => {
    const { patch, missing } = shown(step('a', { layerA: 'p-gone', layerB: 'p-away', compare: 'divide' }), state(), all, pane);
    expect(missing).toEqual(['p-gone', 'p-away']);
    expect([patch.a!.layer, patch.b!.layer]).toEqual(['p-1', 'p-2']);
  });
  it('without a picture there is no view', () => expect(seenNow(state({ a: null }), pane)).toBeNull());
});

describe('the size of a view', () => {
  it('is seen whole in any window, and in one of its own shape by its width', () => {
    for (const size of [{ width: 1600, height: 1000 }, { width: 390, height: 480 }, { width: 1200, height: 300 }]) {
      const resolution = resolutionFor(60, size);
      expect(resolution * size.width).toBeGreaterThanOrEqual(60 - 1e-9);
      expect(resolution * size.height).toBeGreaterThanOrEqual(37.5 - 1e-9);
      expect(widthSeen(resolution, size)).toBeCloseTo(60, 9);
    }
    expect(resolutionFor(60, { width: 1600, height: 1000 })).toBeCloseTo(60 / 1600, 12);
  });
});

describe('a flight', () => {
  const [near, far] = [{ x: 10, y: 10, width: 20 }, { x: 300, y: 200, width: 40 }];
  it('begins and ends exactly, out between, and never stands still', () => {
    const way = flight(near, far);
    expect([way.at(0), way.at(1)]).toEqual([near, far]);
    const [almost0, middle, almost1] = [way.at(1e-6), way.at(0.5), way.at(1 - 1e-6)];
    expect(almost0.width).toBeCloseTo(20, 3);
    expect(almost1.x).toBeCloseTo(300, 2);
    expect(middle.width).toBeGreaterThan(100);
    const crossed = Array.from({ length: 20 }, (_, i) => way.at(i / 20).x);
    expect(crossed.every((x, i) => i === 0 || x > crossed[i - 1]!)).toBe(true);
  });
  // Van Wijk and Nuij's measure of a path: ds^2 = rho^2/w^2 du^2 + 1/(rho^2 w^2) dw^2; along the best path it is the same everywhere.
  it('is as fast everywhere as the paper measures it', () => {
    const way = flight(near, far);
    const pieces = Array.from({ length: 50 }, (_, i) => {
      const [p, q] = [way.at(i / 50 + 1e-9), way.at((i + 1) / 50 - 1e-9)];
      const [du, dw, w] = [Math.hypot(q.x - p.x, q.y - p.y), q.width - p.width, Math.sqrt(p.width * q.width)];
      return Math.hypot((Math.SQRT2 * du) / w, dw / (Math.SQRT2 * w));
    });
    for (const piece of pieces) expect(piece / pieces[0]!).toBeCloseTo(1, 1);
  });
  it('zooms without crossing, and goes nowhere at once', () => {
    const zoom = flight(near, { ...near, width: 80 });
    expect(zoom.at(0.5)).toEqual({ x: 10, y: 10, width: expect.closeTo(40, 9) as number });
    expect(flight(near, near).seconds).toBe(0);
  });
});

describe('tiles of an exported picture', () => {
  const canvas = { width: 1300, height: 900, tileSize: 512 };
  // IIIF Image API 3.0, implementation notes, section 3, by hand.
  it.each([
    [0, 0, 0, '0,0,512,512/512,512'], [0, 2, 1, '1024,512,276,388/276,388'], [1, 1, 0, '1024,0,276,900/138,450'], [2, 0, 0, 'full/325,225'],
  ] as const)('scale %i, column %i, row %i', (scale, column, row, address) => expect(tileAddress(canvas, scale, column, row)).toBe(`${address}/0/default.jpg`));
  it('round up at odd sizes', () => expect(tileAddress({ width: 1301, height: 901, tileSize: 512 }, 1, 1, 0)).toBe('1024,0,277,901/139,451/0/default.jpg'));
});

describe('words', () => {
  const pictures = [{ key: 'vis', label: 'VIS, visible' }, { key: 'uvl', label: 'UVL' }, { key: 'surface', label: 'Measured surface, lit at 90 degrees' }];
  it('say what is seen', () => {
    expect(picturesText({ a: 'vis', b: 'uvl', over: null, mode: 'divide' }, pictures)).toBe('VIS, visible (left of the edge), UVL (right of it)');
    expect(picturesText({ a: 'vis', b: 'uvl', over: null, mode: 'alone' }, pictures)).toBe('VIS, visible');
    expect(picturesText({ a: 'vis', b: null, over: 'surface', mode: 'alone' }, pictures)).toBe('VIS, visible; over it the measured surface, lit at 90 degrees');
  });
});
