import { describe, expect, it } from 'vitest';
import type { Appearance, Zone } from '../src/api';
import { FindingsOfZones } from '../src/findings';
import { kindGroups, kindOf, setKinds } from '../src/kinds';

const hatch: Appearance['hatch'] = { angle: 45, width: 4, height: 2, fine: [[[0, 1], [4, 1]]], bold: [] };
const appearance = (more: Partial<Appearance>): Appearance => ({ key: '', kind: '', category: 'condition', group: 'paint', name: '', code: '', ink: '#0072b2', outline: { dashes: [2, 1], widthMm: 0.5 }, hatch, hasOwnHatch: true, ...more });

describe('kinds', () => {
  setKinds([
    appearance({ key: 'note', kind: 'note', category: 'reading', group: 'note', name: 'Note', code: 'N' }), appearance({ key: 'paint/loss', kind: 'loss', name: 'loss', code: 'Lo' }),
    appearance({ key: 'paint/wear', name: 'wear', code: 'We', hasOwnHatch: false }), appearance({ key: 'clean/spot test', category: 'treatment', group: 'clean', name: 'spot test', code: 'Sx' }),
  ]);
  const zone = (id: string, kind: string): Zone => ({ id, kind }) as Zone;
  it('are found by the word of readings and by the key of terms, and stored under the word', () =>
    expect([kindOf('loss').id, kindOf('paint/loss').id, kindOf('paint/wear').id]).toEqual(['loss', 'loss', 'paint/wear']));
  it('that nobody knows are notes under their own word', () => expect([kindOf('seen by us').code, kindOf('seen by us').name]).toEqual(['N', 'seen by us']));
  it('are offered in groups, without what is done to a painting', () => expect([...kindGroups()].map(([group, kinds]) => [group, kinds.map((k) => k.code)])).toEqual([['notes and readings', ['N']], ['paint', ['Lo', 'We']]]));
  it('of zones that findings name are the findings’', () => {
    const findings = new FindingsOfZones();
    findings.take([{ id: 'b', content: { number: 7, term: '', zones: ['z'] } }, { id: 'a', content: { number: 3, term: 'paint/wear', zones: ['z', 'y'] } }]);
    expect([findings.code(zone('z', 'loss')), findings.kind(zone('y', 'loss')).key, findings.code(zone('x', 'loss'))]).toEqual(['3, 7 We', 'paint/wear', 'Lo']);
  });
});
