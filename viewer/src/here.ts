// "What is here": everything known at the place under the pointer, at a place that was kept, or over the selected zone.
import { type Api, type FindingHere, type Here, type HereLayer, isAbort, Lost, type Painting } from './api';
import { debounce, el, fill } from './dom';
import { kindOf } from './kinds';
import { zoneName } from './kindwords';
import { fromEdges, type Place } from './plane';
import { areaText, fixed, lengthText, nameText, placeText, valueText } from './units';
import type { LightConsistency, Zone, ZoneExtent } from './api';
import { counted, t } from './language';

const confidenceWords: Readonly<Record<FindingHere['confidence'], string>> = { certain: t('certain'), probable: t('probable'), possible: t('possible') };

type Subject = { place: Place } | { zone: Zone } | null;

export class HereColumn {
  readonly element = el('section', { class: 'here', 'aria-label': t('What is here') });
  private readonly heading = el('h2', {}, t('What is here'));
  private readonly where = el('p', { class: 'where' });
  private readonly body = el('div', { class: 'values' });
  private kept: Subject = null;
  private subject: Subject = null;
  private asking = new AbortController();
  private readonly askSoon = debounce(120, () => void this.ask());

  constructor(private readonly painting: Painting, private readonly api: Api, private readonly onZone: (zone: string) => void) {
    this.element.append(this.heading, this.where, this.body);
    this.show(null);
  }

  /** The pointer moved; a kept place or a selected zone stays until it is let go. */
  point(place: Place | null): void {
    if (this.kept === null) this.show(place === null || !this.onPainting(place) ? null : { place });
  }

  /** Keeps a place, a zone, or nothing. */
  keep(subject: Subject): void {
    this.kept = subject;
    this.show(subject);
  }

  private onPainting([x, y]: Place): boolean {
    return x >= 0 && y >= 0 && x <= this.painting.widthMm && y <= this.painting.heightMm;
  }

  private show(subject: Subject): void {
    this.subject = subject;
    this.asking.abort();
    this.element.classList.toggle('kept', this.kept !== null);
    if (subject === null) {
      fill(this.where, t('Point at a place on the painting, or select a zone.'));
      fill(this.body);
      return;
    }
    fill(this.where, ...('zone' in subject ? zoneWhere(subject.zone) : [placeText(fromEdges(subject.place, this.painting.heightMm)), this.kept && t(', kept')]));
    this.askSoon();
  }

  private async ask(): Promise<void> {
    const subject = this.subject;
    if (subject === null) return;
    this.asking = new AbortController();
    try {
      const here = 'zone' in subject
        ? await this.api.hereZone(this.painting.id, subject.zone.id, this.asking.signal)
        : await this.api.herePoint(this.painting.id, subject.place, this.asking.signal);
      if (subject !== this.subject) return;
      if ('zone' in subject) fill(this.where, ...zoneWhere(subject.zone, here.extent));
      this.answer(here, 'zone' in subject);
    } catch (error) {
      if (isAbort(error) || subject !== this.subject) return;
      fill(this.body, el('p', {}, error instanceof Lost ? t('The server does not answer.') : (error as Error).message));
    }
  }

  private answer(here: Here, isZone: boolean): void {
    const shared = new Map(here.overlaps?.map((o) => [o.zoneId, o]));
    const overlap = (id: string): string => (shared.get(id)?.areaMm2 ? t(', {0} in common, {1} %', areaText(shared.get(id)!.areaMm2), fixed(100 * shared.get(id)!.share, 0)) : '');
    fill(this.body,
      ...this.findingsHere(here),
      ...this.samplesNear(here),
      ...this.testsNear(here),
      here.layers.length === 0 && el('p', {}, t('No aligned photograph or reading covers this place.')),
      el('dl', {}, ...here.layers.flatMap((layer) => [el('dt', {}, el('b', {}, layer.light || t('Map')), ` ${layer.label}`), el('dd', {}, ...valuesOf(layer, this.painting.layers.find((l) => l.id === layer.layerId)?.classes))])),
      ...(here.consistentWith ?? []).map(consistency),
      here.zones.length > 0 && el('h3', {}, isZone ? t('Other zones here') : t('Zones here')),
      here.zones.length > 0 && el('ul', { class: 'zones' }, ...here.zones.map((z) => el('li', {},
        el('button', { type: 'button', click: () => this.onZone(z.id) }, `${kindOf(z.kind).code}  ${zoneName(z)}${overlap(z.id)}`)))),
      this.newSample());
  }

  /** What people state of this place comes first. */
  private findingsHere(here: Here): (Node | false)[] {
    const findings = here.findings ?? [];
    const told = (f: FindingHere): Node => el('li', {}, el('a', { href: `/paintings/${this.painting.id}/findings?finding=${f.id}` }, `${f.number} ${f.term || t('finding')}`), ' ', el('span', { class: 'written' }, f.observation),
      f.interpretation !== '' && el('span', { class: 'written' }, ` ${f.confidence === 'certain' ? '' : `${confidenceWords[f.confidence]}: `}${f.interpretation}`));
    return [findings.length > 0 && el('h3', {}, t('Findings here')), findings.length > 0 && el('ul', { class: 'findings' }, ...findings.map(told))];
  }

