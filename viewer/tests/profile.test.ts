import { describe, expect, it } from 'vitest';
import type { Figure } from '../src/api';
import { csvOf, levelled, pieces, placeAlong, rangeOfValues, readProfile, summary, ticks, writeProfile } from '../src/profileline';
import { pullSentences } from '../src/pullwords';

const figure = (name: string, value: number | null, uncertainty: number | null = null, note: string | null = null): Figure => ({ name, title: name, unit: '', value, uncertainty, note, subject: 'pull' });

describe('a profile', () => {
  it('has round numbers on its axes', () => {
    expect(ticks(-33, 210, 5)).toEqual([0, 50, 100, 150, 200]);
    expect(ticks(0, 72.1, 8)).toEqual([0, 10, 20, 30, 40, 50, 60, 70]);
    expect(ticks(-0.07, 0.31, 5)).toEqual([0, 0.1, 0.2, 0.3]);
    expect(ticks(5, 5, 5)).toEqual([5]);
  });
  it('goes from peak to valley over what has data', () => {
    expect(rangeOfValues([null, 3, -2, null, 8])).toEqual({ low: -2, high: 8, lowAt: 2, highAt: 4 });
    expect(rangeOfValues([null, null])).toBeNull();
    expect(summary({ lengthMm: 40, breadthMm: 0.5, values: [null, 3, -2, 60] })).toBe('Peak to valley 62.0 µm over 40.0 mm, 25 % of it without data.');
    expect(summary({ lengthMm: 40, breadthMm: 0.5, values: [null] })).toBe('No data along these 40.0 mm.');
  });
  it('loses a tilt by least squares, gaps or not', () => {
    // numpy.polyfit(x, y, 1) for x = 0, 1, 3, 4 and y = 1, 2, 5, 4: 0.9 x + 1.2.
    expect(levelled([1, 2, null, 5, 4]).map((v) => v && Number(v.toFixed(9)))).toEqual([-0.2, -0.1, null, 1.1, -0.8]);
    expect(levelled([7])).toEqual([0]);
  });
  it('is drawn in pieces between gaps; no peak is lost where there are more values than pixels', () => {
    expect(pieces([1, 2, null, 4], 100)).toEqual([[[0, 1], [1, 2]], [[3, 4]]]);
    const many = Array.from({ length: 10_000 }, (_, i) => (i === 4321 ? 99 : Math.sin(i)));
    const drawn = pieces(many, 500)[0]!;
    expect(drawn.length).toBeLessThanOrEqual(1000);
    expect(drawn).toContainEqual([4321, 99]);
  });
  it('has its places on a bent line', () => {
    const line = [[0, 0], [3, 0], [3, 4]] as const;
    expect([0, 2, 5, 7, 9].map((s) => placeAlong(line, s))).toEqual([[0, 0], [2, 0], [3, 2], [3, 4], [3, 4]]);
  });
  it('is saved as a table', () => {
    expect(csvOf({ stepMm: 0.5, lengthMm: 1, breadthMm: 0, values: [1.25, null, -3], peakToValley: 4.25, unit: 'um' }, [[10, 20], [11, 20]])).toBe(
      's_mm,x_mm,y_mm,height_um\r\n0.0000,10.0000,20.0000,1.2500\r\n0.5000,10.5000,20.0000,\r\n1.0000,11.0000,20.0000,-3.0000\r\n');
  });
  it('goes into the link and comes back; nonsense is none', () => {
    const there = { line: [[10.5, 20], [30, 40.125], [5, 6]] as const, breadth: 0.5 };
    expect(readProfile(writeProfile(there))).toEqual(there);
    for (const text of ['', '1_2_3', '1_2_3_4', '99_1_2_3_4', '-1_1_2_3_4', '1_2_3_2_3', '1_a_2_3_4', '1_1_2_3_4_5']) expect(readProfile(text)).toBeNull();
  });
});

describe('a pull of the brush', () => {
  it('is told in sentences', () => {
    expect(pullSentences({ figures: [
      figure('length', 42), figure('lightness-trend', 1.24, 0.4, 'lightens'), figure('relief-trend', -3.46, 1.1, 'falls'), figure('stops', 6, null, 'at 2.1, 8.2 mm'),
      figure('period', 6.12, 0.4, 'distances spread by 8 %; stops strewn at random are as even in 0.1 % of cases'), figure('evenness', 0.08),
    ] })).toEqual([
      'Lightness: +1.2 ± 0.4 L* per cm, lightens.', 'Height: −3.5 ± 1.1 µm per cm, falls: consistent with paint that gives out, and with a surface that slopes.', 'Stops of the hand: 6, at 2.1, 8.2 mm.',
      'A stop every 6.1 ± 0.4 mm; distances spread by 8 %; stops strewn at random are as even in 0.1 % of cases.']);
  });
  it('says what has no answer', () => {
    expect(pullSentences({ figures: [figure('relief-trend', null, null, 'too little of the line has data: no answer'), figure('stops', 0, null, 'none stands out'), figure('period', null, null, 'fewer than five stops: no answer')] })).toEqual([
      'Height: too little of the line has data: no answer.', 'Stops of the hand: 0, none stands out.', 'Rhythm: fewer than five stops: no answer.']);
    expect(pullSentences({ figures: [figure('period', null, null, 'no rhythm: distances spread by 60 %')] })).toEqual(['Rhythm: none; distances spread by 60 %.']);
  });
});
