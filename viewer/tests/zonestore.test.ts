import { describe, expect, it } from 'vitest';
import { Problem, type Zone, type ZoneDraft } from '../src/api';
import { ZoneStore } from '../src/zonestore';

/** A server in memory that keeps revisions as the real one does. */
class Server {
  readonly rows = new Map<string, { zone: Zone; deleted: boolean }>();
  zones = async (): Promise<Zone[]> => [...this.rows.values()].filter((r) => !r.deleted).map((r) => structuredClone(r.zone));
  createZone = async (_: string, draft: ZoneDraft): Promise<Zone> => {
    const zone: Zone = { ...structuredClone(draft), id: `z${this.rows.size + 1}`, revision: 1, confidence: null, reason: null, runId: null, areaMm2: 0, lengthMm: 0 };
    this.rows.set(zone.id, { zone, deleted: false });
    return structuredClone(zone);
  };
  updateZone = async (zone: Zone): Promise<Zone> => this.at(zone, (row) => { row.zone = { ...structuredClone(zone), revision: row.zone.revision + 1 }; });
  deleteZone = async (zone: Zone): Promise<void> => void this.at(zone, (row) => { row.deleted = true; row.zone.revision++; });
  restoreZone = async (id: string): Promise<Zone> => {
    const row = this.rows.get(id)!;
    row.deleted = false;
    row.zone.revision++;
    return structuredClone(row.zone);
  };
  keepCandidate = async (zone: Zone): Promise<{ id: string }> => ({ id: `finding of ${this.at(zone, (row) => { row.zone = { ...row.zone, isCandidate: false, revision: row.zone.revision + 1 }; }).id}` });
  rejectCandidate = async (zone: Zone): Promise<void> => this.deleteZone(zone);
  reopenCandidate = async (id: string): Promise<Zone> => {
    this.rows.get(id)!.zone.isCandidate = true;
    return this.restoreZone(id);
  };
  private at(zone: Zone, act: (row: { zone: Zone; deleted: boolean }) => void): Zone {
    const row = this.rows.get(zone.id)!;
    if (row.zone.revision !== zone.revision) throw new Problem(409, 'The zone was changed meanwhile.', '', 'zone-changed');
    act(row);
    return structuredClone(row.zone);
  }
}

const draft: ZoneDraft = { name: 'Loss 1', kind: 'loss', note: '', geometry: { type: 'Point', coordinates: [10, 20] }, isCandidate: false };

function begin(): { server: Server; store: ZoneStore; problems: unknown[] } {
  const server = new Server();
  const problems: unknown[] = [];
  return { server, problems, store: new ZoneStore(server, 'x', (p) => problems.push(p)) };
}

describe('zones', () => {
  it('undo and redo go through creating, changing and deleting, with the revisions in step', async () => {
    const { server, store, problems } = begin();
    const zone = (await store.create(draft))!;
    await store.change(zone.id, { name: 'Old loss' }, 'name');
    await store.remove(zone.id);
    expect(await server.zones()).toHaveLength(0);
    await store.undo();
    expect(store.get(zone.id)!.name).toBe('Old loss');
    await store.undo();
    expect((await server.zones())[0]!.name).toBe('Loss 1');
    await store.undo();
    expect(store.all).toHaveLength(0);
    for (let i = 0; i < 3; i++) await store.redo();
    expect(store.all).toHaveLength(0);
    await store.undo();
    expect((await server.zones())[0]!.name).toBe('Old loss');
    expect(problems).toEqual([]);
  });
  it('candidates are kept and rejected, and each decision is taken back and made again', async () => {
    const { server, store, problems } = begin();
    const [a, b] = [(await store.create({ ...draft, isCandidate: true }))!.id, (await store.create({ ...draft, isCandidate: true }))!.id];
    await store.keepCandidate(a);
    await store.rejectCandidate(b, 'the frame');
    expect((await server.zones()).map((z) => z.isCandidate)).toEqual([false]);
    await store.undo();
    await store.undo();
    expect(store.all.map((z) => z.isCandidate)).toEqual([true, true]);
    await store.redo();
    await store.redo();
    expect([(await server.zones()).length, store.get(a)!.isCandidate, problems.length]).toEqual([1, false, 0]);
    // The revision that the page holds is the server's: a change after keeping is accepted.
    await store.change(a, { name: 'Retouching' }, 'name');
    expect(problems).toEqual([]);
  });
  it('several are deleted as one step', async () => {
    const { server, store, problems } = begin();
    const ids = [(await store.create(draft))!.id, (await store.create(draft))!.id];
    await store.remove(...ids);
    expect(await server.zones()).toHaveLength(0);
    await store.undo();
    expect(await server.zones()).toHaveLength(2);
    await store.redo();
    expect([(await server.zones()).length, problems.length]).toEqual([0, 0]);
  });
  it('a new change forgets what was undone', async () => {
    const { store } = begin();
    const zone = (await store.create(draft))!;
    await store.change(zone.id, { name: 'B' }, 'name');
    await store.undo();
    await store.change(zone.id, { name: 'C' }, 'name');
    expect(store.redoes).toBeNull();
  });
  it('changes made at once are stored one after the other', async () => {
    const { store, problems } = begin();
    const zone = (await store.create(draft))!;
    await Promise.all([store.change(zone.id, { name: 'B' }, 'name'), store.change(zone.id, { note: 'seen in raking light' }, 'note')]);
    expect(store.get(zone.id)).toMatchObject({ name: 'B', note: 'seen in raking light', revision: 3 });
    expect(problems).toEqual([]);
  });
  it('when another window changed the zone, its version is shown and the problem told', async () => {
    const { server, store, problems } = begin();
    const zone = (await store.create(draft))!;
    await server.updateZone({ ...zone, name: 'Theirs' });
    await store.change(zone.id, { name: 'Mine' }, 'name');
    expect(problems).toHaveLength(1);
    expect(store.get(zone.id)!.name).toBe('Theirs');
    expect(store.undoes).toBeNull();
  });
});
