import { describe, expect, it } from 'vitest';
import type { Run } from '../src/api';
import { followRun, resizedText } from '../src/runs';

const run = (changes: Partial<Run> = {}): Run => ({ id: 'r', version: 1, queuedAt: '', endedAt: null, state: 'done', progress: 1, inputs: [{ slot: 'image', fileName: 'VIS_01.tif' }], problem: null, noAnswer: null, reading: '', parameters: {}, figures: [], rasters: [], warnings: [], ...changes });

describe('runs', () => {
  it('are followed until they end, saying meanwhile how far they are', async () => {
    const states = [run({ state: 'queued', progress: 0 }), run({ state: 'running', progress: 0.4 }), run()];
    const said: string[] = [];
    expect(await followRun({ run: async () => states.shift()! }, 'r', (text) => said.push(text), 0)).toMatchObject({ state: 'done' });
    expect(said).toEqual(['Waiting for its turn.', 'Aligning, 40 % done.']);
  });
});

describe('a size corrected by a measured distance', () => {
  it('says that readings keep their places until the folder is examined again', () =>
    expect(resizedText([run(), run()])).toBe("The painting's size is corrected. Photographs aligned again: 2. Readings keep their former places until the folder is examined again."));
  it('names the photographs that could not be aligned again, and why', () => {
    const text = resizedText([run(), run({ state: 'failed', inputs: [{ slot: 'image', fileName: 'IR_01.tif' }], problem: { message: 'The disk is full.', remedy: 'Make room.' } }), run({ state: 'cancelled', inputs: [{ slot: 'image', fileName: 'XR_01.tif' }] })]);
    expect(text).toContain('2 of 3 photographs could not be aligned again and are out of place: IR_01.tif: The disk is full. Make room. XR_01.tif: The run was cancelled. Readings');
  });
});
