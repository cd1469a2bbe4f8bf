// Arrows of what an alignment or a fit leaves, so that it is looked at before it is trusted. Far enlarged: true to scale nobody would see them.
import Feature from 'ol/Feature';
import LineString from 'ol/geom/LineString';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Stroke, Style } from 'ol/style';
import type { Residual } from './api';
import { type Place, toMap } from './plane';

/** How much longer than true an arrow is drawn. */
export const enlarged = 50;

/** An arrow's shaft and head as one line, mm on the plane: foot, tip, one barb, tip, the other. */
export function arrowLine({ place, residual }: Residual): Place[] {
  const [x, y] = place;
  const [dx, dy] = [residual[0] * enlarged, residual[1] * enlarged];
  const tip: Place = [x + dx, y + dy];
  const barb = (side: number): Place => [tip[0] - 0.25 * dx + side * 0.12 * dy, tip[1] - 0.25 * dy - side * 0.12 * dx];
  return [place, tip, barb(1), tip, barb(-1)];
}

export class ResidualArrows {
  readonly layer: VectorLayer;
  private readonly source = new VectorSource();

  constructor(width: number) {
    this.layer = new VectorLayer({
      source: this.source, zIndex: 4, updateWhileInteracting: true,
      style: [new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: width + 2 }) }), new Style({ stroke: new Stroke({ color: '#000000', width }) })],
    });
  }

  show(residuals: readonly Residual[]): void {
    this.source.clear();
    this.source.addFeatures(residuals.map((r) => new Feature(new LineString(arrowLine(r).map(toMap)))));
  }
}
