// Zones as OpenLayers draws them: hatch, outline and letter code of their kind; the selected one stands out by a halo.
import Feature, { type FeatureLike } from 'ol/Feature';
import GeoJSON from 'ol/format/GeoJSON';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Circle, Fill, Stroke, Style, Text } from 'ol/style';
import type Geometry from 'ol/geom/Geometry';
import type { Geometry as ZoneShape, Zone } from './api';
import type { FindingsOfZones } from './findings';
import { hatchPattern, type Kind } from './kinds';
import { zoneName } from './kindwords';
import { flipCoordinates } from './plane';
import type { ZoneStore } from './zonestore';

const format = new GeoJSON();
const font = (size: number): string => `600 ${size}px "Source Sans 3", sans-serif`;
export const halo = (width: number): Stroke => new Stroke({ color: 'rgba(255, 255, 255, 0.85)', width });

/** A zone's geometry for OpenLayers. */
export const readShape = (shape: ZoneShape): Geometry =>
  format.readGeometry({ type: shape.type, coordinates: flipCoordinates(shape.coordinates) }) as Geometry;

/** An OpenLayers geometry as it is stored: mm, y down, to a tenth of a micrometre. */
export function writeShape(geometry: Geometry): ZoneShape {
  const { type, coordinates } = format.writeGeometryObject(geometry, { decimals: 4 }) as ZoneShape;
  return { type, coordinates: flipCoordinates(coordinates) };
}

/** The source that follows the zones of the store. */
export function zoneSource(store: ZoneStore): VectorSource {
  const source = new VectorSource();
  store.on(() => {
    for (const feature of source.getFeatures()) if (!store.get(feature.getId() as string)) source.removeFeature(feature);
    for (const zone of store.all) follow(source, zone);
  });
  return source;
}

function follow(source: VectorSource, zone: Zone): void {
  let feature = source.getFeatureById(zone.id) as Feature | null;
  if (!feature) {
    feature = new Feature();
    feature.setId(zone.id);
    source.addFeature(feature);
  }
  // The stored shape always wins over what the pointer did: a refused change springs back.
  feature.setGeometry(readShape(zone.geometry));
  feature.set('zone', zone);
}

/** A layer that shows zones; `selected` says which one is. */
export const zoneLayer = (source: VectorSource, findings: FindingsOfZones, selected: () => string | null): VectorLayer =>
  new VectorLayer({ source, style: (feature) => zoneStyle(feature, findings, feature.getId() === selected()), updateWhileInteracting: true, updateWhileAnimating: true });

const patterns = new Map<string, CanvasPattern | null>();

/** The hatch of a kind as a fill, made once. */
export function patternOf(kind: Kind): CanvasPattern | null {
  const key = `${kind.key} ${devicePixelRatio}`;
  if (!patterns.has(key)) patterns.set(key, hatchPattern(kind, devicePixelRatio));
  return patterns.get(key)!;
}

function zoneStyle(feature: FeatureLike, findings: FindingsOfZones, selected: boolean): Style[] {
  const zone = feature.get('zone') as Zone;
  const [kind, code] = [findings.kind(zone), findings.code(zone)];
  const dash = zone.isCandidate ? [2, 6] : kind.dash;
  const label = selected ? `${code}  ${zoneName(zone)}` : code;
  const text = new Text({
    text: zone.isCandidate ? `${label} ?` : label, font: font(13), overflow: true, offsetY: zone.geometry.type === 'Polygon' ? 0 : -14,
    fill: new Fill({ color: '#000000' }), stroke: halo(4), backgroundFill: selected ? new Fill({ color: '#ffffff' }) : undefined, padding: [1, 4, 1, 4],
  });
  const pattern = patternOf(kind);
  const dot = (radius: number, fill: string, line: Stroke): Circle => new Circle({ radius, fill: new Fill({ color: fill }), stroke: line });
  return [
    new Style({ stroke: halo(kind.width + (selected ? 7 : 3)), image: dot(selected ? 9 : 6, '#ffffff', halo(2)) }),
    new Style({
      stroke: new Stroke({ color: kind.colour, width: kind.width, lineDash: dash, lineCap: 'butt' }),
      // An invisible fill, so that the inside can be clicked.
      fill: new Fill({ color: pattern && !zone.isCandidate ? pattern : 'rgba(255, 255, 255, 0.01)' }),
      image: dot(4, kind.colour, new Stroke({ color: '#ffffff', width: 1 })), text,
    }),
  ];
}

/** What is being drawn, and the handles of what is being changed. */
export const sketchStyle = (): Style[] => [
  new Style({ stroke: halo(4), fill: new Fill({ color: 'rgba(255, 255, 255, 0.15)' }), image: new Circle({ radius: 6, fill: new Fill({ color: '#ffffff' }) }) }),
  new Style({ stroke: new Stroke({ color: '#000000', width: 1.5, lineDash: [4, 4] }), image: new Circle({ radius: 4, fill: new Fill({ color: '#000000' }) }) }),
];
