// The tools that edit a section's boundaries: by pointer a click, a line drawn by hand, taking out; the same by numbers; and the steps taken, each of which can be undone.
import type Draw from 'ol/interaction/Draw';
import type LineString from 'ol/geom/LineString';
import { type BoundaryLayer, drawnStyle } from './boundarylayer';
import { el, fill } from './dom';
import { labelled, numberField } from './fields';
import { freehand } from './freehand';
import { t } from './language';
import type { Micrographs } from './micrographs';
import { fromMap, type Place } from './plane';
import { simplify } from './shapes';
import { boundaryName, heightAt, type Meant, meantBy, placesIn, placesText, type Step, stepWords, withStep } from './steering';
import { button } from './toolbar';

/** What is done this near to a boundary means that boundary, pixels of the screen. */
const near = 12;

/** A boundary written out in numbers leaves out places nearer than this to the line between others, pixels. */
const coarse = 1;

const tools = { click: [t('Steer by clicks'), t('A click moves the boundary nearby, or adds one')], draw: [t('Draw by hand'), t('A line drawn along a boundary is that boundary there, exactly; begin it on the boundary that it corrects. With Alt the picture moves')], out: [t('Take out'), t('A click takes the boundary nearby out: the layers on its sides become one')] } as const;

type Tool = keyof typeof tools;

/** What is steered: boundaries from the lower edge up as they run, the steps behind them, and whether there are any. */
export interface Steered {
  readonly boundaries: readonly (readonly Place[])[];
  readonly steps: readonly Step[];
  readonly ready: boolean;
}

export class SteeringTools {
  readonly buttons = el('span', { class: 'acts', role: 'group', 'aria-label': t('Steering') });
  readonly list = el('details', { class: 'small' });
  readonly form = el('details', { class: 'small' });
  private tool: Tool | null = 'click';
  private readonly draws: Draw[];
  private readonly toggles: Record<Tool, HTMLButtonElement>;
  private readonly undo = button(t('Undo the last step'), t('Takes the last step back and follows the boundaries again'), () => this.steer(this.now().steps.slice(0, -1)));
  private readonly which = el('select', { id: 'section-pinned', change: () => this.begin() });
  private readonly pinX = numberField('pin-x', 0, 1e6, '1', () => this.markPin());
  private readonly pinY = numberField('pin-y', 0, 1e6, '1', () => this.markPin());
  private readonly course = el('textarea', { id: 'section-course', rows: '4', input: () => this.layer.mark(placesIn(this.course.value) ?? []) });
  private readonly courseSaid = el('p', { class: 'note', role: 'alert', hidden: true });
  private readonly acts: HTMLButtonElement[];

  constructor(private readonly micrographs: Micrographs, private readonly layer: BoundaryLayer, private readonly now: () => Steered, private readonly steer: (steps: readonly Step[]) => void) {
    this.toggles = Object.fromEntries(Object.entries(tools).map(([tool, [word, hint]]) => [tool, el('button', { type: 'button', title: hint, click: () => this.choose(this.tool === tool ? null : tool as Tool) }, word)])) as Record<Tool, HTMLButtonElement>;
    this.acts = [
      button(t('Pin it there'), t('Follows the boundaries again, this one through the cross'), () => this.pin()),
      button(t('Write its course out'), t('Fills in the places through which it runs now, to be changed'), () => this.writeOut()),
      button(t('Run it along these places'), t('Follows the boundaries again, this one exactly along the line'), () => this.run()),
      button(t('Take it out'), t('The layers on its sides become one'), () => this.takeOut()),
    ];
    fill(this.buttons, ...Object.values(this.toggles), this.undo);
    this.draws = micrographs.maps.map((map) => {
      const draw = freehand(() => micrographs.resolution, drawnStyle, (line) => this.drawn(line));
      map.addInteraction(draw);
      map.on('singleclick', ({ coordinate }) => this.clicked(fromMap(coordinate)));
      return draw;
    });
    this.choose('click');
  }

