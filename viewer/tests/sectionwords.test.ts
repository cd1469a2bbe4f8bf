import { expect, test } from 'vitest';
import type { Figure, Run } from '../src/api';
import { grainsText, layerRows, scaleSentence, withUncertainty } from '../src/sectionwords';

const figure = (name: string, value: number | null, more: Partial<Figure> = {}): Figure => ({ name, title: name, unit: 'um', value, uncertainty: null, note: null, subject: 'layer 1', ...more });
const run = (...figures: Figure[]): Run => ({ id: 'r', version: 1, queuedAt: '', endedAt: null, state: 'done', progress: 1, inputs: [], problem: null, noAnswer: null, reading: 'layers', parameters: {}, figures, rasters: [], warnings: [] });

test('a value is rounded where its uncertainty begins', () => {
  expect(withUncertainty(84.2345, 1.26)).toBe('84.2 ± 1.3');
  expect(withUncertainty(84.2345, 0.012)).toBe('84.235 ± 0.012');
  expect(withUncertainty(84.2345, null)).toBe('84.2');
});

test('a layer in um, with what is seen of it; without a scale in px', () => {
  const count = figure('layers', 1, { subject: null });
  const um = layerRows(run(count, figure('thickness-mean', 84.2, { uncertainty: 1.3 }), figure('thickness-sd', 4), figure('thickness-p5', 77), figure('thickness-p95', 91), figure('coverage', 100), figure('n', 900),
    figure('luminescence-lightness', 30, { note: 'dark weak blue' })), [{ kind: 'layer', confidence: 0.5, reason: 'layer 1: white', geometry: { type: 'Polygon', coordinates: [] } }], null)[0]!;
  expect(um).toEqual({ number: 1, thickness: '84.2 ± 1.3 um', spread: '77.0 to 91.0 um, sd 4.0', coverage: '100 %, n = 900', seen: 'white; dark weak blue in ultraviolet', grains: '' });
  expect(layerRows(run(count, figure('thickness-mean-px', 20, { uncertainty: 1 })), [], null)[0]!.thickness).toBe('20.0 ± 1.0 px');
  expect(layerRows(run(count), [], null)[0]!.thickness).toBe('not measured');
});

test('fineness in words stands beside the figure, never alone', () => {
  expect(grainsText(figure('grains', 120), figure('d50-area', 4.21, { uncertainty: 0.35, note: '3.90 to 4.56; fine' }))).toBe('n = 120, D50 by area 4.21 ± 0.35 um (3.90 to 4.56; fine)');
  expect(grainsText(figure('grains', 3), figure('d50-area', null, { note: 'fewer than 20 whole grains: no answer' }))).toBe('n = 3, fewer than 20 whole grains: no answer');
  expect(grainsText(undefined, undefined)).toBe('');
});

test('the scale and where it comes from; none is said', () => {
  expect(scaleSentence(run(figure('um-per-pixel', 0.25, { uncertainty: 0.0025, note: 'entered', subject: null })))).toBe('Scale: 0.2500 ± 0.0025 um per pixel, entered.');
  expect(scaleSentence(run())).toBe('No scale: thicknesses are in pixels only.');
});
