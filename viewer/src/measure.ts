// Measuring on the plane: a length, an angle, an area, each with its figure drawn beside it. Nothing of it is stored, unless a person says how long a line really is.
import type Feature from 'ol/Feature';
import type { FeatureLike } from 'ol/Feature';
import Draw from 'ol/interaction/Draw';
import VectorLayer from 'ol/layer/Vector';
import VectorSource from 'ol/source/Vector';
import { Fill, Stroke, Style, Text } from 'ol/style';
import type LineString from 'ol/geom/LineString';
import type Polygon from 'ol/geom/Polygon';
import { type Api, type Painting, Problem, type Run } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { Notices } from './notices';
import { fromMap, type Place } from './plane';
import { followRun, resizedText } from './runs';
import { angleOf, areaOf, lengthOf } from './shapes';
import { angleText, areaText, fixed, lengthText } from './units';
import { sketchStyle } from './zonelayer';

export type Measure = 'length' | 'angle' | 'area';

/** What is measured, in words; empty while there is nothing to measure yet. */
export function figureOf(feature: FeatureLike, measure: Measure): string {
  const geometry = feature.getGeometry();
  if (measure === 'area' && geometry?.getType() === 'Polygon') {
    const ring = (geometry as Polygon).getCoordinates()[0]!.map(fromMap);
    return ring.length > 3 ? areaText(areaOf(ring)) : '';
  }
  if (geometry?.getType() !== 'LineString') return '';
  const line = (geometry as LineString).getCoordinates().map(fromMap);
  if (measure === 'length') return line.length > 1 ? lengthText(lengthOf(line)) : '';
  if (line.length < 3) return '';
  const angle = angleOf(line[0]!, line[1]!, line[2]!);
  return angle === null ? '' : angleText(angle);
}

/** What a painting's size rests on, when nobody measured it whole; empty when somebody did. */
export const originText = (origin: string): string => ({
  distance: t('worked out from one measured distance'), ruler: t('worked out from a ruler in a photograph'), metadata: t('taken from a file, not measured'), assumed: t('assumed, not measured'),
})[origin] ?? '';

export class Measures {
  readonly source = new VectorSource();
  readonly layer = new VectorLayer({ source: this.source, style: measureStyle, updateWhileInteracting: true });

  private readonly told = el('p', { role: 'status', 'aria-live': 'polite' });

  /** The figures in words, for those who do not see the labels. */
  readonly element = el('section', { class: 'measured', 'aria-label': t('Measures'), hidden: true });

  constructor(private readonly painting: Painting, private readonly api: Api) {
    this.source.on(['addfeature', 'clear'] as never, () => this.list());
  }

  private list(): void {
    const features = this.source.getFeatures();
    this.element.hidden = features.length === 0;
    const origin = originText(this.painting.sizeOrigin);
    fill(this.element, el('h2', {}, t('Measured')),
      el('ul', {}, ...features.map((f) => el('li', {}, el('span', { class: 'value' }, figureOf(f, f.get('measure') as Measure)),
        // A pointer cannot be placed better than half a screen pixel.
        el('small', { class: 'quiet' }, t(' points placed to ±{0} mm', fixed((f.get('mmPerPixel') as number) / 2, 2))), this.distance(f)))),
      origin && el('p', { class: 'quiet' }, t("The painting's size is {0}: these figures are only as good as it.", origin)),
      el('button', { type: 'button', click: () => this.clear() }, t('Clear')), this.told);
  }

  /** Where a person says how long a straight line really is, measured on the object. */
  private distance(feature: Feature): HTMLElement | false {
    const line = feature.get('measure') === 'length' ? (feature.getGeometry() as LineString).getCoordinates().map(fromMap) : [];
    if (line.length !== 2) return false;
    const input = el('input', { type: 'number', min: '0', step: 'any', required: true });
    return el('form', { class: 'really', submit: (event: Event) => {
      event.preventDefault();
      void this.resize(line[0]!, line[1]!, input.valueAsNumber);
    } }, el('label', {}, t('This is really '), input, ' mm'), el('button', { type: 'submit', title: t("Corrects the painting's size by this distance and aligns every photograph again") }, t('Correct the size')));
  }

  private async resize(from: Place, to: Place, mm: number): Promise<void> {
    try {
      const { runIds } = await this.api.measuredDistance(this.painting.id, from, to, mm);
      const ended: Run[] = [];
      for (const [i, id] of runIds.entries()) ended.push(await followRun(this.api, id, () => fill(this.told, t('Aligning again, photograph {0} of {1}.', i + 1, runIds.length))));
      // The link's view is in the former millimetres.
      const link = new URL(location.href);
      for (const name of ['at', 'mm']) link.searchParams.delete(name);
      history.replaceState(null, '', link);
      Notices.reloadSaying(resizedText(ended));
    } catch (error) {
      fill(this.told, error instanceof Problem ? `${error.message} ${error.remedy}` : String(error));
    }
  }

  /** The interaction that draws one. */
  draw(measure: Measure, mmPerPixel: number): Draw {
    const draw = new Draw({
      source: this.source, type: measure === 'area' ? 'Polygon' : 'LineString', maxPoints: measure === 'angle' ? 3 : undefined,
      freehandCondition: () => false, style: (feature) => [...sketchStyle(), ...label(feature, measure)],
    });
    draw.on('drawstart', ({ feature }) => feature.setProperties({ measure, mmPerPixel }));
    return draw;
  }

  clear(): void {
    this.source.clear();
  }
}

function label(feature: FeatureLike, measure: Measure): Style[] {
  const text = figureOf(feature, measure);
  if (!text) return [];
  return [new Style({
    text: new Text({
      text, font: '600 14px "Source Sans 3", sans-serif', overflow: true, offsetY: -14, fill: new Fill({ color: '#000000' }),
      backgroundFill: new Fill({ color: '#ffffff' }), padding: [2, 5, 2, 5],
    }),
  })];
}

function measureStyle(feature: FeatureLike): Style[] {
  return [
    new Style({ stroke: new Stroke({ color: 'rgba(255, 255, 255, 0.9)', width: 4 }), fill: new Fill({ color: 'rgba(255, 255, 255, 0.15)' }) }),
    new Style({ stroke: new Stroke({ color: '#000000', width: 1.5 }) }),
    ...label(feature, feature.get('measure') as Measure),
  ];
}
