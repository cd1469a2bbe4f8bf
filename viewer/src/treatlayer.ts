// Where a step of the treatment was done and where it is still to do: each by a hatch and an outline of its own, told apart without colour.
import Feature, { type FeatureLike } from 'ol/Feature';
import VectorLayer from 'ol/layer/Vector';
import type VectorSource from 'ol/source/Vector';
import { Fill, Stroke, Style } from 'ol/style';
import type { TreatPlaces } from './api';
import { type Kind, kindFrom } from './kinds';
import { halo, patternOf, readShape } from './zonelayer';

/** Below zones and measures, which are pressed. */
const below = -1;

/** A layer of the places in a source. */
export const placesLayer = (source: VectorSource): VectorLayer => new VectorLayer({ source, style: placeStyle, zIndex: below });

/** Puts the places of a day into the source. */
export function showPlaces(source: VectorSource, { features, looks }: TreatPlaces): void {
  source.clear();
  source.addFeatures(features.map(({ geometry, properties }) => {
    const feature = new Feature(readShape(geometry));
    feature.set('kind', kindFrom(looks[properties.state]));
    return feature;
  }));
}

function placeStyle(feature: FeatureLike): Style[] {
  const kind = feature.get('kind') as Kind;
  const pattern = patternOf(kind);
  return [
    new Style({ stroke: halo(kind.width + 3) }),
    new Style({ stroke: new Stroke({ color: kind.colour, width: kind.width, lineDash: kind.dash, lineCap: 'butt' }), fill: pattern ? new Fill({ color: pattern }) : undefined }),
  ];
}
