// A line on a photograph, in its own pixels, for a reading that measures along one: drawn and moved here, then handed to the reading's form.
import Feature from 'ol/Feature';
import LineString from 'ol/geom/LineString';
import Point from 'ol/geom/Point';
import { Circle, Fill, Stroke, Style, Text } from 'ol/style';
import type { Api, Layer, Painting } from './api';
import { el, fill } from './dom';
import { Handles } from './handles';
import { t } from './language';
import { formLink, type LineAsked, lineOf, scaleOf, withLine, withScale } from './lineasked';
import { Notices } from './notices';
import type { Place } from './plane';
import { lengthOf } from './shapes';
import { button } from './toolbar';
import { figures, fixed } from './units';
import { halo } from './zonelayer';

/** What the ends are called for a reading, what it does, and whether it can be told how large a pixel is. */
const words: Record<string, { ends: [string, string]; help: string; act: string; scaled?: true }> = {
  'ring-widths': { ends: [t('Oldest ring'), t('Youngest ring')], act: t('Rings along this line'), scaled: true, help: t('Draw the line across the rings, from the oldest to the youngest: from the pith towards the bark. It should meet them at about a right angle, and cross neither cracks nor knots.') },
};
const plain: (typeof words)[string] = { ends: [t('Beginning of the line'), t('End of the line')], act: t('Use this line'), help: t('Draw the line along which the reading is to measure.') };

/** Opens the line of one photograph. */
export async function openLine(main: HTMLElement, painting: Painting, asked: LineAsked, api: Api): Promise<void> {
  const layer = await api.layer(`o-${asked.photograph}`);
  new LinePage(main, painting, layer, asked, api).show();
}

class LinePage {
  private readonly notices = new Notices(() => location.reload());
  private readonly mm = el('input', { type: 'number', min: 0, step: 'any', required: true, class: 'number' });
  private readonly scaled = el('p', { class: 'quiet', role: 'status', 'aria-live': 'polite' });
  private readonly said = el('p', { role: 'status', 'aria-live': 'polite' });
  private readonly use: HTMLAnchorElement;
  private readonly handles: Handles;
  private readonly words;
  private points: readonly Place[];
  private query: URLSearchParams;

  constructor(private readonly main: HTMLElement, painting: Painting, private readonly layer: Layer, { reading, query }: LineAsked, api: Api) {
    api.onReach = (reached) => this.notices.reach(reached);
    this.words = Object.hasOwn(words, reading) ? words[reading]! : plain;
    this.query = query;
    this.points = lineOf(query, layer);
    this.use = el('a', { class: 'button', href: '#' }, this.words.act);
    const ends = this.words.ends.map((name) => ({ name, says: (at: string): string => t('{0} at {1}. Arrow keys move it.', name, at) }));
    this.handles = new Handles(layer, painting, api, this.notices, t('{0}: a line to measure along', layer.label), ends, this.points, (moved) => this.moved(moved), lineStyle(this.words.ends));
  }

  show(): void {
    fill(this.main,
      el('div', { class: 'centre' },
        el('div', { class: 'toolbar' }, el('a', { class: 'button', href: location.pathname }, t('Back to the Easel')), this.use,
          button(t('Draw a line'), t('Press where the line begins, then where it ends; Esc gives it up'), () => this.handles.draw()),
          button(t('Turn it round'), t('The line begins where it ended'), () => this.handles.set([...this.points].reverse())), this.handles.undoing),
        el('div', { class: 'frame' }, this.handles.stage, this.notices.element)),
      el('section', { class: 'column loupes', 'aria-label': t('Line') },
        el('p', {}, this.words.help), el('p', { class: 'quiet' }, t('Drag an end, or focus its loupe and use the arrow keys; with Shift ten pixels, with Alt a tenth.')),
        el('div', { class: 'fourfold' }, ...this.handles.loupes.map((l) => l.element)), this.said, this.words.scaled && this.ruler()));
    this.main.classList.add('easel', 'corners');
    this.handles.begin();
  }

  /** A line along a ruler in the photograph tells how large a pixel is. */
  private ruler(): HTMLElement {
    const given = (event: Event): void => {
      event.preventDefault();
      this.ask(withScale(this.query, this.points, this.mm.valueAsNumber));
    };
    return el('form', { class: 'really', submit: given }, el('p', {}, t('The photograph needs a scale. Where it states none, put the line along a ruler in it first:')),
      el('label', {}, t('This is really '), this.mm, ' mm'), el('button', { type: 'submit' }, t('Take it as the scale')), this.scaled);
  }

  private moved(points: readonly Place[]): void {
    this.points = points;
    this.said.textContent = t('{0} px long.', fixed(lengthOf(points), 0));
    this.ask(withLine(this.query, points, this.layer));
  }

  /** The link holds all that is asked, and so does the way to the form. */
  private ask(query: URLSearchParams): void {
    this.query = query;
    const mm = scaleOf(query);
    this.scaled.textContent = mm === null ? t("The photograph's own scale is taken.") : t('{0} mm a pixel.', figures(mm, 4));
    history.replaceState(history.state, '', `${location.pathname}?${query}`);
    this.use.href = formLink(query);
  }
}

/** The line with its ends named, so that its direction is seen. */
const lineStyle = (names: [string, string]) => (feature: unknown): Style[] => {
  const places = ((feature as Feature).getGeometry() as LineString).getCoordinates();
  return [
    new Style({ stroke: halo(4) }), new Style({ stroke: new Stroke({ color: '#000000', width: 1.5 }) }),
    ...places.map((at, i) => new Style({
      geometry: new Point(at), image: new Circle({ radius: 6, fill: new Fill({ color: i === 0 ? '#000000' : '#ffffff' }), stroke: new Stroke({ color: i === 0 ? '#ffffff' : '#000000', width: 2 }) }),
      text: new Text({ text: names[i], font: '600 14px "Source Sans 3", sans-serif', offsetY: -18, fill: new Fill({ color: '#000000' }), backgroundFill: new Fill({ color: '#ffffff' }), padding: [2, 5, 2, 5] }),
    })),
  ];
};