  /** Samples nearby come next: they say most, and are few. */
  private samplesNear(here: Here): (Node | false)[] {
    const near = here.samples ?? [];
    return [
      near.length > 0 && el('h3', {}, t('Samples near')),
      near.length > 0 && el('ul', { class: 'zones' }, ...near.map((s) => el('li', {}, el('a', { class: 'button', href: this.record(s.id) }, t('Sample {0}, {1} away', s.number, lengthText(s.distanceMm)))))),
    ];
  }

  private testsNear(here: Here): (Node | false)[] {
    const near = here.tests ?? [];
    return [
      near.length > 0 && el('h3', {}, t('Cleaning tests near')),
      near.length > 0 && el('ul', { class: 'zones' }, ...near.map((s) => el('li', {}, el('a', { class: 'button', href: this.test(s.id) }, t('Test {0}, {1}, {2} away', s.number, s.agent, lengthText(s.distanceMm)))))),
    ];
  }

  /** A place that is kept can become a sample's, or a test's. */
  private newSample(): Node | false {
    if (this.kept === null || !('place' in this.kept)) return false;
    const [x, y] = this.kept.place;
    return el('p', {}, el('a', { class: 'button', href: this.record(`new&x=${x.toFixed(2)}&y=${y.toFixed(2)}`) }, t('Record a sample taken here')), ' ',
      el('a', { class: 'button', href: `/paintings/${this.painting.id}/cleaning?x=${x.toFixed(2)}&y=${y.toFixed(2)}#test` }, t('Plan a cleaning test here')));
  }

  private test(id: string): string {
    return `/paintings/${this.painting.id}/cleaning?test=${id}#test`;
  }

  private record(sample: string): string {
    return `/paintings/${this.painting.id}/sections?sample=${sample}`;
  }
}

/** What one light is consistent with, closed at first; the cautions stand before the list. */
function consistency(of: LightConsistency): HTMLElement {
  const materials = (all: LightConsistency['candidates']): HTMLElement => el('ul', {}, ...all.map((c) => el('li', {}, el('b', {}, c.name), `: ${c.reason}. `, el('small', {}, c.source))));
  const list = (items: string[]): HTMLElement => el('ul', {}, ...items.map((item) => el('li', {}, item)));
  return el('details', { class: 'consistent' }, el('summary', {}, t('{0}: {1}. Consistent with {2}', of.light, of.seen, of.noAnswer === null ? counted(of.candidates.length, '{0} material', '{0} materials') : t('none named'))),
    of.noAnswer !== null && el('p', {}, of.noAnswer),
    el('p', { class: 'quiet' }, t('Bear in mind:')), list(of.cautions),
    of.candidates.length > 0 && el('p', { class: 'quiet' }, t('Those that agree best first:')),
    materials(of.candidates),
    of.inMixtures.length > 0 && el('p', { class: 'quiet' }, t('Not by themselves, for their visible colour, but perhaps in a mixture:')), materials(of.inMixtures));
}

/** A zone's size; once the server has answered, with what it may be off by, and its share of the painted face. */
function zoneWhere(zone: Zone, extent?: ZoneExtent): (Node | string)[] {
  const { type } = zone.geometry;
  const off = (value: number | null | undefined, text: string): string => (value === null || value === undefined ? '' : ` ± ${text}`);
  const digits = (share: number): number => (share < 0.1 ? 2 : 1);
  if (!type.endsWith('Polygon')) return [t('Over the zone {0}: {1}', zoneName(zone), type.endsWith('LineString') ? lengthText(zone.lengthMm) : t('a point'))];
  const area = `${areaText(extent?.areaMm2 ?? zone.areaMm2)}${off(extent?.areaUncertaintyMm2, areaText(extent?.areaUncertaintyMm2 ?? 0))}`;
  const share = extent && t(', {0}{1} % of the painted face', fixed(100 * extent.faceShare, digits(extent.faceShare)), off(extent.faceShareUncertainty, fixed(100 * (extent.faceShareUncertainty ?? 0), digits(extent.faceShare))));
  return [el('span', { title: extent?.note ?? '' }, t('Over the zone {0}: {1}{2}; {3} around', zoneName(zone), area, share ?? '', lengthText(zone.lengthMm)))];
}

/** The figures of one layer: band, value, and the unit once. */
function valuesOf(layer: HereLayer, classes: readonly string[] | null | undefined): (Node | string)[] {
  const figure = (name: string, ...value: (Node | string)[]): HTMLElement =>
    el('span', { class: 'figure' }, layer.bands.length > 1 ? el('span', { class: 'band' }, `${nameText(name)} `) : '', ...value);
  if (layer.mean) {
    const digits = layer.mean.every((m) => m === null || Math.abs(m) >= 100) ? 0 : 3;
    const round = (value: number | null | undefined): string => (value === null || value === undefined ? t('no data') : fixed(value, digits));
    return [
      ...layer.bands.map((band, i) => figure(band, round(layer.mean![i]), el('small', {}, t(' sd {0}', round(layer.sd?.[i]))))),
      el('span', { class: 'unit' }, `${nameText(layer.unit)}, n ${layer.n}`),
    ];
  }
  const named = (value: number | null | undefined): string => (value == null ? undefined : classes?.[value]) ?? valueText(value ?? null);
  return [...layer.bands.map((band, i) => figure(band, named(layer.values?.[i]))), el('span', { class: 'unit' }, nameText(layer.unit))];
}
