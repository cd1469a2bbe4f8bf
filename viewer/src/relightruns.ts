// Runs of the reading of relief, and what must be said of them.
import type { Layer, Painting, Run } from './api';
import { counted, locale, t } from './language';
import { fixed } from './units';

/** A run whose layers the painting has. */
export interface Surface {
  run: Run;
  height: Layer;
  normals: Layer;
  albedo: Layer;
}

/** Finished runs with all their layers, newest first. */
export function surfacesOf(runs: readonly Run[], painting: Pick<Painting, 'layers'>): Surface[] {
  return runs.filter((r) => r.state === 'done').flatMap((run) => {
    const [height, normals, albedo] = ['height', 'normals', 'albedo'].map((name) => {
      const raster = run.rasters.find((r) => r.name === name);
      return painting.layers.find((l) => l.id === raster?.layerId && l.onPlane);
    });
    return height && normals && albedo ? [{ run, height, normals, albedo }] : [];
  });
}

const raking = ({ inputs }: Pick<Run, 'inputs'>): number => inputs.filter((i) => i.slot === 'raking').length;

/** Which run it is: "Relief, version 1, of 26 November 2026, 07:31; from 8 photographs". */
export function surfaceText({ run }: Pick<Surface, 'run'>): string {
  const when = new Date(run.endedAt ?? run.queuedAt).toLocaleString(locale, { dateStyle: 'long', timeStyle: 'short' });
  return counted(raking(run), 'Relief, version {1}, of {2}; from {0} photograph', 'Relief, version {1}, of {2}; from {0} photographs', run.version, when);
}

const forms: Record<string, string> = { mean: t('nothing but the mean'), plane: t('a tilted plane'), quadratic: t('a form of second degree') };

/** What the height is measured from, and how far it holds. */
export function heightText({ run }: Pick<Surface, 'run'>): string {
  const step = Number(run.parameters['step'] ?? 0);
  const range = run.figures.find((f) => f.name === 'form-range')?.value;
  const form = forms[run.parameters['form'] ?? ''] ?? t('a form');
  const taken = t('{0}{1} is taken away', form, range != null ? t(', which spans {0} µm,', fixed(range, 0)) : '');
  const scale = step > 0 ? t('Height is calibrated by a known step of {0} µm', fixed(step, 0)) : t('Height is relative: no step calibrates it, it holds as far as the lamps’ directions do');
  return t('{0}; it has no zero, and {1}. Long waves are weak.', scale, taken);
}
