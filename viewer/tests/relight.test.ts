import { describe, expect, it } from 'vitest';
import type { Layer, Run } from '../src/api';
import { planText } from '../src/relight';
import { initialRelight, joinTiles, lampAt, lampText, placeOf, readRelight, type Relight, relightColour, relightVariables, tidied, towards, writeRelight } from '../src/relightlamp';
import { heightText, surfacesOf, surfaceText } from '../src/relightruns';

const lamp = (changes: Partial<Relight>): Relight => ({ ...initialRelight, times: 1, ...changes });

/** What the graphics card makes of the shader's expression, in double precision. */
function evaluate(expression: unknown, bands: readonly number[], variables: Record<string, number>): number {
  if (!Array.isArray(expression)) return expression as number;
  const [name, ...rest] = expression as [string, ...unknown[]];
  if (name === 'band') return bands[(rest[0] as number) - 1]!;
  if (name === 'var') return variables[rest[0] as string]!;
  const [a, b, c] = rest.map((part) => evaluate(part, bands, variables)) as [number, number, number];
  const values: Record<string, () => number> = {
    '+': () => a + b, '-': () => a - b, '*': () => a * b, '/': () => a / b, '^': () => a ** b, '>=': () => (a >= b ? 1 : 0), sqrt: () => Math.sqrt(a), clamp: () => Math.min(c, Math.max(b, a)), case: () => (a ? b : c), color: () => a,
  };
  return values[name]!();
}

const shown = (normal: readonly [number, number], albedo: number, relight: Relight): number =>
  evaluate(relightColour, [normal[0], normal[1], Math.sqrt(1 - normal[0] ** 2 - normal[1] ** 2), albedo], relightVariables(relight, 0.8));

describe('the lamp', () => {
  it('stands clockwise from the top, y down', () => {
    expect(towards({ azimuth: 0, elevation: 30 }).map((v) => Number(v.toFixed(6)) + 0)).toEqual([0, -0.866025, 0.5]);
    expect(towards({ azimuth: 90, elevation: 0 }).map((v) => Number(v.toFixed(6)) + 0)).toEqual([1, 0, 0]);
  });
  it('is moved in the dial and shown where it was put, whichever way the view is turned', () => {
    for (const turn of [0, 37, -120]) {
      const at = lampAt(0.3, -0.4, turn);
      expect(at.elevation).toBeCloseTo(45);
      expect(placeOf(at, turn)).toEqual([expect.closeTo(0.3), expect.closeTo(-0.4)]);
    }
    expect(lampAt(3, 0, 0)).toEqual({ azimuth: 90, elevation: 2 });
    expect(lampAt(0, 0, 0).elevation).toBe(90);
  });
  it('is told in words', () => expect([0, 44, 315, 359].map((azimuth) => lampText({ azimuth, elevation: 20 })).concat(lampText({ azimuth: 0, elevation: 90 })))
    .toEqual(['from above', 'from the upper right', 'from the upper left', 'from above', 'from the front']));
  it('keeps to its ranges, and what is no number changes nothing', () => {
    expect(tidied(lamp({ azimuth: -10, elevation: 0, times: 50, gloss: 2 }))).toMatchObject({ azimuth: 350, elevation: 2, times: 20, gloss: 1 });
    expect(tidied(lamp({ azimuth: NaN, elevation: NaN }), lamp({ azimuth: 12, elevation: 34 }))).toMatchObject({ azimuth: 12, elevation: 34 });
  });
  it('goes into the link and comes back', () => {
    const there = lamp({ azimuth: 123.25, elevation: 15, times: 2.5, gloss: 0.4, show: 'over', run: '01a2-b' });
    expect(readRelight(writeRelight(there))).toEqual(there);
    expect(readRelight('x__99_') ).toEqual({ ...initialRelight, times: 20 });
    expect(readRelight('')).toEqual(initialRelight);
  });
});

