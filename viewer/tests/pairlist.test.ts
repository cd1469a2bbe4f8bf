import { describe, expect, it } from 'vitest';
import { PairList } from '../src/pairlist';
import { nudge } from '../src/pairpane';
import { arrowLine } from '../src/residualarrows';

describe('the list of pairs', () => {
  it('joins a point in one pane with the next one in the other', () => {
    const list = new PairList();
    list.set('place', [10, 20]);
    expect([list.whole.length, list.half?.id]).toEqual([0, 1]);
    list.set('place', [11, 21]);
    list.set('pixel', [100, 200]);
    expect(list.whole).toMatchObject([{ id: 1, place: [11, 21], pixel: [100, 200] }]);
    list.set('pixel', [5, 5]);
    expect(list.half).toMatchObject({ id: 2, place: null });
  });
  it('a new whole pair takes the place of one half set', () => {
    const list = new PairList();
    list.set('pixel', [1, 1]);
    expect(list.add([1, 2], [3, 4]).id).toBe(2);
    expect(list.all.map((p) => p.id)).toEqual([2]);
  });
  it('leaves a locked pair where it is', () => {
    const list = new PairList();
    const { id } = list.add([1, 2], [3, 4]);
    list.change(id, { locked: true });
    list.move(id, 'pixel', [9, 9]);
    list.snapped(id, [9, 9], 'found');
    expect(list.find(id)).toMatchObject({ pixel: [3, 4], note: '' });
  });
  it('undoes step by step, a snap together with the setting it followed', () => {
    const list = new PairList();
    const { id } = list.add([1, 2], [3, 4]);
    list.snapped(id, [3.5, 4.5], 'moved');
    list.move(id, 'place', [2, 2]);
    list.remove(id);
    list.undo();
    expect(list.find(id)!.place).toEqual([2, 2]);
    list.undo();
    expect(list.find(id)).toMatchObject({ pixel: [3.5, 4.5], note: 'moved' });
    list.undo();
    expect([list.all.length, list.canUndo]).toEqual([0, false]);
  });
  it('never gives a number twice, even after pairs that were kept', () => {
    const list = new PairList([{ id: 7, place: [0, 0], pixel: [0, 0], used: true, locked: false, note: '' }]);
    list.remove(7);
    expect(list.add([1, 1], [1, 1]).id).toBe(8);
  });
});

describe('arrow keys', () => {
  it.each([[{}, [1, 0]], [{ shiftKey: true }, [10, 0]], [{ altKey: true }, [0.1, 0]]])('with %o', (modifiers, by) =>
    expect(nudge({ key: 'ArrowRight', shiftKey: false, altKey: false, ...modifiers }, 1)).toEqual(by));
  it('count in the picture’s own pixels', () => expect(nudge({ key: 'ArrowUp', shiftKey: false, altKey: false }, 0.4)).toEqual([0, -0.4]));
  it('others do nothing', () => expect(nudge({ key: 'a', shiftKey: false, altKey: false }, 1)).toBeNull());
});

describe('arrows of what is left', () => {
  it('are fifty times as long, and end in a head', () => {
    const line = arrowLine({ place: [10, 20], residual: [0.2, 0] });
    expect(line[1]).toEqual([20, 20]);
    expect(line[2]![1]).not.toBe(line[4]![1]);
  });
});
