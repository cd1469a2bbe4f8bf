// Steering boundaries of layers: which boundary a click or a drawn line means, and the document of steps that the reading takes. Places in pixels of the micrograph in visible light, y down.
import { t } from './language';
import type { Place } from './plane';

/** A step: a place through which a boundary passes, a stretch along which it runs, or a place at which it is taken out. Steps of one boundary have one name, until it is taken out. */
export interface Step {
  readonly kind: 'click' | 'stretch' | 'removal';
  readonly boundary: string;
  readonly places: readonly Place[];
  /** A place on the boundary that is meant, where the step lies away from it. */
  readonly meant?: Place;
}

/** A boundary by its number, counted from the lower edge; null for one that was not found. */
export type Meant = number | null;

interface Feature {
  type: 'Feature';
  properties: { boundary: string; edit?: 'remove'; meant?: Place };
  geometry: { type: 'Point'; coordinates: Place } | { type: 'LineString'; coordinates: Place[] };
}

interface Collection {
  type: 'FeatureCollection';
  features: Feature[];
}

/** The steps in a run's parameter; an empty text holds none. */
export function readSteps(text: string | undefined): Step[] {
  if (!text) return [];
  return (JSON.parse(text) as { features: (Omit<Feature, 'properties'> & { properties?: { boundary?: unknown; edit?: string; meant?: Place } | null })[] }).features.map(({ properties, geometry }, i) => ({
    kind: properties?.edit === 'remove' ? 'removal' : geometry.type === 'LineString' ? 'stretch' : 'click',
    boundary: String(properties?.boundary ?? `step ${i + 1}`),
    places: geometry.type === 'LineString' ? geometry.coordinates : [geometry.coordinates],
    ...(properties?.meant && { meant: properties.meant }),
  }));
}

/** The parameter that holds steps. */
export const writeSteps = (steps: readonly Step[]): Collection | '' => steps.length === 0 ? '' : {
  type: 'FeatureCollection',
  features: steps.map(({ kind, boundary, places, meant }) => ({
    type: 'Feature',
    properties: { boundary, ...(kind === 'removal' && { edit: 'remove' as const }), ...(meant && { meant: rounded(meant) }) },
    geometry: kind === 'stretch' ? { type: 'LineString', coordinates: places.map(rounded) } : { type: 'Point', coordinates: rounded(places[0]!) },
  })),
};

/** Steps that still hold: those of a boundary that was taken out do not. */
export const active = (steps: readonly Step[]): Step[] =>
  steps.filter((s, i) => s.kind !== 'removal' && !steps.slice(i + 1).some((later) => later.kind === 'removal' && later.boundary === s.boundary));

/** The place of a line that is nearest to a place. */
export function nearestOn(line: readonly Place[], [x, y]: Place): Place {
  let [best, least]: [Place, number] = [line[0]!, Infinity];
  for (let i = 0; i + 1 < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i]!, line[i + 1]!];
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    const at: Place = [ax + t * dx, ay + t * dy];
    const away = Math.hypot(x - at[0], y - at[1]);
    if (away < least) [best, least] = [at, away];
  }
  return best;
}

/** The boundary nearest to a place; null when there is none. */
export function nearest(boundaries: readonly (readonly Place[])[], at: Place): { index: number; away: number } | null {
  return boundaries.map((line, index) => ({ index, away: apart(nearestOn(line, at), at) })).reduce<{ index: number; away: number } | null>((a, b) => (a === null || b.away < a.away ? b : a), null);
}

/** The boundary that a click or the ends of a line mean: the nearest within so many pixels, that of a line's beginning first. */
export function meantBy(boundaries: readonly (readonly Place[])[], places: readonly Place[], within: number): Meant {
  for (const at of [places[0]!, places[places.length - 1]!]) {
    const near = nearest(boundaries, at);
    if (near !== null && near.away <= within) return near.index;
  }
  return null;
}

/** Steps with one more, of the boundary that is meant wherever it runs now, or of one that was not found. */
export function withStep(steps: readonly Step[], boundaries: readonly (readonly Place[])[], meant: Meant, kind: Step['kind'], places: readonly Place[]): Step[] {
  if (meant === null) return [...steps, { kind, boundary: freshName(steps), places }];
  const boundary = active(steps).find((s) => nearest(boundaries, s.places[0]!)?.index === meant)?.boundary ?? freshName(steps);
  const on = nearestOn(boundaries[meant]!, places[0]!);
  return [...steps, kind === 'removal' ? { kind, boundary, places: [on] } : { kind, boundary, places, meant: on }];
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
export const boundaryName = (index: number): string => (index === 0 ? t('lower edge of the section') : t('top of layer {0}', index));

/** A step in words. */
export function stepWords({ kind, places }: Step): string {
  const [first, last] = [places[0]!, places[places.length - 1]!].map(([x, y]) => `${Math.round(x)}, ${Math.round(y)}`) as [string, string];
  if (kind === 'stretch') return t('drawn from {0} to {1} px', first, last);
  return kind === 'removal' ? t('boundary taken out at {0} px', first) : t('click at {0} px', first);
}

/** Places as people type them, one a line: from left and from top. Null where a line is something else. */
export function placesIn(text: string): Place[] | null {
  const lines = text.split('\n').map((l) => l.trim()).filter((l) => l !== '').map((l) => l.split(/[\s,;]+/).map(Number));
  return lines.every((l) => l.length === 2 && l.every(Number.isFinite)) ? lines.map(([x, y]) => [x!, y!]) : null;
}

/** Places as `placesIn` reads them. */
export const placesText = (places: readonly Place[]): string => places.map(([x, y]) => `${round(x)} ${round(y)}`).join('\n');

const apart = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const round = (pixels: number): number => Math.round(pixels * 100) / 100;

const rounded = ([x, y]: Place): Place => [round(x), round(y)];

const freshName = (steps: readonly Step[]): string => {
  const taken = new Set(steps.map((s) => s.boundary));
  let n = 1;
  while (taken.has(`b${n}`)) n++;
  return `b${n}`;
};
