import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Api, Lost, Problem } from '../src/api';
import { WalkKeeper } from '../src/walkkeeper';
import type { Walk } from '../src/walklist';

const walk = (revision = 1, title = 'A'): Walk => ({ id: 'w', revision, content: { title, language: 'en', steps: [] } });

describe('keeping walks', () => {
  let problems: unknown[];
  let sent: Walk[];
  let answer: () => Promise<Walk>;
  let keeper: WalkKeeper;
  beforeEach(async () => {
    vi.useFakeTimers();
    vi.stubGlobal('addEventListener', () => {});
    [problems, sent] = [[], []];
    answer = () => Promise.resolve(walk(sent.at(-1)!.revision + 1));
    const api = { walks: () => Promise.resolve([walk(sent.length + 1, sent.at(-1)?.content.title ?? 'A')]), updateWalk: (w: Walk) => { sent.push(structuredClone(w)); return answer(); } };
    keeper = new WalkKeeper(api as unknown as Api, 'p', () => {}, (error) => problems.push(error));
    await keeper.load();
  });
  afterEach(() => { vi.useRealTimers(); vi.unstubAllGlobals(); });

  it('stores a word once, not letter by letter', async () => {
    for (const title of ['B', 'Bo', 'Boa', 'Boat']) keeper.change('w', { title });
    expect([keeper.get('w')!.content.title, keeper.isUnsaved, sent.length]).toEqual(['Boat', true, 0]);
    await vi.runAllTimersAsync();
    expect([sent.map((w) => w.content.title), keeper.isUnsaved]).toEqual([['Boat'], false]);
  });
  it('names the revision before in each', async () => {
    keeper.change('w', { title: 'B' });
    await keeper.flush();
    keeper.change('w', { title: 'C' });
    await keeper.flush();
    expect(sent.map((w) => w.revision)).toEqual([1, 2]);
  });
  it('keeps what was typed while another change was under way', async () => {
    answer = () => { keeper.change('w', { title: 'C' }); answer = () => Promise.resolve(walk(3)); return Promise.resolve(walk(2)); };
    keeper.change('w', { title: 'B' });
    await vi.runAllTimersAsync();
    expect([sent.map((w) => w.content.title), keeper.isUnsaved]).toEqual([['B', 'C'], false]);
  });
  it('tries again after a lost server', async () => {
    answer = () => Promise.reject(new Lost('away'));
    keeper.change('w', { title: 'B' });
    await vi.runAllTimersAsync();
    expect(keeper.isUnsaved).toBe(true);
    answer = () => Promise.resolve(walk(2));
    await keeper.flush();
    expect([problems.length, keeper.isUnsaved, sent.at(-1)!.content.title]).toEqual([1, false, 'B']);
  });
  it('shows what others wrote when they were first', async () => {
    answer = () => Promise.reject(new Problem(412, 'changed', '', 'walk-changed'));
    keeper.change('w', { title: 'B' });
    await vi.runAllTimersAsync();
    expect([problems.length, keeper.isUnsaved, keeper.get('w')!.revision]).toEqual([1, false, 2]);
  });
});
