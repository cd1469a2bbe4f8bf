// The selected zone's name, kind and note; and the list of all zones.
import type { Zone } from './api';
import { el, fill } from './dom';
import type { FindingsOfZones } from './findings';
import { drawSwatch, type Kind, kindGroups, kindOf } from './kinds';
import { groupName, nameOf, zoneName } from './kindwords';
import { t } from './language';
import type { ZoneStore } from './zonestore';

export class ZonePanel {
  readonly element = el('section', { class: 'zonepanel', 'aria-label': t('Zones') });
  private readonly form = el('div');
  private readonly list = el('div');
  private shown = '';
  private fields: Field[] = [];

  constructor(private readonly painting: string, private readonly store: ZoneStore, private readonly findings: FindingsOfZones, private readonly selected: () => string | null, private readonly select: (zone: string | null) => void) {
    this.element.append(this.form, this.list);
    store.on(() => this.refresh());
  }

  /** Shows the selection as it is now. */
  refresh(): void {
    const zone = this.store.get(this.selected());
    const key = zone ? `${zone.id} ${zone.isCandidate}` : '';
    if (key !== this.shown) {
      this.shown = key;
      fill(this.form, zone ? this.formOf(zone) : null);
    } else if (zone) this.fields.forEach((field) => field.follow(zone));
    const zones = this.store.all;
    fill(this.list, el('h2', {}, zones.length === 0 ? t('No zones yet') : t('Zones ({0})', zones.length)),
      el('ul', { class: 'zones' }, ...zones.map((z) => el('li', {}, el('button', {
        type: 'button', 'aria-pressed': String(z.id === zone?.id), 'data-zone': z.id, click: () => this.select(z.id === zone?.id ? null : z.id),
      }, swatch(this.findings.kind(z)), el('b', {}, this.findings.code(z)), ` ${zoneName(z)}`, z.isCandidate && el('small', {}, t(' candidate')))))));
  }

  /** Brings the cursor into the name, ready to be written over. */
  focusName(): void {
    this.form.querySelector('input')?.select();
  }

  private formOf(zone: Zone): HTMLElement {
    const name = el('input', { type: 'text', required: true, maxlength: 200, change: () => name.value.trim() && void this.store.change(zone.id, { name: name.value }, t('name')) });
    const kind = el('select', { change: () => void this.store.change(zone.id, { kind: kind.value }, t('kind')) }, ...[...kindGroups()].map(([group, kinds]) => el('optgroup', { label: groupName(group) }, ...kinds.map((k) => el('option', { value: k.id }, `${k.code}  ${nameOf(k)}`)))));
    const note = el('textarea', { rows: 3, maxlength: 4000, change: () => void this.store.change(zone.id, { note: note.value }, t('note')) });
    const mark = el('span');
    this.fields = [
      new Field(name, (z) => z.name), new Field(note, (z) => z.note),
      new Field(kind, (z) => kindOf(z.kind).id, (z) => fill(mark, swatch(this.findings.kind(z)))),
    ];
    this.fields.forEach((field) => field.follow(zone));
    return el('div', { class: 'zoneform' },
      el('h2', {}, mark, t('This zone')),
      !zone.isCandidate && el('p', {}, el('a', { class: 'button', href: `/paintings/${this.painting}/findings?finding=new&zone=${zone.id}` }, t('Write a finding about it'))),
      el('label', {}, t('Name'), name), el('label', {}, t('Kind'), kind), el('label', {}, t('Note'), note),
      el('p', { class: 'quiet' }, t('Drag its corners to change it; with Alt drag the whole zone. Alt and click takes a corner away.')),
      el('button', { type: 'button', click: () => void this.store.remove(zone.id) }, t('Delete this zone')));
  }
}

/** One entry of the form. What is being written stays: storing another entry takes a moment, and brings back the zone as it was. */
class Field {
  private stored: string | null = null;

  constructor(private readonly entry: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement, private readonly valueOf: (zone: Zone) => string, private readonly onStored: (zone: Zone) => void = () => {}) {}

  /** Shows what is stored now, unless the person has written something else. */
  follow(zone: Zone): void {
    const value = this.valueOf(zone);
    if (this.stored === null || this.entry.value === this.stored) this.entry.value = value;
    this.stored = value;
    this.onStored(zone);
  }
}

/** A small picture of a kind's hatch and outline. */
function swatch(kind: Kind): HTMLElement {
  const canvas = el('canvas', { class: 'swatch', width: 48, height: 32, 'aria-hidden': 'true' });
  drawSwatch(canvas.getContext('2d')!, kind);
  return canvas;
}
