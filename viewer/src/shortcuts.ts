// The Easel's keys for layers, comparing and the view.
import type { Layer } from './api';
import { clampEdge, clampLoupe } from './compare';
import { nextGround } from './ground';
import { digitOf, key, type Key, sign } from './keys';
import type { Stage } from './stage';
import type { Look, Mode, Side, Store } from './state';
import type { ToolbarActions } from './toolbar';

export interface ShortcutActions extends ToolbarActions {
  choose(side: Side, layer: Layer): void;
}

/** The list. `layers` are what the number keys count. */
export function shortcuts(store: Store, stage: Stage, layers: readonly Layer[], act: ShortcutActions): Key[] {
  const patchA = (patch: Partial<Look>): void => {
    if (store.now.a) store.set({ a: { ...store.now.a, ...patch } });
  };
  const pan = (dx: number, dy: number) => (event: KeyboardEvent): void => stage.pan(dx, dy, event.shiftKey ? 4 : 1);
  const arrow = (name: string) => (event: KeyboardEvent): boolean => event.key === name && !event.ctrlKey && !event.altKey;
  const modeKey = (keys: string, mode: Mode, says: string): Key =>
    ({ keys: keys.toUpperCase(), says, group: 'Compare', match: key(keys), act: () => act.mode(mode) });
  const digit = (event: KeyboardEvent): void => {
    const layer = layers[digitOf(event)! - 1];
    if (layer) act.choose(event.shiftKey ? 'b' : 'a', layer);
  };
  return [
    { keys: '1 to 9', says: 'that layer of the strip on A', group: 'Layers', match: (e) => digitOf(e) !== null && !e.shiftKey, act: digit },
    { keys: 'Shift+1 to 9', says: 'that layer on B', group: 'Layers', match: (e) => digitOf(e) !== null && e.shiftKey, act: digit },
    { keys: 'X', says: 'exchange A and B', group: 'Layers', match: key('x'), act: () => act.swap() },
    { keys: 'C', says: 'contrast, channels', group: 'Layers', match: key('c'), act: () => act.contrast() },
    { keys: 'W', says: 'components and stretches of several layers', group: 'Layers', match: key('w'), act: () => act.stretch() },
    { keys: 'I', says: 'invert A', group: 'Layers', match: key('i'), act: () => patchA({ invert: !store.now.a?.invert }) },
    { keys: 'M', says: 'mirror A left to right', group: 'Layers', match: key('m'), act: () => patchA({ mirror: !store.now.a?.mirror }) },
    modeKey('s', 'alone', 'A alone'), modeKey('b', 'beside', 'beside'), modeKey('d', 'divide', 'divide'), modeKey('f', 'fade', 'fade'), modeKey('l', 'loupe', 'loupe'),
    { keys: '[ and ]', says: 'move the edge, fade, size of the loupe (also Alt and the wheel)', group: 'Compare', match: sign('[', ']'), act: (e) => shift(store, e.key === ']' ? 1 : -1) },
    { keys: '← ↑ → ↓', says: 'move; with Shift further', group: 'View', match: arrow('ArrowLeft'), act: pan(-1, 0) },
    { keys: '', says: '', group: '', match: arrow('ArrowRight'), act: pan(1, 0) },
    { keys: '', says: '', group: '', match: arrow('ArrowUp'), act: pan(0, -1) },
    { keys: '', says: '', group: '', match: arrow('ArrowDown'), act: pan(0, 1) },
    { keys: '+ and −', says: 'closer, further', group: 'View', match: sign('+', '=', '-'), act: (e) => stage.zoom(e.key === '-' ? -0.5 : 0.5) },
    { keys: 'H', says: 'whole painting, upright', group: 'View', match: key('h'), act: () => stage.whole() },
    { keys: 'Z', says: 'one pixel on one pixel', group: 'View', match: key('z'), act: () => act.onePixel() },
    { keys: 'R', says: 'turn a quarter right; with Shift left', group: 'View', match: sign('r', 'R'), act: (e) => act.turn(e.shiftKey ? -90 : 90) },
    { keys: ', and .', says: 'turn by one degree', group: 'View', match: sign(',', '.'), act: (e) => act.turn(e.key === '.' ? 1 : -1) },
    { keys: 'G', says: 'ground lighter; with Shift darker', group: 'View', match: sign('g', 'G'), act: (e) => store.set({ ground: nextGround(store.now.ground, e.shiftKey ? -1 : 1) }) },
    { keys: '?', says: 'this list', group: 'View', match: sign('?'), act: () => act.keys() },
  ];
}

/** Moves whatever the way of comparing can move. */
function shift(store: Store, direction: 1 | -1): void {
  const { mode, edge, fade, loupe } = store.now;
  if (mode === 'divide') store.set({ edge: clampEdge(edge + direction * 0.02) });
  if (mode === 'fade') store.set({ fade: Math.min(1, Math.max(0, fade + direction * 0.05)) });
  if (mode === 'loupe') store.set({ loupe: clampLoupe(loupe * 1.1 ** direction) });
}