  /** Shows the steps and the boundaries as they are now. */
  render(): void {
    const { boundaries, steps } = this.now();
    const open = this.list.open;
    fill(this.list, el('summary', {}, t('Steps taken ({0})', steps.length)), el('ol', { class: 'tight' }, ...steps.map((s) => el('li', {}, stepWords(s)))));
    this.list.open = open;
    this.list.hidden = steps.length === 0;
    const before = this.which.value;
    fill(this.which, ...boundaries.map((_, i) => el('option', { value: i }, boundaryName(i))).reverse(), el('option', { value: 'new' }, t('a new boundary')));
    if (before === 'new' || Number(before) < boundaries.length) this.which.value = before || this.which.value;
    const [pin, writeOut, run, out] = this.acts;
    fill(this.form, el('summary', {}, t('Steer by numbers')), el('div', { class: 'fields' },
      labelled(t('Boundary'), this.which, '', ''), labelled(t('Passes at, from left'), this.pinX, 'px', ''), labelled(t('From top'), this.pinY, 'px', t('Arrow keys move the cross')), el('div', { class: 'acts' }, pin!, out!),
      labelled(t('Or runs along'), this.course, 'px', t('A place a line, from left and from top')), el('div', { class: 'acts' }, writeOut!, run!)), this.courseSaid);
  }

  /** While boundaries are followed nothing is steered. */
  setBusy(busy: boolean): void {
    this.undo.disabled = busy || this.now().steps.length === 0;
    for (const act of this.acts) act.disabled = busy;
    for (const draw of this.draws) draw.setActive(this.tool === 'draw' && !busy && this.now().ready);
  }

  private choose(tool: Tool | null): void {
    this.tool = tool;
    for (const [name, toggle] of Object.entries(this.toggles)) toggle.setAttribute('aria-pressed', String(name === tool));
    for (const draw of this.draws) draw.setActive(tool === 'draw' && this.now().ready);
  }

  private clicked(at: Place): void {
    if (!this.isInside(at) || this.tool === null || this.tool === 'draw') return;
    const meant = this.meant([at]);
    if (this.tool === 'click') this.take(meant, 'click', [at]);
    else if (meant !== null) this.take(meant, 'removal', [at]);
  }

  private drawn(line: LineString): void {
    const places = line.getCoordinates().map(fromMap).map(([x, y]): Place => [Math.max(0, Math.min(this.micrographs.size[0], x)), Math.max(0, Math.min(this.micrographs.size[1], y))]);
    this.take(this.meant(places), 'stretch', places);
  }

  private take(meant: Meant, kind: Step['kind'], places: readonly Place[]): void {
    const { boundaries, steps, ready } = this.now();
    if (ready) this.steer(withStep(steps, boundaries, meant, kind, places));
  }

  private meant(places: readonly Place[]): Meant {
    return meantBy(this.now().boundaries, places, near * this.micrographs.resolution);
  }

  private isInside([x, y]: Place): boolean {
    const [width, height] = this.micrographs.size;
    return x >= 0 && y >= 0 && x <= width && y <= height;
  }

  private get chosen(): Meant {
    return this.which.value === 'new' ? null : Number(this.which.value);
  }

  private get line(): readonly Place[] | undefined {
    return this.chosen === null ? undefined : this.now().boundaries[this.chosen];
  }

  /** The cross at the middle of the chosen boundary. */
  private begin(): void {
    this.course.value = '';
    if (!this.line) return;
    const xs = this.line.map(([x]) => x);
    const x = Math.round((Math.min(...xs) + Math.max(...xs)) / 2);
    [this.pinX.value, this.pinY.value] = [String(x), String(Math.round(heightAt(this.line, x)))];
    this.markPin();
  }

  private get pinned(): Place | null {
    return this.pinX.value === '' || this.pinY.value === '' ? null : [Number(this.pinX.value), Number(this.pinY.value)];
  }

  private markPin(): void {
    this.layer.mark(this.pinned ? [this.pinned] : []);
  }

  private pin(): void {
    if (this.pinned === null) return this.begin();
    this.take(this.chosen, 'click', [this.pinned]);
    this.layer.mark([]);
  }

  private writeOut(): void {
    if (!this.line) return;
    this.course.value = placesText(simplify(this.line, coarse));
    this.layer.mark(placesIn(this.course.value) ?? []);
  }

  private run(): void {
    const places = placesIn(this.course.value);
    this.courseSaid.hidden = places !== null && places.length > 1;
    this.courseSaid.textContent = t('Give at least two places, one a line: pixels from left, a blank, pixels from top.');
    if (!this.courseSaid.hidden) return;
    this.take(this.chosen, 'stretch', places!);
    this.layer.mark([]);
  }

  private takeOut(): void {
    if (this.line) this.take(this.chosen, 'removal', [this.line[Math.floor(this.line.length / 2)]!]);
  }
}
