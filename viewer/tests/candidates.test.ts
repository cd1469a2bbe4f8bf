import { describe, expect, it } from 'vitest';
import type { Zone } from '../src/api';
import { following, inOrder } from '../src/candidates';

const zone = (id: string, kind: string, confidence: number | null, isCandidate = true): Zone =>
  ({ id, kind, confidence, isCandidate, name: id, note: '', geometry: { type: 'Point', coordinates: [0, 0] }, revision: 1, reason: null, runId: null, areaMm2: 0, lengthMm: 0 });

describe('candidates', () => {
  const zones = [zone('d', 'loss', 0.9), zone('a', 'crack', 0.2), zone('b', 'crack', null), zone('c', 'crack', 0.7), zone('x', 'loss', 1, false)];
  it('stand by kind, the surest first, and those that a person made do not stand among them', () => {
    expect(inOrder(zones).map((z) => z.id)).toEqual(['c', 'a', 'b', 'd']);
  });
  it('follow each other around the end, both ways', () => {
    const ordered = inOrder(zones);
    expect([following(ordered, 'd', 1)!.id, following(ordered, 'c', -1)!.id, following(ordered, null, 1)!.id, following(ordered, null, -1)!.id, following(ordered, 'x', 1)!.id]).toEqual(['c', 'd', 'c', 'd', 'c']);
    expect(following([], null, 1)).toBeUndefined();
  });
});
