// The painting's cleaning tests on the Easel: a square with the test's number, open while it is planned, full when it is done, crossed when it went further than planned.
import Feature from 'ol/Feature';
import Point from 'ol/geom/Point';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Fill, RegularShape, Stroke, Style, Text } from 'ol/style';
import type { CleaningSpot } from './api';
import { toMap } from './plane';

/** A layer of the tests whose place is known. */
export const spotLayer = (spots: CleaningSpot[]): VectorLayer => new VectorLayer({
  source: new VectorSource({ features: spots.map(placed) }),
  style: (feature) => spotStyle(feature.get('spot') as CleaningSpot),
});

function placed(spot: CleaningSpot): Feature {
  const feature = new Feature(new Point(toMap([spot.x, spot.y])));
  feature.setId(`test ${spot.id}`);
  feature.set('spot', spot);
  return feature;
}

const square = (radius: number, fill: string, line: string, width: number): RegularShape =>
  new RegularShape({ points: 4, radius, angle: Math.PI / 4, fill: new Fill({ color: fill }), stroke: new Stroke({ color: line, width }) });

const cross = (line: string, width: number): RegularShape =>
  new RegularShape({ points: 4, radius: 13, radius2: 0, angle: Math.PI / 4, stroke: new Stroke({ color: line, width }) });

const spotStyle = ({ number, isDone, wentFurther }: CleaningSpot): Style[] => [
  new Style({ image: square(10, '#ffffff', '#ffffff', 3) }),
  ...(wentFurther ? [new Style({ image: cross('#ffffff', 5) }), new Style({ image: cross('#000000', 2) })] : []),
  new Style({
    image: isDone ? square(8, '#000000', '#ffffff', 1.5) : square(8, '#ffffff', '#000000', 1.5),
    text: new Text({ text: `${number}`, font: '600 13px "Source Sans 3", sans-serif', offsetX: 13, textAlign: 'left', fill: new Fill({ color: '#000000' }), stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.85)', width: 4 }) }),
  }),
];
