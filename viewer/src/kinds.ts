// Kinds of phenomenon: each with a hatch, an outline and a letter code of its own, so that they can be told apart in grey print and by eyes that see few
// colours. They are the studio's own table, which condition plans and documents are drawn from too: the server sends it, nothing of it is repeated here.
import type { Appearance } from './api';

/** A stroke of a hatch: places in its cell, mm on a printed sheet, x along the hatch's lines. */
type Stroke = readonly (readonly [number, number])[];

export interface Kind {
  /** Stored with the zone: the word that readings use for it, else the term's key. */
  id: string;
  /** The term's key. */
  key: string;
  name: string;
  /** What it belongs to, as the list of kinds groups them. */
  group: string;
  isOffered: boolean;
  /** One to three letters beside the zone. */
  code: string;
  colour: string;
  /** Dashes and gaps of the outline, screen pixels; empty for a whole line. */
  dash: number[];
  width: number;
  hatch: { angle: number; width: number; height: number; fine: readonly Stroke[]; bold: readonly Stroke[] };
}

/** Screen pixels for a millimetre on a printed sheet: hatches are wide enough there that the picture is seen through them, and the codes are read. */
const pixels = 6;

/** Breadth of the two pens, screen pixels, and of the white beside them that shows them on dark paint. */
const pens = { fine: 1.2, bold: 2.8, casing: 1.4 };

/** What a zone is until the server has told the kinds, and what it stays when nobody knows its kind. */
const note: Kind = { id: 'note', key: 'note', name: 'Note', group: 'notes and readings', isOffered: true, code: 'N', colour: '#000000', dash: [], width: 1.5, hatch: { angle: 0, width: 1, height: 1, fine: [], bold: [] } };

let all: readonly Kind[] = [note];
let byName = new Map<string, Kind>([[note.id, note]]);

/** A kind as the server describes how it is drawn. */
export const kindFrom = (a: Appearance): Kind => ({
  id: a.kind || a.key, key: a.key, name: a.name.charAt(0).toUpperCase() + a.name.slice(1), group: a.category === 'reading' ? 'notes and readings' : a.group.replace('-', ', '),
  isOffered: a.category === 'condition' || (a.category !== 'treatment' && a.hasOwnHatch), code: a.code, colour: a.ink,
  dash: a.outline.dashes.map((d) => d * pixels), width: a.outline.widthMm * pixels / 1.5, hatch: a.hatch,
});

/** Takes the studio's table. */
export function setKinds(appearances: readonly Appearance[]): void {
  all = appearances.map(kindFrom);
  byName = new Map(all.flatMap((k) => [[k.key, k], [k.id, k]]));
}

/** Kinds that a zone may be given, in groups: what is seen on a painting, not what is done to it. */
export function kindGroups(): Map<string, Kind[]> {
  const groups = new Map<string, Kind[]>();
  for (const kind of all.filter((k) => k.isOffered)) groups.set(kind.group, [...(groups.get(kind.group) ?? []), kind]);
  return groups;
}

/** The kind of a zone, by the word that readings use or by a term's key; what is unknown is shown as a note, its own word kept as the name. */
export const kindOf = (id: string): Kind => byName.get(id) ?? { ...note, id, name: id || note.name };

/** Draws one cell of a hatch, white beneath so that it shows on dark paint too. */
function drawCell(context: CanvasRenderingContext2D, { hatch, colour }: Kind, x: number, y: number, casing: number, scale: number): void {
  context.lineCap = 'round';
  for (const under of [true, false])
    for (const [strokes, width] of [[hatch.fine, pens.fine], [hatch.bold, pens.bold]] as const) {
      context.strokeStyle = under ? 'rgb(255 255 255 / 60%)' : colour;
      context.lineWidth = (width + (under ? casing : 0)) * scale;
      for (const stroke of strokes) {
        context.beginPath();
        stroke.forEach(([px, py], i) => context[i === 0 ? 'moveTo' : 'lineTo']((px + x) * pixels * scale, (py + y) * pixels * scale));
        context.stroke();
      }
    }
}

/** A canvas pattern of a kind's hatch; null for a kind without one. */
export function hatchPattern(kind: Kind, pixelRatio: number): CanvasPattern | null {
  const { angle, width, height, fine, bold } = kind.hatch;
  if (fine.length + bold.length === 0) return null;
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * pixels * pixelRatio);
  canvas.height = Math.round(height * pixels * pixelRatio);
  const context = canvas.getContext('2d')!;
  // The cell fills whole pixels, or its seams would show.
  context.scale(canvas.width / (width * pixels * pixelRatio), canvas.height / (height * pixels * pixelRatio));
  for (const x of [-width, 0, width]) for (const y of [-height, 0, height]) drawCell(context, kind, x, y, pens.casing, pixelRatio);
  const pattern = context.createPattern(canvas, 'repeat');
  pattern?.setTransform(new DOMMatrix().rotate(-angle));
  return pattern;
}

/** A small picture of a kind's hatch and outline, 24 by 16 screen pixels at twice the resolution. */
export function drawSwatch(context: CanvasRenderingContext2D, kind: Kind): void {
  const { width, height } = context.canvas;
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  const pattern = hatchPattern(kind, 1.5);
  if (pattern) {
    context.fillStyle = pattern;
    context.fillRect(0, 0, width, height);
  }
  context.lineCap = 'butt';
  context.strokeStyle = kind.colour;
  context.lineWidth = kind.width * 1.5;
  context.setLineDash(kind.dash);
  context.strokeRect(2, 2, width - 4, height - 4);
}
