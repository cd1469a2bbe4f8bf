// The painting's zones, and undo. Every change is stored by the server before it counts; undoing is another stored change.
import { type Api, draftOf, Problem, type Zone, type ZoneDraft } from './api';
import { t } from './language';

type ZoneApi = Pick<Api, 'zones' | 'createZone' | 'updateZone' | 'deleteZone' | 'restoreZone' | 'keepCandidate' | 'rejectCandidate' | 'reopenCandidate'>;

interface Step {
  says: string;
  undo(): Promise<void>;
  redo(): Promise<void>;
}

export class ZoneStore {
  private readonly zones = new Map<string, Zone>();
  private readonly done: Step[] = [];
  private readonly undone: Step[] = [];
  private readonly listeners: (() => void)[] = [];
  /** Changes are stored one after the other, so that each names the revision before it. */
  private queue: Promise<unknown> = Promise.resolve();

  constructor(private readonly api: ZoneApi, private readonly painting: string, private readonly onProblem: (error: unknown) => void) {}

  get all(): Zone[] {
    return [...this.zones.values()];
  }

  get(id: string | null): Zone | undefined {
    return id === null ? undefined : this.zones.get(id);
  }

  on(listener: () => void): void {
    this.listeners.push(listener);
  }

  /** What undo would take back; null when nothing. */
  get undoes(): string | null {
    return this.done.at(-1)?.says ?? null;
  }

  get redoes(): string | null {
    return this.undone.at(-1)?.says ?? null;
  }

  /** Reads all zones from the server. */
  load(): Promise<void> {
    return this.next(async () => {
      const zones = await this.api.zones(this.painting);
      this.zones.clear();
      for (const zone of zones) this.zones.set(zone.id, zone);
    });
  }

  /** Stores a new zone; undefined when the server refused. */
  async create(draft: ZoneDraft): Promise<Zone | undefined> {
    let zone: Zone | undefined;
    await this.next(async () => {
      zone = this.keep(await this.api.createZone(this.painting, draft));
      const { id } = zone;
      this.did({ says: t('new zone'), undo: () => this.erase(id), redo: () => this.bringBack(id) });
    });
    return zone;
  }

  /** Stores a change of a zone. */
  change(id: string, patch: Partial<ZoneDraft>, says: string): Promise<void> {
    return this.next(async () => {
      const before = draftOf(this.known(id));
      const after = { ...before, ...patch };
      await this.write(id, after);
      this.did({ says, undo: () => this.write(id, before), redo: () => this.write(id, after) });
    });
  }

  /** Deletes zones, as one step. */
  remove(...ids: string[]): Promise<void> {
    const each = async (act: (id: string) => Promise<void>): Promise<void> => {
      for (const id of ids) await act(id);
    };
    return this.next(async () => {
      await each((id) => this.erase(id));
      this.did({ says: t('deleting'), undo: () => each((id) => this.bringBack(id)), redo: () => each((id) => this.erase(id)) });
    });
  }

  /** Makes a candidate a finding; undoing makes it a candidate again. */
  keepCandidate(id: string): Promise<void> {
    const judge = async (): Promise<void> => {
      const zone = this.known(id);
      await this.api.keepCandidate(zone);
      this.keep({ ...zone, isCandidate: false, revision: zone.revision + 1 });
    };
    return this.judged(t('keeping'), id, judge);
  }

  /** Says that a candidate is none, and why. */
  rejectCandidate(id: string, reason: string): Promise<void> {
    const judge = async (): Promise<void> => {
      await this.api.rejectCandidate(this.known(id), reason);
      this.zones.delete(id);
    };
    return this.judged(t('rejecting'), id, judge);
  }

  private judged(says: string, id: string, judge: () => Promise<void>): Promise<void> {
    const reopen = async (): Promise<void> => void this.keep(await this.api.reopenCandidate(id));
    return this.next(async () => {
      await judge();
      this.did({ says, undo: reopen, redo: judge });
    });
  }

  undo(): Promise<void> {
    return this.next(() => this.step(this.done, this.undone, 'undo'));
  }

  redo(): Promise<void> {
    return this.next(() => this.step(this.undone, this.done, 'redo'));
  }

  private async step(from: Step[], to: Step[], way: 'undo' | 'redo'): Promise<void> {
    const step = from.at(-1);
    if (!step) return;
    await step[way]();
    from.pop();
    to.push(step);
  }

  private did(step: Step): void {
    this.done.push(step);
    this.undone.length = 0;
  }

  private next(action: () => Promise<void>): Promise<void> {
    const mine = this.queue.then(action).catch((error: unknown) => this.failed(error)).finally(() => this.listeners.forEach((l) => l()));
    this.queue = mine;
    return mine;
  }

  /** Another window may have changed the zone meanwhile: show what is stored now, and say so. */
  private async failed(error: unknown): Promise<void> {
    this.onProblem(error);
    if (!(error instanceof Problem)) return;
    this.done.length = this.undone.length = 0;
    const zones = await this.api.zones(this.painting).catch(() => null);
    if (!zones) return;
    this.zones.clear();
    for (const zone of zones) this.zones.set(zone.id, zone);
  }

  private known(id: string): Zone {
    const zone = this.zones.get(id);
    if (!zone) throw new Problem(404, t('This zone is no longer there.'), t('Draw it again, or take it from the list of zones.'), 'unknown-zone');
    return zone;
  }

  private keep(zone: Zone): Zone {
    this.zones.set(zone.id, zone);
    return zone;
  }

  private async write(id: string, draft: ZoneDraft): Promise<void> {
    this.keep(await this.api.updateZone({ ...this.known(id), ...draft }));
  }

  private async erase(id: string): Promise<void> {
    await this.api.deleteZone(this.known(id));
    this.zones.delete(id);
  }

  private async bringBack(id: string): Promise<void> {
    this.keep(await this.api.restoreZone(id));
  }
}
