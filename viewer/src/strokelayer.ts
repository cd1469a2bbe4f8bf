// Strokes to teach with, as OpenLayers draws them: a fine line with its class's number, and faintly how wide it counts, so that the paint under it is seen.
import Feature, { type FeatureLike } from 'ol/Feature';
import type Draw from 'ol/interaction/Draw';
import Point from 'ol/geom/Point';
import type Geometry from 'ol/geom/Geometry';
import type LineString from 'ol/geom/LineString';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Fill, Stroke, Style, Text } from 'ol/style';
import type { Sheet } from './api';
import { freehand } from './freehand';
import { appearances } from './hatching';
import { readShape } from './zonelayer';

/** What strokes look like needs the sheet as it is now, and which stroke and class are chosen. */
export interface Chosen {
  readonly sheet: Sheet;
  readonly stroke: number | null;
  readonly pen: number;
}

export class StrokeLayer {
  private readonly source = new VectorSource();
  readonly layers = [0, 1].map(() => new VectorLayer({ source: this.source, zIndex: 2, visible: false, style: (f, resolution) => this.styleOf(f, resolution) })) as [VectorLayer, VectorLayer];

  constructor(private readonly chosen: () => Chosen) {}

  setVisible(visible: boolean): void {
    this.layers.forEach((l) => l.setVisible(visible));
  }

  /** Draws the strokes of the sheet as it is now. */
  refresh(): void {
    this.source.clear(true);
    this.source.addFeatures(this.chosen().sheet.marks.features.map((mark, i) => new Feature({ geometry: readShape(mark.geometry), mark: i })));
  }

  /** The mark that a feature shows; undefined when it shows none. */
  static markOf = (feature: FeatureLike): number | undefined => feature.get('mark') as number | undefined;

  /** The interaction that draws a stroke. */
  draw(resolution: () => number, drawn: (line: LineString) => void): Draw {
    return freehand(resolution, (f, r) => this.sketch(f, r), drawn);
  }

  private sketch(feature: FeatureLike, resolution: number): Style[] {
    return feature.getGeometry()?.getType() === 'LineString' ? this.lines(this.chosen().pen, resolution, true) : [];
  }

  private styleOf(feature: FeatureLike, resolution: number): Style[] {
    const { sheet, stroke } = this.chosen();
    const mark = StrokeLayer.markOf(feature)!;
    const index = sheet.classes.indexOf(sheet.marks.features[mark]?.properties.class ?? '');
    if (index < 0) return [];
    const selected = mark === stroke;
    return [...this.lines(index, resolution, selected), new Style({
      geometry: (f) => new Point(startOf(f.getGeometry() as Geometry)),
      text: new Text({
        text: String(index + 1), font: '600 12px "Source Sans 3", sans-serif', offsetX: -8, offsetY: -8, fill: new Fill({ color: selected ? '#ffffff' : '#000000' }),
        stroke: selected ? undefined : new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: 4 }), backgroundFill: selected ? new Fill({ color: '#000000' }) : undefined, padding: [1, 3, 0, 3],
      }),
    })];
  }

  private lines(index: number, resolution: number, selected: boolean): Style[] {
    const { sheet } = this.chosen();
    const { colour } = appearances(sheet.classes)[index]!;
    return [
      new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.3)', width: Math.max(3, sheet.strokeWidth / resolution) }), fill: new Fill({ color: 'rgba(255, 255, 255, 0.2)' }) }),
      new Style({ stroke: new Stroke({ color: '#ffffff', width: selected ? 6 : 3.5 }) }),
      new Style({ stroke: new Stroke({ color: selected ? '#000000' : colour, width: selected ? 3 : 1.75 }) }),
    ];
  }
}

const startOf = (geometry: Geometry): number[] => {
  const flat = (geometry as LineString).getFlatCoordinates();
  return [flat[0]!, flat[1]!];
};
