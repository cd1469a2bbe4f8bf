// The lamp that is moved by hand, and what a measured surface looks like under it. The plane's axes: x right, y down, z towards the viewer.
import { t } from './language';

export const shows = ['shade', 'albedo', 'over'] as const;
/** The surface as if it were of one colour; with its own; or its light and shade over what lies on A. */
export type Show = (typeof shows)[number];

export interface Relight {
  /** Degrees clockwise from the painting's top edge, 0 to 360. */
  azimuth: number;
  /** Degrees above the plane. */
  elevation: number;
  /** How many times slopes are exaggerated, 1 to 20. */
  times: number;
  /** How strong the gloss is, 0 to 1. */
  gloss: number;
  show: Show;
  /** The run whose surface is shown; null before it is known, or when there is none. */
  run: string | null;
}

type Vector = readonly [x: number, y: number, z: number];

export const initialRelight: Relight = { azimuth: 315, elevation: 20, times: 4, gloss: 0, show: 'shade', run: null };

/** Lower lamps would leave only the highest ridges lit. */
export const lowest = 2;
export const mostTimes = 20;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** The same with every number in its range; one that is none keeps what it was. */
export function tidied(wanted: Relight, before: Relight = initialRelight): Relight {
  const number = (value: number, or: number, low: number, high: number): number => clamp(Number.isFinite(value) ? value : or, low, high);
  const turns = Number.isFinite(wanted.azimuth) ? wanted.azimuth : before.azimuth;
  return {
    azimuth: ((turns % 360) + 360) % 360, elevation: number(wanted.elevation, before.elevation, lowest, 90), times: number(wanted.times, before.times, 1, mostTimes),
    gloss: number(wanted.gloss, before.gloss, 0, 1), show: shows.includes(wanted.show) ? wanted.show : before.show, run: wanted.run,
  };
}

/** Unit vector towards the lamp. */
export function towards({ azimuth, elevation }: Pick<Relight, 'azimuth' | 'elevation'>): Vector {
  const [a, e] = [radians(azimuth), radians(elevation)];
  return [Math.sin(a) * Math.cos(e), -Math.cos(a) * Math.cos(e), Math.sin(e)];
}

/** The lamp for a place in a round dial of radius 1, x right and y down: overhead in the middle, on the plane at the rim. `turn` is how far the view is turned, degrees clockwise. */
export function lampAt(x: number, y: number, turn: number): Pick<Relight, 'azimuth' | 'elevation'> {
  const azimuth = (Math.atan2(x, -y) * 180) / Math.PI - turn;
  return { azimuth: ((azimuth % 360) + 360) % 360, elevation: clamp(90 * (1 - Math.hypot(x, y)), lowest, 90) };
}

/** Where a lamp stands in the dial. */
export function placeOf({ azimuth, elevation }: Pick<Relight, 'azimuth' | 'elevation'>, turn: number): [x: number, y: number] {
  const [a, r] = [radians(azimuth + turn), 1 - elevation / 90];
  return [r * Math.sin(a), -r * Math.cos(a)];
}

/** Gamma of the screen, near enough: the shade is for looking, not a measurement. */
const gamma = 2.2;

/** Light of a level place, so that the screen shows it as middle grey whatever the lamp's elevation: as a photographer exposes. */
const level = 0.5 ** gamma;

/** How narrow the highlight is (Blinn's exponent): of a satin varnish, by the look of it; common practice, no source. */
const narrow = 30;

/** What the shader needs to know. `brightest` is the albedo that is shown white on a level place. */
export function relightVariables(relight: Relight, brightest: number): Record<string, number> {
  const { times, gloss, show } = relight;
  const [x, y, z] = towards(relight);
  // Half-way between lamp and viewer (Blinn, SIGGRAPH 1977, 192).
  const long = Math.hypot(x, y, z + 1);
  return {
    lampX: times * x, lampY: times * y, lampZ: z, square: times * times, less: times * times - 1, halfX: (times * x) / long, halfY: (times * y) / long, halfZ: (z + 1) / long,
    // Exposed for a level place, on which the light is z.
    plain: show === 'albedo' ? 0 : level / z, own: show === 'albedo' ? 1 / brightest / z : 0, gloss,
  };
}

