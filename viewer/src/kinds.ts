// Kinds of phenomenon: each with a hatch, an outline and a letter code of its own, so that they can be told apart in grey print and by
// eyes that see few colours. Colour only helps; it is from Okabe and Ito's set for all eyes (Color Universal Design, 2008, from memory).

/** A stroke of a hatch on a cell of 12 by 12: x1, y1, x2, y2. The cell repeats both ways. */
type Stroke = readonly [number, number, number, number];

export interface Kind {
  /** Stored with the zone. */
  id: string;
  name: string;
  /** One or two letters beside the zone. */
  code: string;
  colour: string;
  /** Dashes and gaps of the outline, screen pixels; empty for a whole line. */
  dash: number[];
  width: number;
  hatch: readonly Stroke[];
}

export const kinds: readonly Kind[] = [
  { id: 'note', name: 'Note', code: 'N', colour: '#000000', dash: [], width: 1.5, hatch: [] },
  { id: 'retouching', name: 'Retouching', code: 'Rt', colour: '#0072b2', dash: [], width: 2, hatch: [[0, 12, 12, 0]] },
  { id: 'later-addition', name: 'Later addition', code: 'La', colour: '#cc79a7', dash: [3, 3], width: 2.5, hatch: [[0, 12, 12, 0], [0, 3, 12, 3], [0, 9, 12, 9]] },
  { id: 'veiled-addition', name: 'Addition under varnish', code: 'Va', colour: '#cc79a7', dash: [9, 3], width: 2.5, hatch: [[0, 12, 12, 0], [0, 6, 12, 6]] },
  { id: 'loss', name: 'Loss', code: 'Lo', colour: '#d55e00', dash: [], width: 3, hatch: [[0, 12, 12, 0], [0, 0, 12, 12]] },
  { id: 'crack', name: 'Crack', code: 'Cr', colour: '#000000', dash: [10, 3, 2, 3], width: 2, hatch: [[0, 3, 4, 8], [4, 8, 8, 4], [8, 4, 12, 9], [12, 9, 12, 3]] },
  { id: 'lifting', name: 'Lifting', code: 'Li', colour: '#cc79a7', dash: [14, 5], width: 2, hatch: [[2, 9, 6, 3], [6, 3, 10, 9]] },
  { id: 'abrasion', name: 'Abrasion', code: 'Ab', colour: '#e69f00', dash: [2, 4], width: 2.5, hatch: [[2, 3, 3, 3], [8, 3, 9, 3], [5, 9, 6, 9], [11, 9, 12, 9]] },
  { id: 'varnish-gap', name: 'Varnish gap', code: 'Vg', colour: '#56b4e9', dash: [7, 4], width: 2, hatch: [[0, 6, 12, 6]] },
  { id: 'earlier-cleaning', name: 'Earlier cleaning', code: 'Ec', colour: '#56b4e9', dash: [16, 4], width: 2.5, hatch: [[0, 6, 12, 6], [6, 0, 6, 12]] },
  { id: 'tide-line', name: 'Tide line', code: 'Ti', colour: '#009e73', dash: [16, 4, 4, 4], width: 2, hatch: [[0, 6, 3, 3], [3, 3, 6, 6], [6, 6, 9, 9], [9, 9, 12, 6]] },
  { id: 'underdrawing', name: 'Underdrawing', code: 'Ud', colour: '#000000', dash: [4, 4], width: 2, hatch: [[6, 0, 6, 12]] },
  { id: 'change', name: 'Change in composition', code: 'Ch', colour: '#0072b2', dash: [12, 3, 2, 3, 2, 3], width: 2, hatch: [[0, 0, 12, 12], [0, 6, 6, 12], [6, 0, 12, 6]] },
];

/** The kind of a zone; what is unknown is shown as a note, its own word kept as the name. */
export const kindOf = (id: string): Kind => kinds.find((k) => k.id === id) ?? { ...kinds[0]!, id, name: id || kinds[0]!.name };

const cell = 12;

/** Screen pixels of a cell: wide enough that the picture is seen through the hatch. */
const cellPixels = 18;

/** Draws one cell of a hatch, white beneath so that it shows on dark paint too. */
export function drawHatch(context: CanvasRenderingContext2D, kind: Kind, scale: number): void {
  context.lineCap = 'square';
  for (const [colour, width] of [['rgb(255 255 255 / 60%)', 1.8], [kind.colour, 0.75]] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width * scale;
    // Neighbouring cells too, so that strokes meet across the seams.
    for (const dx of [-cell, 0, cell])
      for (const dy of [-cell, 0, cell])
        for (const [x1, y1, x2, y2] of kind.hatch) {
          context.beginPath();
          context.moveTo((x1 + dx) * scale, (y1 + dy) * scale);
          context.lineTo((x2 + dx) * scale, (y2 + dy) * scale);
          context.stroke();
        }
  }
}

/** A canvas pattern of a kind's hatch; null for a kind without one. */
export function hatchPattern(kind: Kind, pixelRatio: number): CanvasPattern | null {
  if (kind.hatch.length === 0) return null;
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = Math.round(cellPixels * pixelRatio);
  const context = canvas.getContext('2d')!;
  drawHatch(context, kind, canvas.width / cell);
  return context.createPattern(canvas, 'repeat');
}
