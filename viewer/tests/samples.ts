import type { Layer, Painting } from '../src/api';

/** An aligned 16-bit colour photograph of 412 x 518 mm at 0.1 mm a pixel, with changes. */
export const layer = (changes: Partial<Layer> = {}): Layer => ({
  id: 'p-1', kind: 'photograph', light: 'VIS', label: 'VIS_01', detail: null, onPlane: true, verdict: 'aligned', residual: null,
  extentMm: [0, 0, 412, 518], width: 4120, height: 5180, mmPerPixel: 0.1, levels: 5, tileSize: 512, bands: ['R', 'G', 'B'], format: 'u16',
  unit: 'counts', low: 0, high: 65535, fullScale: 65535, version: 'v', photographId: '1', runId: null, warnings: [], classes: null, ...changes,
});

export const painting = (layers: Layer[]): Painting =>
  ({ id: 'x', title: 'Ferry at low water', technique: null, widthMm: 412, heightMm: 518, sizeOrigin: 'measured', layers });