type Expression = (string | number | Expression)[] | number;
const v = (name: string): Expression => ['var', name];
const [nx, ny, nz, own]: Expression[] = [1, 2, 3, 4].map((b) => ['band', b]) as [Expression, Expression, Expression, Expression];
const times = (a: Expression, b: Expression): Expression => ['*', a, b];

/** Lambert's shade of the exaggerated normal, (times x, times y, z) made a unit vector again, and Blinn's highlight. Band 4 holds the albedo, or less the grey of the hatch where nothing is known. */
export const relightColour: Expression = (() => {
  // x and y are what z leaves of 1: fewer looks into the texture.
  const long: Expression = ['sqrt', ['-', v('square'), times(v('less'), times(nz!, nz!))]];
  const along = (x: string, y: string, z: string): Expression =>
    ['clamp', ['/', ['+', ['+', times(nx!, v(x)), times(ny!, v(y))], times(nz!, v(z))], long], 0, 1];
  const light: Expression = times(['+', v('plain'), times(v('own'), own!)], along('lampX', 'lampY', 'lampZ'));
  const shine: Expression = times(v('gloss'), ['^', along('halfX', 'halfY', 'halfZ'), narrow]);
  const shown: Expression = ['^', ['clamp', ['+', light, shine], 0, 1], 1 / gamma];
  return ['color', times(255, ['case', ['>=', own!, 0], shown, times(-1, own!)]), 1];
})();

/** Greys of the hatch that stands where nothing is known: neither can be taken for light or shade of a surface. */
const hatch = [0.42, 0.58] as const;

/** Joins tiles of normals (x, y, coverage) and albedo (albedo, coverage) into what the shader reads. */
export function joinTiles(normals: Float32Array, albedo: Float32Array, tileSize: number): Float32Array {
  const joined = new Float32Array(tileSize * tileSize * 4);
  for (let p = 0, row = 0; row < tileSize; row++)
    for (let column = 0; column < tileSize; column++, p++) {
      const [x, y, known] = [normals[3 * p]!, normals[3 * p + 1]!, normals[3 * p + 2]! === 1 && albedo[2 * p + 1]! === 1];
      joined[4 * p] = known ? x : 0;
      joined[4 * p + 1] = known ? y : 0;
      joined[4 * p + 2] = known ? Math.sqrt(Math.max(0, 1 - x * x - y * y)) : 1;
      joined[4 * p + 3] = known ? albedo[2 * p]! : -hatch[(column + row) % 8 < 3 ? 1 : 0];
    }
  return joined;
}

const sides = [t('above'), t('the upper right'), t('the right'), t('the lower right'), t('below'), t('the lower left'), t('the left'), t('the upper left')];

/** Where the lamp stands, in words. */
export const lampText = ({ azimuth, elevation }: Pick<Relight, 'azimuth' | 'elevation'>): string =>
  elevation > 85 ? t('from the front') : t('from {0}', sides[Math.round(azimuth / 45) % 8]!);

/** A lamp in the link: azimuth, elevation, exaggeration, gloss, what is shown, of which run. */
export const writeRelight = ({ azimuth, elevation, times: t, gloss, show, run }: Relight): string =>
  [...[azimuth, elevation, t, gloss].map((n) => Number(n.toFixed(2))), show, ...(run === null ? [] : [run])].join('_');

/** Reads one from the link; what it does not say is as at first. */
export function readRelight(text: string): Relight {
  const [azimuth, elevation, t, gloss, show, run] = text.split('_');
  const number = (part: string | undefined): number => (part === undefined || part === '' ? NaN : Number(part));
  return tidied({ azimuth: number(azimuth), elevation: number(elevation), times: number(t), gloss: number(gloss), show: show as Show, run: run || null });
}
