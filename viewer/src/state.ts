// What is on the Easel: everything that the link in the address bar reproduces.
import type { Layer, Painting } from './api';
import type { ProfileLine } from './profileline';
import type { Relight } from './relightlamp';
import type { Treat } from './treatlink';

export const modes = ['alone', 'beside', 'divide', 'fade', 'loupe'] as const;
export type Mode = (typeof modes)[number];
export type Side = 'a' | 'b';

/** How one layer is shown. */
export interface Look {
  layer: string;
  /** Contrast window in the layer's own unit: `low` is shown black, `high` white. */
  low: number;
  high: number;
  gamma: number;
  /** 'colour', 'grey', 'band:0' (one channel), or 'ir:LAYER' for infrared false colour with that infrared layer. */
  show: string;
  /** The infrared layer's window in false colour. */
  irLow: number;
  irHigh: number;
  invert: boolean;
  mirror: boolean;
}

/** Centre in mm (y down), mm per screen pixel, degrees clockwise. */
export interface View {
  x: number;
  y: number;
  mmPerPixel: number;
  turn: number;
}

export interface State {
  a: Look | null;
  b: Look | null;
  mode: Mode;
  /** Where the movable edge lies, 0 left to 1 right. */
  edge: number;
  /** How much of B is seen, 0 to 1. */
  fade: number;
  /** Radius of the loupe, screen pixels. */
  loupe: number;
  view: View | null;
  /** Id of the selected zone. */
  zone: string | null;
  /** Lightness L* of the ground. */
  ground: number;
  /** While marks are made: number of the class whose probability is shown, 0 for none; null when the tool is put down. */
  teach: number | null;
  /** The lamp that is moved over the measured surface; null while the surface is not shown. */
  relight: Relight | null;
  /** The line along which the height is read; null while nobody reads one. */
  profile: ProfileLine | null;
  /** Whether the window of components and stretches is open. */
  stretch: boolean;
  /** Id of the walk that is being written, empty before one is chosen; null while the panel is put away. */
  walk: string | null;
  /** The step of the treatment whose places are shown, and the day; null while none is. */
  treat: Treat | null;
}

export const initialState: State = { a: null, b: null, mode: 'alone', edge: 0.5, fade: 0.5, loupe: 120, view: null, zone: null, ground: 50, teach: null, relight: null, profile: null, stretch: false, walk: null, treat: null };

/** Holds the state and tells listeners which keys changed. */
export class Store {
  private listeners: ((state: State, changed: ReadonlySet<keyof State>) => void)[] = [];
  constructor(private state: State) {}

  get now(): State {
    return this.state;
  }

  set(patch: Partial<State>): void {
    const changed = new Set((Object.keys(patch) as (keyof State)[]).filter((k) => this.state[k] !== patch[k]));
    if (changed.size === 0) return;
    this.state = { ...this.state, ...patch };
    for (const listener of this.listeners) listener(this.state, changed);
  }

  on(listener: (state: State, changed: ReadonlySet<keyof State>) => void): void {
    this.listeners.push(listener);
  }
}

/** The window a layer is first shown with: colour photographs as they were taken, so that colours can be judged; single bands as the server suggests. */
const plainWindow = ({ bands, format, fullScale, low, high }: Layer): [number, number] =>
  bands.length >= 3 && format !== 'f32' ? [0, fullScale] : [low, high];

/** A layer as it is first shown. */
export const plainLook = (layer: Layer): Look => ({
  layer: layer.id, low: plainWindow(layer)[0], high: plainWindow(layer)[1], gamma: 1, show: layer.bands.length >= 3 ? 'colour' : 'band:0',
  irLow: 0, irHigh: 1, invert: false, mirror: false,
});

/** The layer of a look, if the painting still has it. */
export const layerOf = (painting: Painting, id: string | null | undefined): Layer | undefined => painting.layers.find((l) => l.id === id);
