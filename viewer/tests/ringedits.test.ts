import { describe, expect, it } from 'vitest';
import { RingEdits } from '../src/ringedits';

describe('boundaries of rings that are moved', () => {
  it('say nothing while nothing changed', () => {
    const edits = new RingEdits([1, 2.5, 4], 10);
    expect([edits.out, edits.in]).toEqual(['', '']);
  });

  it('say which go and where they are now', () => {
    const edits = new RingEdits([1, 2.5, 4], 10);
    edits.move(1, 2.75);
    edits.takeOut(2);
    edits.add(6.1);
    expect([edits.out, edits.in]).toEqual(['2 3', '2.750 6.100']);
    edits.move(1, 2.5);
    edits.takeOut(3);
    expect([edits.out, edits.in]).toEqual(['3', '']);
  });

  it('stay on the line', () => {
    const edits = new RingEdits([1], 10);
    expect([edits.move(0, -3), edits.move(0, 12)]).toEqual([0, 10]);
  });
});
