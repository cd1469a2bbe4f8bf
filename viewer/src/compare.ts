// How A and B share the stage. Pure geometry in screen pixels, so that it can be tested without a browser.
import type { Mode } from './state';

/** A rectangle on the stage, screen pixels. */
export interface Rect {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** Where each pane lies and what of B shows. `clip` is a CSS clip-path. */
export interface Layout {
  a: Rect;
  b: Rect | null;
  clip: string;
  opacity: number;
}

export interface Comparing {
  mode: Mode;
  edge: number;
  fade: number;
  loupe: number;
}

/** Lays out the panes on a stage of this size, the pointer at these stage pixels. */
export function layOut({ mode, edge, fade, loupe }: Comparing, width: number, height: number, pointer: readonly [number, number]): Layout {
  const whole: Rect = { left: 0, top: 0, width, height };
  switch (mode) {
    case 'alone':
      return { a: whole, b: null, clip: 'none', opacity: 1 };
    case 'beside': {
      const left = Math.floor((width - 2) / 2);
      return {
        a: { left: 0, top: 0, width: left, height },
        b: { left: left + 2, top: 0, width: width - left - 2, height },
        clip: 'none', opacity: 1,
      };
    }
    case 'divide':
      return { a: whole, b: whole, clip: `inset(0px 0px 0px ${edgeAt(edge, width)}px)`, opacity: 1 };
    case 'fade':
      return { a: whole, b: whole, clip: 'none', opacity: fade };
    case 'loupe':
      return { a: whole, b: whole, clip: `circle(${loupe}px at ${pointer[0]}px ${pointer[1]}px)`, opacity: 1 };
  }
}

/** The movable edge's place, whole pixels from the left. */
export const edgeAt = (edge: number, width: number): number => Math.round(edge * width);

/** Keeps the edge where it can still be taken hold of. */
export const clampEdge = (edge: number): number => Math.min(0.98, Math.max(0.02, edge));

/** Keeps the loupe between a finger's breadth and most of a screen. */
export const clampLoupe = (radius: number): number => Math.min(600, Math.max(30, Math.round(radius)));
