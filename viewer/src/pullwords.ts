// What the reading along a pull of the brush found, in sentences.
import type { Figure, Run } from './api';
import { fixed } from './units';

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${fixed(Math.abs(value), digits)}`;
const sentence = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}${text.endsWith('.') ? '' : '.'}`;

/** A trend: how much per cm, how surely, and what that says; or why nothing can be said. */
function trend(word: string, figure: Figure | undefined, unit: string, digits: number, after: string): string[] {
  if (!figure) return [];
  if (figure.value === null) return [sentence(`${word}: ${figure.note ?? 'no answer'}`)];
  const off = figure.uncertainty === null ? '' : ` ± ${fixed(figure.uncertainty, digits)}`;
  return [sentence(`${word}: ${signed(figure.value, digits)}${off} ${unit} per cm, ${figure.note ?? ''}${figure.note === 'falls' ? after : ''}`)];
}

/** The sentences for one line. */
export function pullSentences({ figures }: Pick<Run, 'figures'>): string[] {
  const of = (name: string): Figure | undefined => figures.find((f) => f.name === name);
  const [stops, period] = [of('stops'), of('period')];
  const rhythm = !period ? [] : period.value === null ? [sentence(`Rhythm: ${(period.note ?? 'no answer').replace(/^no rhythm: /, 'none; ')}`)]
    : [sentence(`A stop every ${fixed(period.value, 1)}${period.uncertainty === null ? '' : ` ± ${fixed(period.uncertainty, 1)}`} mm; ${period.note ?? ''}`)];
  return [
    ...trend('Lightness', of('lightness-trend'), 'L*', 1, ''),
    ...trend('Height', of('relief-trend'), 'µm', 1, ': consistent with paint that gives out, and with a surface that slopes'),
    ...(!stops ? [] : stops.value === null ? [sentence(`Stops of the hand: ${stops.note ?? 'no answer'}`)] : [sentence(`Stops of the hand: ${fixed(stops.value, 0)}${stops.note ? `, ${stops.note}` : ''}`)]),
    ...rhythm,
  ];
}
