// What a run measured of a section's layers, in the words and numbers of the Sections page.
import type { MeasuredLayer, Run } from './api';
import { t } from './language';
import { fixed } from './units';

export interface LayerRow {
  /** Its number; of a sublayer with its letter. */
  readonly number: string;
  readonly thickness: string;
  readonly spread: string;
  readonly coverage: string;
  readonly seen: string;
  readonly grains: string;
}

/** A value and its uncertainty, both to the uncertainty's second figure. */
export function withUncertainty(value: number, uncertainty: number | null): string {
  if (uncertainty === null || !(uncertainty > 0)) return fixed(value, 1);
  const digits = Math.max(0, Math.min(4, 1 - Math.floor(Math.log10(uncertainty))));
  return `${fixed(value, digits)} ± ${fixed(uncertainty, digits)}`;
}

/** Measured layers, the uppermost first, each followed by its sublayers. */
export const layerRows = (measured: readonly MeasuredLayer[]): LayerRow[] => [...measured]
  .sort((a, b) => b.number - a.number || Number(a.part !== '') - Number(b.part !== '') || (a.part < b.part ? 1 : -1)).map(row);

function row({ number, part, unit, mean, uncertainty, deviation, low, high, range, coverage, places, colour, luminescence, grains }: MeasuredLayer): LayerRow {
  return {
    number: `${number}${part}`,
    thickness: mean === null ? t('not measured') : `${withUncertainty(mean, uncertainty)} ${unit}`,
    spread: low === null || high === null ? '' : t('{0} to {1} {2}, {3}; sd {4}', fixed(low, 1), fixed(high, 1), unit, range, fixed(deviation ?? 0, 1)),
    coverage: coverage === null ? '' : `${fixed(100 * coverage, 0)} %, n = ${places ?? 0}`,
    seen: [colour, luminescence && t('{0} in ultraviolet', luminescence)].filter(Boolean).join('; '),
    grains: grainsText(grains),
  };
}

/** How many grains, and the diameter that halves their area; a word for fineness only beside the figure. */
export function grainsText(grains: MeasuredLayer['grains']): string {
  if (grains === null) return '';
  const { counted, d50, uncertainty, unit, note } = grains;
  const size = d50 === null ? note ?? '' : t('D50 by area {0} {1}{2}', withUncertainty(d50, uncertainty), unit, note ? ` (${note})` : '');
  return [`n = ${counted}`, size].filter(Boolean).join(', ');
}

/** The scale that a run used, in a sentence. */
export function scaleSentence(run: Run): string {
  const scale = run.figures.find((f) => f.name === 'um-per-pixel');
  if (scale?.value == null) return t('No scale: thicknesses are in pixels only.');
  return t('Scale: {0} um per pixel, {1}.', withUncertainty(scale.value, scale.uncertainty), scale.note ?? '');
}

/** Micrographs that lie on another grid than the visible one, in sentences: over them boundaries are not drawn where they were measured. */
export const gridSentences = (run: Run): string[] => run.figures.filter((f) => f.name === 'aligned-p95' && !/as it is|left out/.test(f.note ?? ''))
  .map((f) => t('{0} lies on another grid. It was aligned to the visible micrograph, 95 of 100 patches within {1} px, and has its say there; drawn over it boundaries lie as over the visible one.', f.subject ?? '', fixed(f.value ?? 0, 1)));
