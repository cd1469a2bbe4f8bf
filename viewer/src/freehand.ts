// A line drawn with the pointer in one go. With Alt the picture is moved instead.
import type LineString from 'ol/geom/LineString';
import Draw from 'ol/interaction/Draw';
import type { StyleFunction } from 'ol/style/Style';
import { fromMap, toMap } from './plane';
import { lengthOf, simplify } from './shapes';

/** The interaction; what it hands on has no more places than show on the screen. */
export function freehand(resolution: () => number, style: StyleFunction, drawn: (line: LineString) => void): Draw {
  const withoutAlt = (event: { originalEvent: Event }): boolean => !(event.originalEvent as MouseEvent).altKey;
  const draw = new Draw({ type: 'LineString', condition: withoutAlt, freehandCondition: withoutAlt, style, snapTolerance: 0 });
  draw.on('drawend', ({ feature }) => {
    const line = feature.getGeometry() as LineString;
    const places = line.getCoordinates().map(fromMap);
    if (lengthOf(places) === 0) return;
    line.setCoordinates(simplify(places, resolution() / 2).map(toMap));
    drawn(line);
  });
  return draw;
}
