// The painting's samples on the Easel: a diamond with the sample's number at the place where it was taken.
import Feature from 'ol/Feature';
import Point from 'ol/geom/Point';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Fill, RegularShape, Stroke, Style, Text } from 'ol/style';
import type { Sample } from './api';
import { toMap } from './plane';

/** A layer of the samples whose place is known. */
export const sampleLayer = (samples: Sample[]): VectorLayer => new VectorLayer({
  source: new VectorSource({ features: samples.flatMap(placed) }),
  style: (feature) => sampleStyle(feature.get('number') as string),
});

function placed({ id, content: { number, x, y } }: Sample): Feature[] {
  if (x === null || y === null) return [];
  const feature = new Feature(new Point(toMap([x, y])));
  feature.setId(`sample ${id}`);
  feature.set('number', number);
  return [feature];
}

const diamond = (radius: number, fill: string, line: string, width: number): RegularShape =>
  new RegularShape({ points: 4, radius, fill: new Fill({ color: fill }), stroke: new Stroke({ color: line, width }) });

const sampleStyle = (number: string): Style[] => [
  new Style({ image: diamond(9, '#ffffff', '#ffffff', 3) }),
  new Style({
    image: diamond(8, '#000000', '#ffffff', 1.5),
    text: new Text({ text: number, font: '600 13px "Source Sans 3", sans-serif', offsetX: 13, textAlign: 'left', fill: new Fill({ color: '#000000' }), stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.85)', width: 4 }) }),
  }),
];
