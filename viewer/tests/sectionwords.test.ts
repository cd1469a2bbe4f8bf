import { expect, test } from 'vitest';
import type { Figure, MeasuredLayer, Run } from '../src/api';
import { grainsText, gridSentences, layerRows, scaleSentence, withUncertainty } from '../src/sectionwords';

const figure = (name: string, value: number | null, more: Partial<Figure> = {}): Figure => ({ name, title: name, unit: 'um', value, uncertainty: null, note: null, subject: 'layer 1', ...more });
const run = (...figures: Figure[]): Run => ({ id: 'r', version: 1, queuedAt: '', endedAt: null, state: 'done', progress: 1, inputs: [], problem: null, noAnswer: null, reading: 'layers', parameters: {}, figures, rasters: [], warnings: [] });

test('a value is rounded where its uncertainty begins', () => {
  expect(withUncertainty(84.2345, 1.26)).toBe('84.2 ± 1.3');
  expect(withUncertainty(84.2345, 0.012)).toBe('84.235 ± 0.012');
  expect(withUncertainty(84.2345, null)).toBe('84.2');
});

test('a layer in um, with what is seen of it; without a scale in px', () => {
  const layer: MeasuredLayer = { number: 1, part: '', unit: 'um', mean: 84.2, uncertainty: 1.3, deviation: 4, low: 77, high: 91, range: '5th to 95th percentile', coverage: 1, places: 900, colour: 'white', luminescence: 'dark weak blue', grains: null };
  expect(layerRows([layer])[0]).toEqual({ number: '1', thickness: '84.2 ± 1.3 um', spread: '77.0 to 91.0 um, 5th to 95th percentile; sd 4.0', coverage: '100 %, n = 900', seen: 'white; dark weak blue in ultraviolet', grains: '' });
  expect(layerRows([{ ...layer, unit: 'px', mean: 20, uncertainty: 1 }])[0]!.thickness).toBe('20.0 ± 1.0 px');
  expect(layerRows([{ ...layer, mean: null }, { ...layer, number: 2 }]).map((r) => [r.number, r.thickness])).toEqual([['2', '84.2 ± 1.3 um'], ['1', 'not measured']]);
  expect(layerRows([layer, { ...layer, number: 2 }, { ...layer, part: 'a' }, { ...layer, part: 'b' }]).map((r) => r.number)).toEqual(['2', '1', '1b', '1a']);
});

test('fineness in words stands beside the figure, never alone', () => {
  const grains = { counted: 120, d50: 4.21, uncertainty: 0.35, unit: 'um', note: '3.90 to 4.56; fine' };
  expect(grainsText(grains)).toBe('n = 120, D50 by area 4.21 ± 0.35 um (3.90 to 4.56; fine)');
  expect(grainsText({ ...grains, counted: 3, d50: null, note: 'fewer than 20 whole grains: no answer' })).toBe('n = 3, fewer than 20 whole grains: no answer');
  expect(grainsText(null)).toBe('');
});

test('the scale and where it comes from; none is said', () => {
  expect(scaleSentence(run(figure('um-per-pixel', 0.25, { uncertainty: 0.0025, note: 'entered', subject: null })))).toBe('Scale: 0.2500 ± 0.0025 um per pixel, entered.');
  expect(scaleSentence(run())).toBe('No scale: thicknesses are in pixels only.');
});

test('a micrograph on another grid is named, one on the same grid or left out is not', () => {
  const at = (subject: string, note: string): Figure => figure('aligned-p95', 0.8, { subject, note });
  expect(gridSentences(run(at('a.tif', "aligned, on the visible one's grid as it is"), at('b.tif', 'uncertain, left out'), at('c.tif', 'aligned')))).toEqual([expect.stringMatching(/^c\.tif lies on another grid\..*within 0\.8 px/)]);
});
