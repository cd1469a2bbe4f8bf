// What the reading along a pull of the brush found, in sentences.
import type { Figure, Run } from './api';
import { t } from './language';
import { fixed } from './units';

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${fixed(Math.abs(value), digits)}`;
const sentence = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}${text.endsWith('.') ? '' : '.'}`;

/** A trend: how much per cm, how surely, and what that says; or why nothing can be said. */
function trend(word: string, figure: Figure | undefined, unit: string, digits: number, after: string): string[] {
  if (!figure) return [];
  if (figure.value === null) return [sentence(`${word}: ${figure.note ?? t('no answer')}`)];
  const off = figure.uncertainty === null ? '' : ` ± ${fixed(figure.uncertainty, digits)}`;
  return [sentence(t('{0}: {1}{2} {3} per cm, {4}{5}', word, signed(figure.value, digits), off, unit, figure.note ?? '', figure.note === 'falls' ? after : ''))];
}

/** The sentences for one line. */
export function pullSentences({ figures }: Pick<Run, 'figures'>): string[] {
  const of = (name: string): Figure | undefined => figures.find((f) => f.name === name);
  const [stops, period] = [of('stops'), of('period')];
  const rhythm = !period ? [] : period.value === null ? [sentence(t('Rhythm: {0}', (period.note ?? t('no answer')).replace(/^no rhythm: /, t('none; '))))]
    : [sentence(t('A stop every {0}{1} mm; {2}', fixed(period.value, 1), period.uncertainty === null ? '' : ` ± ${fixed(period.uncertainty, 1)}`, period.note ?? ''))];
  return [
    ...trend(t('Lightness'), of('lightness-trend'), 'L*', 1, ''),
    ...trend(t('Height'), of('relief-trend'), 'µm', 1, t(': consistent with paint that gives out, and with a surface that slopes')),
    ...(!stops ? [] : stops.value === null ? [sentence(t('Stops of the hand: {0}', stops.note ?? t('no answer')))] : [sentence(t('Stops of the hand: {0}', `${fixed(stops.value, 0)}${stops.note ? `, ${stops.note}` : ''}`))]),
    ...rhythm,
  ];
}
