// The reliability plot: what was said against what was right, on marks that were held out. Bars from the diagonal; each as broad as its share of the marks asks.
import type { TaughtQuality } from './api';
import { svg } from './dom';
import { t } from './language';
import { reliabilityText } from './teachwords';
import { fixed } from './units';

const side = 128;
const margin = { left: 38, bottom: 30, top: 8, right: 8 };

/** Draws the plot; a sentence says the same to those who do not see it. */
export function reliabilityPlot({ reliability }: TaughtQuality): SVGElement {
  const [across, up] = [(v: number): number => margin.left + v * side, (v: number): number => margin.top + (1 - v) * side];
  const tick = (v: number): SVGElement[] => [
    svg('line', { x1: across(v), x2: across(v), y1: up(0), y2: up(0) + 3 }), svg('text', { x: across(v), y: up(0) + 14, 'text-anchor': 'middle' }, fixed(v, 1)),
    svg('line', { x1: across(0) - 3, x2: across(0), y1: up(v), y2: up(v) }), svg('text', { x: across(0) - 6, y: up(v) + 4, 'text-anchor': 'end' }, fixed(v, 1)),
  ];
  const label = t('Reliability: {0}.', reliabilityText(reliability));
  return svg('svg', { class: 'reliability', viewBox: `0 0 ${margin.left + side + margin.right} ${margin.top + side + margin.bottom}`, role: 'img', 'aria-label': label },
    svg('rect', { x: across(0), y: up(1), width: side, height: side, class: 'ground' }),
    svg('line', { x1: across(0), y1: up(0), x2: across(1), y2: up(1), class: 'exact' }),
    ...[0, 0.5, 1].flatMap(tick),
    ...reliability.map((b) => svg('line', { x1: across(b.said), x2: across(b.said), y1: up(b.said), y2: up(b.right), class: 'off' })),
    ...reliability.map((b) => svg('circle', { cx: across(b.said), cy: up(b.right), r: 2 + 6 * Math.sqrt(b.weight) }, svg('title', {}, reliabilityText([b])))),
    svg('text', { x: across(0.5), y: up(0) + 27, 'text-anchor': 'middle' }, t('said')),
    svg('text', { x: 8, y: up(0.5), 'text-anchor': 'middle', transform: `rotate(-90 8 ${up(0.5)})` }, t('right')));
}
