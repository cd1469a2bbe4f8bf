// A step of a walk as it is shown, whatever shows it: on the server's page or in an exported folder.
import type { Geometry } from './api';
import { t } from './language';
import type { Mode } from './state';

/** A zone that a walk shows. */
export interface ShownZone {
  id: string;
  name: string;
  kind: string;
  geometry: Geometry;
}

/** One view. */
export interface ShownStep {
  title: string;
  caption: string;
  /** Middle, mm, y down. */
  x: number;
  y: number;
  widthMm: number;
  /** Keys of the pictures: on A, on B, and the light and shade that lies over A. */
  a: string;
  b: string | null;
  over: string | null;
  mode: Mode;
  /** Place of the edge, or share of B, 0 to 1. */
  amount: number;
  zones: string[];
  /** What is no longer there, in words. */
  notes: string[];
}

/** A walk, or a painting without one, as it is shown. */
export interface ShownWalk {
  title: string;
  language: string;
  pictures: { key: string; label: string }[];
  zones: ShownZone[];
  steps: ShownStep[];
}

/** Height of a view for its width: an authors' window is about so broad, and no other may hide what she saw. */
const tall = 10 / 16;

/** mm a screen pixel, so that a view so many mm wide is seen whole in a pane. */
export const resolutionFor = (widthMm: number, pane: { width: number; height: number }): number => Math.max(widthMm / pane.width, (widthMm * tall) / pane.height);

/** The width that is seen in a pane, the other way round: what an author would have to write down. */
export const widthSeen = (mmPerPixel: number, pane: { width: number; height: number }): number => mmPerPixel * Math.min(pane.width, pane.height / tall);

/** "3 of 7". */
export const countText = (index: number, all: number): string => t('{0} of {1}', index + 1, all);

/** What is seen, in words: for the light's name on the screen, and for those who do not see the picture. */
export function picturesText(step: Pick<ShownStep, 'a' | 'b' | 'over' | 'mode'>, pictures: readonly { key: string; label: string }[]): string {
  const name = (key: string | null): string => pictures.find((p) => p.key === key)?.label ?? '';
  const over = name(step.over);
  const a = over === '' ? name(step.a) : t('{0}; over it the {1}{2}', name(step.a), over[0]!.toLowerCase(), over.slice(1));
  if (step.b === null || step.mode === 'alone') return a;
  const b = name(step.b);
  switch (step.mode) {
    case 'beside': return t('{0} (left), {1} (right)', a, b);
    case 'divide': return t('{0} (left of the edge), {1} (right of it)', a, b);
    case 'fade': return t('{0}, with {1} over it', a, b);
    case 'loupe': return t('{0}, with {1} in the round', a, b);
  }
}
