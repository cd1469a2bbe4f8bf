// Boundaries of layers over a micrograph: cased lines told apart by their dashes, a number in each layer, a cross at each click, what is drawn by hand thicker. No colour says anything.
import Feature from 'ol/Feature';
import LineString from 'ol/geom/LineString';
import Point from 'ol/geom/Point';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Fill, RegularShape, Stroke, Style, Text } from 'ol/style';
import { type Place, toMap } from './plane';
import { active, heightAt, type Step } from './steering';

/** Inner boundaries take turns; the surface and the lower edge are unbroken. */
const dashes = [[12, 6], [3, 5]];

/** Where along the section the layers' numbers stand: neighbours apart, so that those of thin layers do not lie over one another. */
const numbersAt = [0.04, 0.09, 0.14];

export class BoundaryLayer {
  private readonly source = new VectorSource();
  private readonly cursor = new Feature<LineString | Point>();

  /** A layer for one more pane; all show the same. */
  layer(): VectorLayer {
    return new VectorLayer({ source: this.source, zIndex: 2 });
  }

  /** Shows boundaries from the lower edge up, and the steps that steer them. */
  show(boundaries: readonly (readonly Place[])[], steps: readonly Step[]): void {
    this.source.clear(true);
    this.source.addFeatures([
      ...boundaries.map((line, i) => styled(new LineString(line.map(toMap)), lineStyle(i === 0 || i === boundaries.length - 1 ? undefined : dashes[i % dashes.length]))),
      ...boundaries.slice(1).map((top, i) => styled(new Point(toMap(middle(boundaries[i]!, top, numbersAt[i % numbersAt.length]!))), [numberStyle(i + 1)])),
      ...active(steps).map(({ kind, places }) => kind === 'stretch' ? styled(new LineString(places.map(toMap)), drawnStyle()) : styled(new Point(toMap(places[0]!)), crossStyle(6))),
    ]);
    if (this.cursor.getGeometry()) this.source.addFeature(this.cursor);
  }

  /** Marks the place that is entered in numbers, or the line; empty for none. */
  mark(places: readonly Place[]): void {
    if (this.source.hasFeature(this.cursor)) this.source.removeFeature(this.cursor);
    this.cursor.setGeometry(places.length === 0 ? undefined : places.length === 1 ? new Point(toMap(places[0]!)) : new LineString(places.map(toMap)));
    this.cursor.setStyle(places.length === 1 ? crossStyle(9) : drawnStyle());
    if (places.length > 0) this.source.addFeature(this.cursor);
  }
}

/** The middle of a layer at a share of its length. */
function middle(below: readonly Place[], above: readonly Place[], share: number): Place {
  const xs = above.map(([x]) => x);
  const x = Math.min(...xs) + share * (Math.max(...xs) - Math.min(...xs));
  return [x, (heightAt(below, x) + heightAt(above, x)) / 2];
}

function styled(geometry: LineString | Point, style: Style[]): Feature {
  const feature = new Feature<LineString | Point>(geometry);
  feature.setStyle(style);
  return feature;
}

const lineStyle = (lineDash?: number[]): Style[] => [
  new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: 3.5, lineDash, lineCap: 'butt' }) }),
  new Style({ stroke: new Stroke({ color: '#000000', width: 1.5, lineDash, lineCap: 'butt' }) }),
];

/** What a hand draws. */
export const drawnStyle = (): Style[] => [new Style({ stroke: new Stroke({ color: '#ffffff', width: 5 }) }), new Style({ stroke: new Stroke({ color: '#000000', width: 2.5 }) })];

const numberStyle = (number: number): Style => new Style({
  text: new Text({ text: String(number), font: '600 14px "Source Sans 3", sans-serif', fill: new Fill({ color: '#000000' }), stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.95)', width: 4 }), overflow: true }),
});

const crossStyle = (radius: number): Style[] => [[4, '#ffffff'], [1.75, '#000000']].map(([width, color]) => new Style({
  image: new RegularShape({ points: 4, radius, radius2: 0, angle: 0, stroke: new Stroke({ color: color as string, width: width as number }) }),
}));