describe('the shade', () => {
  it('shows a level place as middle grey under every lamp', () => {
    for (const elevation of [5, 20, 90]) expect(shown([0, 0], 0.3, lamp({ elevation }))).toBeCloseTo(127.5);
  });
  it('is Lambert’s: light as n.l, relative to the level place', () => {
    const [x, y, z] = [0.1, -0.2, Math.sqrt(0.95)];
    const [lx, ly, lz] = towards({ azimuth: 30, elevation: 40 });
    const light = (x * lx + y * ly + z * lz) / lz;
    expect((shown([x, y], 0.3, lamp({ azimuth: 30, elevation: 40 })) / 127.5) ** 2.2).toBeCloseTo(light);
    expect((shown([x, y], 0.3, lamp({ azimuth: 30, elevation: 40, show: 'albedo' })) / 255) ** 2.2).toBeCloseTo((light * 0.3) / 0.8);
  });
  it('exaggerates slopes: the normal (5 x, 5 y, z), made a unit vector again', () => {
    const [x, y] = [0.05, 0.02];
    const z = Math.sqrt(1 - x * x - y * y);
    const long = Math.hypot(5 * x, 5 * y, z);
    expect(shown([x, y], 0.3, lamp({ times: 5 }))).toBeCloseTo(shown([(5 * x) / long, (5 * y) / long], 0.3, lamp({})));
  });
  it('is black where the lamp does not reach, and shines where the surface mirrors the lamp', () => {
    expect(shown([0.9, 0], 0.3, lamp({ azimuth: 270, elevation: 10 }))).toBe(0);
    // Half-way between the lamp at 30 degrees and the viewer: 60 degrees.
    expect(shown([Math.cos(Math.PI / 3), 0], 0, lamp({ azimuth: 90, elevation: 30, gloss: 1, show: 'albedo' }))).toBeCloseTo(255);
    expect(shown([0, 0], 0, lamp({ azimuth: 90, elevation: 30, gloss: 1, show: 'albedo' }))).toBeLessThan(60);
  });
  it('hatches what is not known in two greys, never black', () => {
    const size = 8;
    const normals = new Float32Array(size * size * 3).fill(0).map((_, i) => (i % 3 === 2 ? 1 : 0));
    const albedo = new Float32Array(size * size * 2).fill(1);
    normals[2] = 0;
    albedo[2 * 7 + 1] = 0;
    const joined = joinTiles(normals, albedo, size);
    expect([...joined.slice(4, 8)]).toEqual([0, 0, 1, 1]);
    const greys = [0, 7].map((p) => evaluate(relightColour, [...joined.slice(4 * p, 4 * p + 4)], relightVariables(lamp({}), 1)) / 255);
    expect(greys).toEqual([expect.closeTo(0.58), expect.closeTo(0.42)]);
  });
});

describe('the surface', () => {
  const run = (changes: Partial<Run>): Run => ({
    id: '1', state: 'done', version: 1, queuedAt: '2026-11-26T07:31:00Z', endedAt: null, progress: 1, inputs: [{ fileName: 'a', slot: 'raking' }, { fileName: 'b', slot: 'raking-board' }], problem: null, noAnswer: null, reading: 'relief',
    parameters: { step: '0', form: 'quadratic' }, figures: [{ name: 'form-range', title: '', unit: 'um', value: 930.4, uncertainty: null, note: null, subject: null }],
    rasters: ['height', 'normals', 'albedo'].map((name) => ({ name, title: name, layerId: name })), warnings: [], ...changes,
  });
  const layers = ['height', 'normals', 'albedo'].map((id) => ({ id, onPlane: true }) as Layer);
  it('is a finished run whose layers are there', () => {
    expect(surfacesOf([run({}), run({ state: 'failed' })], { layers })).toHaveLength(1);
    expect(surfacesOf([run({})], { layers: layers.slice(1) })).toEqual([]);
  });
  it('says which run it is and what its height is measured from', () => {
    expect(surfaceText({ run: run({}) })).toMatch(/^Relief, version 1, of .*2026.*; from 1 photograph$/);
    expect(heightText({ run: run({}) })).toContain('Height is relative');
    expect(heightText({ run: run({}) })).toContain('a form of second degree, which spans 930 µm, is taken away');
    expect(heightText({ run: run({ parameters: { step: '50', form: 'mean' } }) })).toContain('calibrated by a known step of 50 µm');
  });
  it('tells what would be measured, or what is missing', () => {
    expect(planText({ raking: ['a', 'b', 'c'], 'raking-board': ['d', 'e', 'f'] })).toContain('from 3 photographs in raking light, each with its even board');
    expect(planText({ raking: ['a', 'b', 'c'] })).toContain('without even boards');
    expect(planText({ raking: ['a'] })).toContain('there is one');
    expect(planText({})).toContain('there is none');
  });
});
