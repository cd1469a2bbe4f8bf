import { describe, expect, it } from 'vitest';
import { Lost, Problem, type Sheet } from '../src/api';
import { inOrder, MarksStore, marksOf, nameProblem, renamed, withClass, withMark, withoutClass, withoutMark } from '../src/marks';

const empty: Sheet = { classes: [], strokeWidth: 1, layers: [], marks: { type: 'FeatureCollection', features: [] } };
const line = { type: 'LineString' as const, coordinates: [[0, 0], [1, 1]] };

/** A server in memory that keeps revisions as the real one does, and may be out of reach. */
class Server {
  sheet = empty;
  revision = 0;
  lost = false;
  marks = async (): Promise<Sheet & { revision: number }> => ({ ...structuredClone(this.sheet), revision: this.revision });
  storeMarks = async (_: string, sheet: Sheet, revision: number): Promise<{ revision: number }> => {
    if (this.lost) throw new Lost('The server does not answer.');
    if (revision !== this.revision) throw new Problem(412, 'The marks were changed meanwhile.', '', 'marks-changed');
    this.sheet = structuredClone(sheet);
    return { revision: ++this.revision };
  };
}

describe('a sheet of marks', () => {
  const two = withMark(withMark(withClass(withClass(empty, ' retouching '), 'original'), 0, line), 1, line);
  it('gives each mark its class; a new name goes with the marks', () => {
    expect(two.classes).toEqual(['retouching', 'original']);
    expect(marksOf(renamed(two, 0, 'old retouching'), 0)).toEqual([0]);
    expect(renamed(two, 0, 'old retouching').marks.features[1]!.properties.class).toBe('original');
  });
  it('loses a class with its marks, a mark alone', () => {
    expect(withoutClass(two, 0).marks.features.map((m) => m.properties.class)).toEqual(['original']);
    expect(marksOf(withoutMark(two, 1), 1)).toEqual([]);
  });
  it('a run gets the marks class by class', () =>
    expect(inOrder(withMark(withMark(two, 1, line), 0, line)).features.map((m) => m.properties.class)).toEqual(['retouching', 'retouching', 'original', 'original']));
  it('refuses names that say nothing or are there already, and a ninth class', () => {
    expect([nameProblem(two, '  '), nameProblem(two, 'Original'), nameProblem(two, 'Original', 1)].map((p) => p !== null)).toEqual([true, true, false]);
    const eight = Array.from({ length: 8 }, (_, i) => `class ${i}`).reduce(withClass, empty);
    expect(nameProblem(eight, 'one more')).toContain('At most 8');
    expect(nameProblem(eight, 'renamed', 3)).toBeNull();
  });
});

describe('keeping marks', () => {
  it('stores each change, undo and redo included, one after the other', async () => {
    const server = new Server();
    const store = new MarksStore(server, 'x');
    await store.load();
    store.change(withClass(store.now, 'retouching'));
    store.change(withMark(store.now, 0, line));
    store.undo();
    await store.send();
    expect([server.sheet.classes, server.sheet.marks.features.length, store.keeping]).toEqual([['retouching'], 0, 'stored']);
    store.redo();
    await store.send();
    expect(server.sheet.marks.features).toHaveLength(1);
  });
  it('loses nothing while the server is out of reach', async () => {
    const server = new Server();
    const store = new MarksStore(server, 'x');
    await store.load();
    server.lost = true;
    store.change(withClass(store.now, 'retouching'));
    await store.send();
    expect([store.keeping, store.now.classes]).toEqual(['unsent', ['retouching']]);
    server.lost = false;
    await store.load();
    expect([store.keeping, server.sheet.classes]).toEqual(['stored', ['retouching']]);
  });
  it('asks when another window changed the marks', async () => {
    const server = new Server();
    const store = new MarksStore(server, 'x');
    await store.load();
    await server.storeMarks('x', withClass(empty, 'theirs'), 0);
    store.change(withClass(store.now, 'mine'));
    await store.send();
    expect([store.keeping, server.sheet.classes]).toEqual(['changed elsewhere', ['theirs']]);
    await store.insist();
    expect([store.keeping, server.sheet.classes]).toEqual(['stored', ['mine']]);
    await server.storeMarks('x', withClass(empty, 'theirs again'), 2);
    store.change(withClass(store.now, 'more'));
    await store.send();
    await store.giveWay();
    expect([store.keeping, store.now.classes]).toEqual(['stored', ['theirs again']]);
    store.undo();
    expect(store.now.classes).toEqual(['mine', 'more']);
  });
});
