// Zones as a walk shows them: their outline and name. A hatch would hide what the view is to show.
import Feature, { type FeatureLike } from 'ol/Feature';
import Point from 'ol/geom/Point';
import { Circle, Fill, Stroke, Style, Text } from 'ol/style';
import { kindOf } from './kinds';
import type { ShownZone } from './walkstep';
import { readShape } from './zonelayer';

/** A zone for OpenLayers. */
export function zoneFeature(zone: ShownZone): Feature {
  const feature = new Feature(readShape(zone.geometry));
  feature.setId(zone.id);
  feature.set('zone', zone);
  return feature;
}

/** How it is drawn: the outline of its kind, its name above it. */
export function walkZoneStyle(feature: FeatureLike): Style[] {
  const { name, kind: id } = feature.get('zone') as ShownZone;
  const kind = kindOf(id);
  const [left = 0, , right = 0, top = 0] = feature.getGeometry()!.getExtent();
  const dot = (radius: number, colour: string): Circle => new Circle({ radius, fill: new Fill({ color: colour }), stroke: new Stroke({ color: '#ffffff', width: 1 }) });
  return [
    new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: kind.width + 3 }), image: dot(7, '#ffffff') }),
    new Style({ stroke: new Stroke({ color: kind.colour, width: kind.width, lineDash: kind.dash, lineCap: 'butt' }), image: dot(5, kind.colour) }),
    new Style({
      geometry: new Point([(left + right) / 2, top]),
      text: new Text({ text: name, font: '600 15px "Source Sans 3", sans-serif', overflow: true, offsetY: -16, fill: new Fill({ color: '#000000' }), backgroundFill: new Fill({ color: '#ffffff' }), padding: [2, 6, 2, 6] }),
    }),
  ];
}
