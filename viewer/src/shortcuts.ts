// The Easel's keys for layers, comparing and the view.
import type { Layer } from './api';
import { clampEdge, clampLoupe } from './compare';
import { nextGround } from './ground';
import { digitOf, key, type Key, sign } from './keys';
import { t } from './language';
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
    ({ keys: keys.toUpperCase(), says, group: t('Compare'), match: key(keys), act: () => act.mode(mode) });
  const digit = (event: KeyboardEvent): void => {
    const layer = layers[digitOf(event)! - 1];
    if (layer) act.choose(event.shiftKey ? 'b' : 'a', layer);
  };
  return [
    { keys: t('1 to 9'), says: t('that layer of the strip on A'), group: t('Layers'), match: (e) => digitOf(e) !== null && !e.shiftKey, act: digit },
    { keys: t('Shift+1 to 9'), says: t('that layer on B'), group: t('Layers'), match: (e) => digitOf(e) !== null && e.shiftKey, act: digit },
    { keys: 'X', says: t('exchange A and B'), group: t('Layers'), match: key('x'), act: () => act.swap() },
    { keys: 'C', says: t('contrast, channels'), group: t('Layers'), match: key('c'), act: () => act.contrast() },
    { keys: 'W', says: t('components and stretches of several layers'), group: t('Layers'), match: key('w'), act: () => act.stretch() },
    { keys: 'I', says: t('invert A'), group: t('Layers'), match: key('i'), act: () => patchA({ invert: !store.now.a?.invert }) },
    { keys: 'M', says: t('mirror A left to right'), group: t('Layers'), match: key('m'), act: () => patchA({ mirror: !store.now.a?.mirror }) },
    modeKey('s', 'alone', t('A alone')), modeKey('b', 'beside', t('beside')), modeKey('d', 'divide', t('divide')), modeKey('f', 'fade', t('fade')), modeKey('l', 'loupe', t('loupe')),
    { keys: t('[ and ]'), says: t('move the edge, fade, size of the loupe (also Alt and the wheel)'), group: t('Compare'), match: sign('[', ']'), act: (e) => shift(store, e.key === ']' ? 1 : -1) },
    { keys: '← ↑ → ↓', says: t('move; with Shift further'), group: t('View'), match: arrow('ArrowLeft'), act: pan(-1, 0) },
    { keys: '', says: '', group: '', match: arrow('ArrowRight'), act: pan(1, 0) },
    { keys: '', says: '', group: '', match: arrow('ArrowUp'), act: pan(0, -1) },
    { keys: '', says: '', group: '', match: arrow('ArrowDown'), act: pan(0, 1) },
    { keys: t('+ and −'), says: t('closer, further'), group: t('View'), match: sign('+', '=', '-'), act: (e) => stage.zoom(e.key === '-' ? -0.5 : 0.5) },
    { keys: 'H', says: t('whole painting, upright'), group: t('View'), match: key('h'), act: () => stage.whole() },
    { keys: 'Z', says: t('one pixel on one pixel'), group: t('View'), match: key('z'), act: () => act.onePixel() },
    { keys: 'R', says: t('turn a quarter right; with Shift left'), group: t('View'), match: sign('r', 'R'), act: (e) => act.turn(e.shiftKey ? -90 : 90) },
    { keys: t(', and .'), says: t('turn by one degree'), group: t('View'), match: sign(',', '.'), act: (e) => act.turn(e.key === '.' ? 1 : -1) },
    { keys: 'G', says: t('ground lighter; with Shift darker'), group: t('View'), match: sign('g', 'G'), act: (e) => store.set({ ground: nextGround(store.now.ground, e.shiftKey ? -1 : 1) }) },
    { keys: '?', says: t('this list'), group: t('View'), match: sign('?'), act: () => act.keys() },
  ];
}

/** Moves whatever the way of comparing can move. */
function shift(store: Store, direction: 1 | -1): void {
  const { mode, edge, fade, loupe } = store.now;
  if (mode === 'divide') store.set({ edge: clampEdge(edge + direction * 0.02) });
  if (mode === 'fade') store.set({ fade: Math.min(1, Math.max(0, fade + direction * 0.05)) });
  if (mode === 'loupe') store.set({ loupe: clampLoupe(loupe * 1.1 ** direction) });
}
