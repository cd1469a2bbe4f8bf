import { describe, expect, it } from 'vitest';
import { dayOf, readTreat, writeTreat } from '../src/treatlink';

describe('the treatment in the link', () => {
  it('comes back as it was written', () => {
    for (const treat of [{ step: 's-1', day: null }, { step: 's-1', day: '2026-03-05' }, { step: '', day: null }]) expect(readTreat(writeTreat(treat))).toEqual(treat);
  });
  it('passes over a day that is none', () => {
    expect(readTreat('s-1~soon')).toEqual({ step: 's-1', day: null });
    expect(readTreat('s-1~2026-03-05T00:00')).toEqual({ step: 's-1', day: null });
  });
});

describe('the day that is shown', () => {
  const days = ['2026-03-02', '2026-03-05', '2026-03-10'];
  it('is the last without a wish', () => expect(dayOf(days, null)).toBe('2026-03-10'));
  it('is the last one not after the day asked for', () => {
    expect(dayOf(days, '2026-03-05')).toBe('2026-03-05');
    expect(dayOf(days, '2026-03-09')).toBe('2026-03-05');
  });
  it('is none before the first, and none without a log', () => {
    expect(dayOf(days, '2026-03-01')).toBeNull();
    expect(dayOf([], null)).toBeNull();
  });
});
