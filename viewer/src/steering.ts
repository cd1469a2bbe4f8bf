// Steering boundaries of layers: which boundary a click means, and the document of clicks that the reading takes. Places in pixels of the micrograph in visible light, y down.
import type { Place } from './plane';

/** A place through which a boundary passes; clicks of one boundary have one name. */
export interface Click {
  readonly at: Place;
  readonly boundary: string;
}

interface Collection {
  type: 'FeatureCollection';
  features: { type: 'Feature'; properties: { boundary: string }; geometry: { type: 'Point'; coordinates: [number, number] } }[];
}

/** The clicks in a run's parameter; an empty text holds none. */
export function readClicks(text: string | undefined): Click[] {
  if (!text) return [];
  return (JSON.parse(text) as { features: { properties?: { boundary?: unknown } | null; geometry: { coordinates: [number, number] } }[] }).features
    .map(({ properties, geometry: { coordinates: [x, y] } }, i) => ({ at: [x, y], boundary: String(properties?.boundary ?? `click ${i + 1}`) }));
}

/** The parameter that holds clicks. */
export const writeClicks = (clicks: readonly Click[]): Collection | '' => clicks.length === 0 ? '' : {
  type: 'FeatureCollection',
  features: clicks.map(({ at: [x, y], boundary }) => ({ type: 'Feature', properties: { boundary }, geometry: { type: 'Point', coordinates: [round(x), round(y)] } })),
};

/** How far a place lies from a line. */
export function distanceTo(line: readonly Place[], [x, y]: Place): number {
  let least = Infinity;
  for (let i = 0; i + 1 < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i]!, line[i + 1]!];
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return least;
}

/** The boundary nearest to a place; null when there is none. */
export function nearest(boundaries: readonly (readonly Place[])[], at: Place): { index: number; away: number } | null {
  return boundaries.map((line, index) => ({ index, away: distanceTo(line, at) })).reduce<{ index: number; away: number } | null>((a, b) => (a === null || b.away < a.away ? b : a), null);
}

/** Clicks with one more: of the boundary nearby, or of one that was not found. */
export function withClick(clicks: readonly Click[], boundaries: readonly (readonly Place[])[], at: Place, within: number): Click[] {
  const near = nearest(boundaries, at);
  return near !== null && near.away <= within ? withPin(clicks, boundaries, near.index, at) : [...clicks, { at, boundary: freshName(clicks) }];
}

/** Clicks with one more on a certain boundary, wherever it runs now. */
export function withPin(clicks: readonly Click[], boundaries: readonly (readonly Place[])[], index: number, at: Place): Click[] {
  const earlier = clicks.find((c) => nearest(boundaries, c.at)?.index === index);
  return [...clicks, { at, boundary: earlier?.boundary ?? freshName(clicks) }];
}

/** Where a line that runs from left to right stands at an x; its nearer end beyond its ends. */
export function heightAt(line: readonly Place[], x: number): number {
  const rising = line[0]![0] <= line[line.length - 1]![0] ? line : [...line].reverse();
  const after = rising.findIndex(([px]) => px >= x);
  if (after === 0) return rising[0]![1];
  if (after < 0) return rising[rising.length - 1]![1];
  const [[ax, ay], [bx, by]] = [rising[after - 1]!, rising[after]!];
  return bx === ax ? by : ay + ((x - ax) / (bx - ax)) * (by - ay);
}

/** What a boundary is called, counted from the lower edge. */
export const boundaryName = (index: number): string => (index === 0 ? 'lower edge of the section' : `top of layer ${index}`);

const round = (pixels: number): number => Math.round(pixels * 100) / 100;

const freshName = (clicks: readonly Click[]): string => {
  const taken = new Set(clicks.map((c) => c.boundary));
  let n = 1;
  while (taken.has(`b${n}`)) n++;
  return `b${n}`;
};
