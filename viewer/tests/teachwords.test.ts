import { describe, expect, it } from 'vitest';
import type { Figure, TaughtClass } from '../src/api';
import { endText } from '../src/runbox';
import { loadingTable, loadingWords, shownAs, stretchTable } from '../src/stretchwords';
import { carriedText, carriers, qualityText, recognisedText, reliabilityText, standing, taughtText } from '../src/teachwords';

const taught = (changes: Partial<TaughtClass>): TaughtClass => ({ name: 'a', examples: 9, verdict: '', isSeparable: true, recognised: 0.94, lower: 0.8, upper: 0.99, probability: '', ...changes });
const figure = (name: string, value: number | null, subject: string | null = null, note: string | null = null): Figure => ({ name, title: name, unit: '', value, uncertainty: null, note, subject });

describe('what is said of a lesson', () => {
  it('a class: separable, not separable, or too few examples, of which no figure is given', () => {
    expect([true, false, null].map((isSeparable) => standing({ isSeparable }))).toEqual(['Separable', 'Not separable', 'Not enough examples']);
    expect(recognisedText(taught({}))).toBe('94 % recognised, between 80 and 99 %');
    expect(recognisedText(taught({ isSeparable: null }))).toBe('');
  });
  it('accuracy with its interval and with chance, or nothing', () => {
    const quality = { balanced: 0.943, lower: 0.72, upper: 0.98, calibrationError: 0.04, reliability: [] };
    expect(qualityText({ quality, classes: [taught({}), taught({}), taught({}), taught({})] })).toEqual([
      ['Balanced accuracy 94 %, between 72 and 98 %', expect.stringContaining('25 % is chance')], ['Calibration error 0.04', expect.any(String)]]);
    expect(qualityText({ quality: null, classes: [] })).toEqual([]);
  });
  it('what carries it', () => {
    const importance = [{ name: 'UVL_01.tif green', share: 0.61 }, { name: 'IR_01.tif', share: 0.386 }, { name: 'VIS_01.tif red', share: 0.004 }, { name: 'all of UVL_01.tif', share: 0.7 }];
    expect(carriedText(importance)).toBe('UVL_01 green carries 61 %.');
    expect([carriers(importance, false).map((c) => c.name), carriers(importance, true).map((c) => c.name)]).toEqual([['UVL_01 green', 'IR_01'], ['UVL_01']]);
    expect(carriedText([{ name: 'VIS_01.tif red', share: null }])).toBe('No band carries anything.');
  });
  it('the reliability plot', () => expect(reliabilityText([{ said: 0.9, right: 0.85, weight: 0.4 }])).toBe('where 0.90 was said, 0.85 was right (40 % of the marks)'));
  it('the whole painting', () => expect(taughtText({
    figures: [figure('examples', 8, 'retouching'), figure('examples', 9, 'original'), figure('candidates', 3, 'retouching'), figure('candidates', 0, 'original'), figure('balanced-accuracy', 93.6, null, '85 to 97 %')], warnings: [{ code: 'not-separable', message: 'Two are alike.' }],
  })).toBe("The whole painting was taught. 3 areas are proposed: retouching 3. Each is a place to look at: keep it, or say 'Not this'. Balanced accuracy 94 % (85 to 97 %). In the strip class 1 is retouching, class 2 is original. Two are alike."));
  it('how a run ended', () => {
    expect(endText({ state: 'no-answer', problem: null, noAnswer: 'Not enough examples.' })).toBe('Not enough examples.');
    expect(endText({ state: 'failed', problem: { message: 'The disk is full.', remedy: 'Make room.' }, noAnswer: null })).toBe('The disk is full. Make room.');
  });
});

describe('components and stretches', () => {
  const run = { figures: [
    figure('variance-share', 0.8, 'component 1'), figure('variance-share', 0.05, 'component 2'), figure('noise-fraction', 0.01, 'component 1'), figure('noise-fraction', 0.6, 'component 2'),
    figure('loading', 0.95, 'component 1: VIS_01.tif red'), figure('loading', 0.6, 'component 1: IR_01.tif'), figure('loading', -0.4, 'component 2: VIS_01.tif red'), figure('loading', 0.8, 'component 2: IR_01.tif'),
  ] };
  it('loadings stand by band and component', () => expect(loadingTable(run)).toEqual({ head: ['', '1', '2'], rows: [
    { name: 'Share of variance', cells: ['80 %', '5.0 %'], strong: [false, false] }, { name: 'of it noise', cells: ['1.0 %', '60 %'], strong: [false, false] },
    { name: 'VIS_01 red', cells: ['0.95', '−0.40'], strong: [true, false] }, { name: 'IR_01', cells: ['0.60', '0.80'], strong: [false, true] },
  ] }));
  it('and in words', () => expect(loadingWords(run)).toEqual(['Component 1 shows VIS_01 red, IR_01.', 'Component 2 shows IR_01; inverted VIS_01 red.']));
  it('a stretch says what was raised, and what is shown as what', () => {
    const stretched = { figures: [figure('variance-share', 0.9, 'direction 1'), figure('gain', 1, 'direction 1'), figure('band-mean', 0.4, 'red: VIS_01.tif red'), figure('band-mean', 0.2, 'green: IR_01.tif')] };
    expect(stretchTable(stretched).rows).toEqual([{ name: 'Direction 1', cells: ['90 %', '1.0 ×', 'not said'], strong: [false, false, false] }]);
    expect(shownAs(stretched)).toBe('red: VIS_01 red; green: IR_01');
  });
});
