// The link in the address bar: it reproduces view, layers, mode, contrast and the selected zone.
import type { Painting } from './api';
import { clampEdge, clampLoupe } from './compare';
import { mostClasses } from './marks';
import { readProfile, writeProfile } from './profileline';
import { readRelight, writeRelight } from './relightlamp';
import { initialState, layerOf, type Look, type Mode, modes, plainLook, type State } from './state';
import { readTreat, writeTreat } from './treatlink';

const keys = ['a', 'b', 'mode', 'edge', 'fade', 'loupe', 'at', 'mm', 'turn', 'zone', 'ground', 'teach', 'stretch', 'relight', 'profile', 'walk', 'treat'] as const;

/** Writes the state into a query, leaving out what is plain; parameters that are not ours stay. */
export function writeLink(state: State, painting: Painting, query: URLSearchParams): URLSearchParams {
  const result = new URLSearchParams(query);
  for (const key of keys) result.delete(key);
  if (state.a) result.set('a', writeLook(state.a, painting));
  if (state.b) result.set('b', writeLook(state.b, painting));
  if (state.mode !== initialState.mode) result.set('mode', state.mode);
  if (state.mode === 'divide') result.set('edge', short(state.edge, 4));
  if (state.mode === 'fade') result.set('fade', short(state.fade, 3));
  if (state.mode === 'loupe') result.set('loupe', String(state.loupe));
  if (state.view) {
    result.set('at', `${short(state.view.x, 3)},${short(state.view.y, 3)}`);
    result.set('mm', String(Number(state.view.mmPerPixel.toPrecision(6))));
    if (short(state.view.turn, 3) !== '0') result.set('turn', short(state.view.turn, 3));
  }
  if (state.zone) result.set('zone', state.zone);
  if (state.ground !== initialState.ground) result.set('ground', String(state.ground));
  if (state.teach !== null) result.set('teach', String(state.teach));
  if (state.stretch) result.set('stretch', '1');
  if (state.walk !== null) result.set('walk', state.walk);
  if (state.treat) result.set('treat', writeTreat(state.treat));
  if (state.profile && state.profile.line.length > 1) result.set('profile', writeProfile(state.profile));
  if (state.relight) result.set('relight', writeRelight(state.relight));
  return result;
}

/** Reads a state from a query. Layers the painting no longer has and nonsense are passed over. */
export function readLink(query: URLSearchParams, painting: Painting): Partial<State> {
  const state: Partial<State> = {};
  const a = readLook(query.get('a'), painting);
  const b = readLook(query.get('b'), painting);
  if (a) state.a = a;
  if (b) state.b = b;
  const mode = query.get('mode') as Mode;
  if (modes.includes(mode)) state.mode = mode;
  const number = (key: string, use: (value: number) => void): void => {
    const text = query.get(key);
    if (text && Number.isFinite(Number(text))) use(Number(text));
  };
  number('edge', (v) => (state.edge = clampEdge(v)));
  number('fade', (v) => (state.fade = Math.min(1, Math.max(0, v))));
  number('loupe', (v) => (state.loupe = clampLoupe(v)));
  number('ground', (v) => (state.ground = Math.min(100, Math.max(0, v))));
  const [x, y] = (query.get('at') ?? '').split(',').map((part) => (part === '' ? NaN : Number(part)));
  number('mm', (mmPerPixel) => {
    const turn = Number(query.get('turn') ?? 0);
    if (mmPerPixel > 0 && Number.isFinite(x) && Number.isFinite(y) && Number.isFinite(turn)) state.view = { x: x!, y: y!, mmPerPixel, turn };
  });
  number('teach', (v) => (state.teach = Math.min(mostClasses, Math.max(0, Math.round(v)))));
  if (query.get('stretch') === '1') state.stretch = true;
  const walk = query.get('walk');
  if (walk !== null) state.walk = walk;
  const treat = query.get('treat');
  if (treat !== null) state.treat = readTreat(treat);
  const profile = readProfile(query.get('profile') ?? '');
  if (profile) state.profile = profile;
  const relight = query.get('relight');
  if (relight !== null) state.relight = readRelight(relight);
  const zone = query.get('zone');
  if (zone) state.zone = zone;
  return state;
}

/** Layer, then only what differs from how it is first shown: `p-1~w10_200~g1.2~sgrey~i~m`. */
function writeLook(look: Look, painting: Painting): string {
  const layer = layerOf(painting, look.layer);
  const plain = layer ? plainLook(layer) : look;
  const parts = [look.layer];
  if (look.low !== plain.low || look.high !== plain.high) parts.push(`w${precise(look.low)}_${precise(look.high)}`);
  if (look.gamma !== 1) parts.push(`g${precise(look.gamma)}`);
  if (look.show !== plain.show) parts.push(`s${look.show}`);
  if (look.show.startsWith('ir:')) parts.push(`r${precise(look.irLow)}_${precise(look.irHigh)}`);
  if (look.invert) parts.push('i');
  if (look.mirror) parts.push('m');
  return parts.join('~');
}

function readLook(text: string | null, painting: Painting): Look | null {
  const [id, ...parts] = (text ?? '').split('~');
  const layer = layerOf(painting, id);
  if (!layer) return null;
  const look = plainLook(layer);
  for (const part of parts) {
    const rest = part.slice(1);
    const [low, high] = rest.split('_').map(Number);
    if (part[0] === 'w' && Number.isFinite(low) && Number.isFinite(high)) Object.assign(look, { low, high });
    else if (part[0] === 'r' && Number.isFinite(low) && Number.isFinite(high)) Object.assign(look, { irLow: low, irHigh: high });
    else if (part[0] === 'g' && Number(rest) > 0) look.gamma = Number(rest);
    else if (part[0] === 's') look.show = rest;
    else if (part === 'i') look.invert = true;
    else if (part === 'm') look.mirror = true;
  }
  return look;
}

const precise = (value: number): string => String(Number(value.toPrecision(9)));
const short = (value: number, digits: number): string => String(Number(value.toFixed(digits)) + 0);
