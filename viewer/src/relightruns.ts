// Runs of the reading of relief, and what must be said of them.
import type { Layer, Painting, Run } from './api';
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
  const when = new Date(run.endedAt ?? run.queuedAt).toLocaleString(undefined, { dateStyle: 'long', timeStyle: 'short' });
  return `Relief, version ${run.version}, of ${when}; from ${raking(run)} photograph${raking(run) === 1 ? '' : 's'}`;
}

const forms: Record<string, string> = { mean: 'nothing but the mean', plane: 'a tilted plane', quadratic: 'a form of second degree' };

/** What the height is measured from, and how far it holds. */
export function heightText({ run }: Pick<Surface, 'run'>): string {
  const step = Number(run.parameters['step'] ?? 0);
  const range = run.figures.find((f) => f.name === 'form-range')?.value;
  const form = forms[run.parameters['form'] ?? ''] ?? 'a form';
  const taken = `${form}${range != null ? `, which spans ${fixed(range, 0)} µm,` : ''} is taken away`;
  const scale = step > 0 ? `Height is calibrated by a known step of ${fixed(step, 0)} µm` : 'Height is relative: no step calibrates it, it holds as far as the lamps’ directions do';
  return `${scale}; it has no zero, and ${taken}. Long waves are weak.`;
}
