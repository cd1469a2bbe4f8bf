// Figures of components and of a decorrelation stretch, as tables and sentences.
import type { Figure, Run } from './api';
import { t } from './language';
import { fixed } from './units';

export interface Table {
  head: string[];
  rows: { name: string; cells: string[]; strong: boolean[] }[];
}

const plain = (name: string): string => name.replace(/\.(tiff?|png|jpe?g)\b/gi, '');
const named = (run: Pick<Run, 'figures'>, name: string): Figure[] => run.figures.filter((f) => f.name === name);
const percent = (value: number | null | undefined): string => (value === null || value === undefined ? t('not said') : `${fixed(100 * value, value < 0.1 ? 1 : 0)} %`);

/** A loading is shown strong from here: the component then holds half of the band's variance. */
const strongest = Math.SQRT1_2;

/** Loadings of each band in each component; NaN where there is none. */
function loadingsOf(run: Pick<Run, 'figures'>): { components: string[]; bands: { name: string; values: number[] }[] } {
  const loadings = named(run, 'loading').map((f) => ({ component: (f.subject ?? '').split(': ')[0]!, band: plain((f.subject ?? '').split(': ').slice(1).join(': ')), value: f.value }));
  const components = [...new Set(loadings.map((l) => l.component))];
  const names = [...new Set(loadings.map((l) => l.band))];
  return { components, bands: names.map((name) => ({ name, values: components.map((c) => loadings.find((l) => l.component === c && l.band === name)?.value ?? NaN) })) };
}

const number = (component: string): string => component.replace('component ', '');

/** Loadings: bands down, components across; above them how much of the variance each holds and how much of it is noise. */
export function loadingTable(run: Pick<Run, 'figures'>): Table {
  const { components, bands } = loadingsOf(run);
  const row = (name: string, cell: (component: string) => string): Table['rows'][number] => ({ name, cells: components.map(cell), strong: components.map(() => false) });
  const share = named(run, 'variance-share');
  const noise = named(run, 'noise-fraction');
  return {
    head: ['', ...components.map(number)],
    rows: [
      ...(share.length > 0 ? [row(t('Share of variance'), (c) => percent(share.find((f) => f.subject === c)?.value))] : []),
      ...(noise.length > 0 ? [row(t('of it noise'), (c) => percent(noise.find((f) => f.subject === c)?.value))] : []),
      ...bands.map(({ name, values }) => ({ name, cells: values.map((v) => fixed(v, 2).replace('-', '−')), strong: values.map((v) => Math.abs(v) >= strongest) })),
    ],
  };
}

/** What each component is, in a sentence: the bands that it shows, and those that it shows inverted. */
export function loadingWords(run: Pick<Run, 'figures'>): string[] {
  const { components, bands } = loadingsOf(run);
  return components.map(number).map((component, k) => {
    const value = (i: number): number => Number(bands[i]!.values[k]!.toFixed(2));
    const strong = bands.flatMap((_, i) => (Math.abs(value(i)) >= 0.3 ? [i] : [])).sort((i, j) => Math.abs(value(j)) - Math.abs(value(i))).slice(0, 4);
    const list = (sign: 1 | -1): string => strong.filter((i) => Math.sign(value(i)) === sign).map((i) => bands[i]!.name).join(', ');
    const [with_, against] = [list(1), list(-1)];
    return t('Component {0} {1}{2}.', component, with_ ? t('shows {0}', with_) : t('shows little of any band'), against ? t('; inverted {0}', against) : '');
  });
}

/** Directions of a decorrelation stretch: how much of the variance each held before, and how far it was raised. */
export function stretchTable(run: Pick<Run, 'figures'>): Table {
  const directions = named(run, 'variance-share').map((f) => f.subject ?? '');
  const of = (name: string, d: string): number | null => named(run, name).find((f) => f.subject === d)?.value ?? null;
  return {
    head: ['', t('share of variance before'), t('raised'), t('noise')],
    rows: directions.map((d) => ({ name: d.slice(0, 1).toUpperCase() + d.slice(1), cells: [percent(of('variance-share', d)), `${fixed(of('gain', d) ?? NaN, 1)} ×`, percent(of('noise-fraction', d))], strong: [false, false, false] })),
  };
}

/** Which band is shown in which colour. */
export const shownAs = (run: Pick<Run, 'figures'>): string => named(run, 'band-mean').map((f) => plain(f.subject ?? '')).join('; ');
