// The way from one view to another: out, across and in again, so that the eye keeps the thread. Van Wijk and Nuij, Smooth and efficient zooming
// and panning, InfoVis 2003, section 3: the shortest path in the space of places and widths.

/** A view: its middle and its width, in one unit. */
export interface Seen {
  x: number;
  y: number;
  width: number;
}

/** How much zooming is preferred to panning; the paper's users liked 1.42. */
const rho = Math.SQRT2;

/** Units of the path per second. */
const pace = 1.1;

export interface Flight {
  /** Seconds. */
  seconds: number;
  /** The view after a share of the way, 0 to 1; exact at both ends. */
  at(share: number): Seen;
}

/** The flight between two views. */
export function flight(from: Seen, to: Seen): Flight {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const distance = Math.hypot(dx, dy);
  // Where next to nothing is crossed the formula divides by it.
  const [length, path] = distance < 1e-6 * Math.max(from.width, to.width) ? zooming(from.width, to.width) : crossing(from.width, to.width, distance);
  return {
    seconds: length === 0 ? 0 : Math.min(4, Math.max(0.5, length / pace)),
    at: (share) => {
      if (share <= 0) return { ...from };
      if (share >= 1) return { ...to };
      const [width, crossed] = path(share * length);
      const part = distance > 0 ? crossed / distance : share;
      return { x: from.x + part * dx, y: from.y + part * dy, width };
    },
  };
}

type Path = (s: number) => [width: number, crossed: number];

function zooming(from: number, to: number): [number, Path] {
  const length = Math.abs(Math.log(to / from)) / rho;
  const towards = to < from ? -1 : 1;
  return [length, (s) => [from * Math.exp(towards * rho * s), 0]];
}

function crossing(from: number, to: number, distance: number): [number, Path] {
  const [w0, w1, u1] = [from, to, distance];
  const b = (w: number, sign: 1 | -1): number => (w1 * w1 - w0 * w0 + sign * rho ** 4 * u1 * u1) / (2 * w * rho * rho * u1);
  const r = (value: number): number => Math.log(Math.sqrt(value * value + 1) - value);
  const [r0, r1] = [r(b(w0, 1)), r(b(w1, -1))];
  return [(r1 - r0) / rho, (s) => [
    (w0 * Math.cosh(r0)) / Math.cosh(rho * s + r0),
    (w0 / rho / rho) * (Math.cosh(r0) * Math.tanh(rho * s + r0) - Math.sinh(r0)),
  ]];
}

/** A slow start and a slow end. */
export const eased = (share: number): number => share * share * (3 - 2 * share);
