// Keeps the painting's walks as the server has them: a change is shown at once and stored a moment later.
import { type Api, Problem } from './api';
import type { Walk, WalkContent } from './walklist';

/** Quiet before a change is stored, ms: a word is not stored letter by letter. */
const pause = 700;

export class WalkKeeper {
  private walks: Walk[] = [];
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private storing: Promise<void> = Promise.resolve();
  private readonly unsaved = new Set<string>();

  constructor(private readonly api: Api, private readonly painting: string, private readonly changed: () => void, private readonly problem: (error: unknown) => void) {
    addEventListener('pagehide', () => void this.flush());
  }

  get all(): readonly Walk[] {
    return this.walks;
  }

  /** Whether something waits to be stored. */
  get isUnsaved(): boolean {
    return this.unsaved.size > 0;
  }

  get(id: string | null): Walk | undefined {
    return this.walks.find((w) => w.id === id);
  }

  async load(): Promise<void> {
    await this.guard(async () => {
      this.walks = await this.api.walks(this.painting);
      this.changed();
    });
  }

  async create(content: WalkContent): Promise<Walk | undefined> {
    return this.guard(async () => {
      const made = await this.api.createWalk(this.painting, content);
      this.walks.push(made);
      return made;
    });
  }

  /** Changes one; it is stored when things have been quiet for a moment. */
  change(id: string, patch: Partial<WalkContent>): void {
    const walk = this.get(id);
    if (!walk) return;
    walk.content = { ...walk.content, ...patch };
    this.unsaved.add(id);
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => void this.flush(), pause);
    this.changed();
  }

  /** Stores what waits. */
  flush(): Promise<void> {
    clearTimeout(this.waiting);
    this.storing = this.storing.then(async () => {
      for (const id of [...this.unsaved]) await this.store(id);
      this.changed();
    });
    return this.storing;
  }

  /** Takes one out; it can be brought back. */
  async remove(id: string): Promise<void> {
    await this.flush();
    await this.guard(async () => {
      const walk = this.get(id);
      if (!walk) return;
      await this.api.deleteWalk(walk);
      this.walks = this.walks.filter((w) => w.id !== id);
      this.changed();
    });
  }

  async restore(id: string): Promise<void> {
    await this.guard(async () => {
      this.walks.push(await this.api.restoreWalk(id));
      this.changed();
    });
  }

  private async store(id: string): Promise<void> {
    const walk = this.get(id);
    if (!walk) return void this.unsaved.delete(id);
    const sent = walk.content;
    try {
      const kept = await this.api.updateWalk(walk);
      walk.revision = kept.revision;
      if (walk.content === sent) this.unsaved.delete(id);
    } catch (error) {
      this.problem(error);
      // A lost server may come back; what the server refuses it will refuse again, and shows as it stands there.
      if (!(error instanceof Problem)) return;
      this.unsaved.delete(id);
      if (error.code === 'walk-changed') await this.load();
    }
  }

  private async guard<T>(work: () => Promise<T>): Promise<T | undefined> {
    try {
      return await work();
    } catch (error) {
      this.problem(error);
      return undefined;
    }
  }
}
