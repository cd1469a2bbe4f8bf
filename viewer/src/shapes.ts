// Plane geometry of drawn things, mm. Rings are closed: the last place repeats the first.
import type { Place } from './plane';

/** Length of a line. */
export function lengthOf(line: readonly Place[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) sum += Math.hypot(line[i]![0] - line[i - 1]![0], line[i]![1] - line[i - 1]![1]);
  return sum;
}

/** Area inside a ring, by the shoelace formula; positive whichever way round. */
export const areaOf = (ring: readonly Place[]): number => Math.abs(signedArea(ring));

function signedArea(ring: readonly Place[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++) sum += ring[i - 1]![0] * ring[i]![1] - ring[i]![0] * ring[i - 1]![1];
  return sum / 2;
}

/** The angle at `corner` between two arms, degrees 0 to 180; null when an arm has no length. */
export function angleOf(one: Place, corner: Place, other: Place): number | null {
  const [ax, ay, bx, by] = [one[0] - corner[0], one[1] - corner[1], other[0] - corner[0], other[1] - corner[1]];
  if ((ax === 0 && ay === 0) || (bx === 0 && by === 0)) return null;
  return Math.abs((Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * 180) / Math.PI);
}

/** Where two segments cross inside both; null when they do not. */
function crossing(a: Place, b: Place, c: Place, d: Place): Place | null {
  const [rx, ry, sx, sy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = rx * sy - ry * sx;
  if (cross === 0) return null;
  const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / cross;
  const u = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / cross;
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? [a[0] + t * rx, a[1] + t * ry] : null;
}

/** The first place where a ring crosses itself, and the segments (i to i+1, j to j+1) that do; null for a simple ring. */
export function selfCrossing(ring: readonly Place[]): { i: number; j: number; at: Place } | null {
  const last = ring.length - 1;
  for (let i = 0; i < last; i++)
    for (let j = i + 2; j < last; j++) {
      if (i === 0 && j === last - 1) continue;
      const at = crossing(ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!);
      if (at) return { i, j, at };
    }
  return null;
}

/** A ring drawn by a free hand without the small loops where the hand crossed its own line: of each two parts the larger stays. */
export function withoutLoops(ring: readonly Place[]): Place[] {
  let rest = [...ring];
  for (let found = selfCrossing(rest); found; found = selfCrossing(rest)) {
    const { i, j, at } = found;
    const loop = [at, ...rest.slice(i + 1, j + 1), at];
    const outer = [...rest.slice(0, i + 1), at, ...rest.slice(j + 1)];
    rest = areaOf(loop) > areaOf(outer) ? loop : outer;
  }
  return rest;
}

/** A line with fewer places, none further than `tolerance` from the old line. Douglas and Peucker, Cartographica 10 (1973) 112. */
export function simplify(line: readonly Place[], tolerance: number): Place[] {
  if (line.length < 3) return [...line];
  const keep = new Uint8Array(line.length);
  keep[0] = keep[line.length - 1] = 1;
  const stack: [number, number][] = [[0, line.length - 1]];
  for (let span = stack.pop(); span; span = stack.pop()) {
    const [from, to] = span;
    let [worst, at] = [tolerance, -1];
    for (let i = from + 1; i < to; i++) {
      const d = distanceToSegment(line[i]!, line[from]!, line[to]!);
      if (d > worst) [worst, at] = [d, i];
    }
    if (at < 0) continue;
    keep[at] = 1;
    stack.push([from, at], [at, to]);
  }
  return line.filter((_, i) => keep[i]);
}

function distanceToSegment(p: Place, a: Place, b: Place): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
