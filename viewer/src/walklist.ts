// A walk as it is written: its list of views, and the way between a view and what is on the Easel. No browser, so that it can be tested without one.
import type { Painting } from './api';
import { t } from './language';
import { initialRelight, lowest } from './relightlamp';
import { layerOf, plainLook, type Look, type Mode, type State } from './state';
import { resolutionFor, widthSeen } from './walkstep';

/** A view as the record keeps it; lengths in mm, y down. */
export interface WalkStep {
  id: string;
  title: string;
  caption: string;
  x: number;
  y: number;
  widthMm: number;
  layerA: string;
  layerB: string | null;
  compare: Mode;
  amount: number;
  lampAzimuth: number | null;
  lampElevation: number | null;
  zones: string[];
}

export interface WalkContent {
  title: string;
  language: string;
  steps: WalkStep[];
}

export interface Walk {
  id: string;
  revision: number;
  content: WalkContent;
}

/** What of a view the Easel decides; the words and zones stay a person's. */
export type Seen = Omit<WalkStep, 'id' | 'title' | 'caption' | 'zones'>;

interface Pane {
  width: number;
  height: number;
}

const surface = /^r-([0-9a-f-]{36})-normals$/;

/** What is on the Easel as a view; null when nothing is. `pane` is the size of A, screen pixels. */
export function seenNow(state: State, pane: Pane): Seen | null {
  const { a, b, mode, view, relight } = state;
  if (!a || !view) return null;
  const lit = relight?.run ? relight : null;
  const compare = b ? mode : 'alone';
  return {
    x: round(view.x), y: round(view.y), widthMm: round(widthSeen(view.mmPerPixel, pane)), layerA: lit && lit.show !== 'over' ? `r-${lit.run}-normals` : a.layer, layerB: compare === 'alone' ? null : b!.layer, compare,
    amount: mode === 'fade' ? state.fade : state.edge, lampAzimuth: lit ? round(lit.azimuth) : null, lampElevation: lit ? Math.max(lowest, round(lit.elevation)) : null,
  };
}

/** What the Easel must show for a view. What it names and the painting no longer has is left as it is, and told. */
export function shown(step: WalkStep, state: State, painting: Painting, pane: Pane): { patch: Partial<State>; missing: string[] } {
  const missing: string[] = [];
  const run = surface.exec(step.layerA)?.[1] ?? null;
  const look = (now: Look | null, id: string): Look | null => {
    const layer = layerOf(painting, id);
    if (!layer) missing.push(id);
    return layer ? (now?.layer === id ? now : plainLook(layer)) : now;
  };
  // A surface lies over A, whatever that is.
  if (run && !layerOf(painting, step.layerA)) missing.push(step.layerA);
  const a = run ? state.a : look(state.a, step.layerA);
  const b = step.layerB === null ? state.b : look(state.b, step.layerB);
  const lamp = step.lampAzimuth !== null && step.lampElevation !== null ? { azimuth: step.lampAzimuth, elevation: step.lampElevation } : null;
  return {
    missing,
    patch: {
      a, b, mode: b ? step.compare : 'alone', ...(step.compare === 'fade' ? { fade: step.amount } : step.compare === 'divide' ? { edge: step.amount } : {}),
      view: { x: step.x, y: step.y, mmPerPixel: resolutionFor(step.widthMm, pane), turn: 0 },
      relight: lamp || run ? { ...initialRelight, ...lamp, show: run ? 'shade' : 'over', run } : null,
    },
  };
}

/** The list with one view moved by so many places, staying within it. */
export function moved(steps: readonly WalkStep[], id: string, by: number): WalkStep[] {
  const from = steps.findIndex((s) => s.id === id);
  if (from < 0) return [...steps];
  const rest = steps.filter((s) => s.id !== id);
  rest.splice(Math.min(rest.length, Math.max(0, from + by)), 0, steps[from]!);
  return rest;
}

/** The list with one view put before another, or last. */
export function putBefore(steps: readonly WalkStep[], id: string, before: string | null): WalkStep[] {
  const [from, to] = [steps.findIndex((s) => s.id === id), before === null ? steps.length : steps.findIndex((s) => s.id === before)];
  return from < 0 || to < 0 ? [...steps] : moved(steps, id, to > from ? to - from - 1 : to - from);
}

/** The list with one view added behind another, or last. */
export function added(steps: readonly WalkStep[], step: WalkStep, behind: string | null): WalkStep[] {
  const at = steps.findIndex((s) => s.id === behind);
  return at < 0 ? [...steps, step] : [...steps.slice(0, at + 1), step, ...steps.slice(at + 1)];
}

/** The list with one view changed. */
export const changed = (steps: readonly WalkStep[], id: string, patch: Partial<WalkStep>): WalkStep[] => steps.map((s) => (s.id === id ? { ...s, ...patch } : s));

/** What a view is called in the list. */
export const nameOf = ({ title, caption }: Pick<WalkStep, 'title' | 'caption'>): string => title || caption.split('\n')[0]!.slice(0, 60) || t('without words');

const round = (value: number): number => Number(value.toFixed(3));
