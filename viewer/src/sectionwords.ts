// What a run measured of a section's layers, in the words and numbers of the Sections page.
import type { Figure, Proposal, Run } from './api';
import { fixed } from './units';

export interface LayerRow {
  readonly number: number;
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

/** The layers of a run, the uppermost first, with the grains that another run counted in them. */
export function layerRows(run: Run, proposals: readonly Proposal[], grains: Run | null): LayerRow[] {
  const count = run.figures.find((f) => f.name === 'layers')?.value ?? 0;
  return Array.from({ length: count }, (_, i) => row(run, proposals, grains, count - i));
}

function row(run: Run, proposals: readonly Proposal[], grains: Run | null, number: number): LayerRow {
  const subject = `layer ${number}`;
  const of = (from: Run | null, name: string): Figure | undefined => from?.figures.find((f) => f.subject === subject && f.name === name);
  const px = of(run, 'thickness-mean') === undefined;
  const thick = (name: string): number | null => of(run, `thickness-${name}${px ? '-px' : ''}`)?.value ?? null;
  const mean = of(run, `thickness-mean${px ? '-px' : ''}`);
  const unit = px ? 'px' : 'um';
  const colour = proposals.find((p) => p.kind === 'layer' && p.reason.startsWith(`${subject}: `))?.reason.slice(subject.length + 2);
  const glow = of(run, 'luminescence-lightness')?.note;
  return {
    number,
    thickness: mean?.value == null ? 'not measured' : `${withUncertainty(mean.value, mean.uncertainty)} ${unit}`,
    spread: thick('p5') === null ? '' : `${fixed(thick('p5')!, 1)} to ${fixed(thick('p95')!, 1)} ${unit}, sd ${fixed(thick('sd')!, 1)}`,
    coverage: of(run, 'coverage')?.value == null ? '' : `${fixed(of(run, 'coverage')!.value!, 0)} %, n = ${of(run, 'n')?.value ?? 0}`,
    seen: [colour, glow && `${glow} in ultraviolet`].filter(Boolean).join('; '),
    grains: grainsText(of(grains, 'grains'), of(grains, 'd50-area') ?? of(grains, 'd50-area-px')),
  };
}

/** How many grains, and the diameter that halves their area; a word for fineness only beside the figure. */
export function grainsText(counted: Figure | undefined, d50: Figure | undefined): string {
  if (counted?.value == null) return '';
  const size = d50?.value == null ? d50?.note ?? '' : `D50 by area ${withUncertainty(d50.value, d50.uncertainty)} ${d50.unit}${d50.note ? ` (${d50.note})` : ''}`;
  return [`n = ${counted.value}`, size].filter(Boolean).join(', ');
}

/** The scale that a run used, in a sentence. */
export function scaleSentence(run: Run): string {
  const scale = run.figures.find((f) => f.name === 'um-per-pixel');
  if (scale?.value == null) return 'No scale: thicknesses are in pixels only.';
  return `Scale: ${withUncertainty(scale.value, scale.uncertainty)} um per pixel, ${scale.note ?? ''}.`;
}
