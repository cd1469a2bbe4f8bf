// The one place where the plane's axes are turned for others.
// The plane: millimetres, origin at the upper left of the painted face, y down. OpenLayers: y up. People: from left and from the bottom edge.

/** A place on the plane, mm (or in a photograph, pixels): x right, y down. */
export type Place = readonly [x: number, y: number];

/** Left, top, right, bottom; mm or pixels, y down. */
export type Box = readonly [left: number, top: number, right: number, bottom: number];

/** A place as an OpenLayers coordinate. */
export const toMap = ([x, y]: Place): [number, number] => [x, y === 0 ? 0 : -y];

/** An OpenLayers coordinate as a place. */
export const fromMap = (coordinate: readonly number[]): Place => {
  const [x = 0, y = 0] = coordinate;
  return [x, y === 0 ? 0 : -y];
};

/** A box as an OpenLayers extent. */
export const toMapExtent = ([left, top, right, bottom]: Box): [number, number, number, number] => [left, -bottom, right, -top];

/** An OpenLayers extent as a box. */
export const fromMapExtent = ([left = 0, bottom = 0, right = 0, top = 0]: readonly number[]): Box => [left, -top, right, -bottom];

/** A place as people give it: mm from the left edge and from the bottom edge. */
export const fromEdges = ([x, y]: Place, heightMm: number): { fromLeft: number; fromBottom: number } =>
  ({ fromLeft: x, fromBottom: heightMm - y });

/** Nested GeoJSON coordinates turned between the plane and OpenLayers; the same both ways. */
export function flipCoordinates<T>(coordinates: T): T {
  if (!Array.isArray(coordinates)) return coordinates;
  if (typeof coordinates[0] === 'number') return toMap(coordinates as unknown as Place) as unknown as T;
  return coordinates.map(flipCoordinates) as unknown as T;
}
