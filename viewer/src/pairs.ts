// Alignment by hand, with help: the reference on the plane beside the photograph's own pixels, and pairs of points that are one place in both.
import OlView from 'ol/View';
import { AlignmentState } from './alignmentstate';
import { type Api, isAbort, type Layer, type PairSent, type PairsFit, type Painting } from './api';
import { ContrastPanel } from './contrast';
import { debounce, el, fill } from './dom';
import { key, KeySheet, type Key, listen } from './keys';
import { t } from './language';
import { planeProjection } from './layers';
import { Notices } from './notices';
import { pixelView, showWhole, withLayer } from './original';
import { isWhole, otherPoint, type Pair, PairList, type Point, type WholePair } from './pairlist';
import { PairPane } from './pairpane';
import { PairTable } from './pairtable';
import { fewestFor, models, neededText, summaryText } from './pairwords';
import { fromEdges, type Place, toMap, toMapExtent } from './plane';
import { enlarged, ResidualArrows } from './residualarrows';
import { initialState, plainLook, Store } from './state';
import { planeLayers } from './strip';
import { button } from './toolbar';
import { fixed, placeText } from './units';

/** Opens the page of pairs for one photograph. */
export async function openPairs(main: HTMLElement, painting: Painting, photograph: string, api: Api): Promise<void> {
  const references = referencesFor(painting, photograph);
  const [layer, stored] = await Promise.all([api.layer(`o-${photograph}`), api.pairs(photograph)]);
  main.classList.add('easel', 'pairing');
  if (references.length === 0) {
    fill(main, el('div', { class: 'failed', role: 'alert' }, el('p', {}, t('No other photograph lies on the plane yet, so there is nothing to align this one to. Set the corners of one first.')),
      el('a', { class: 'button', href: location.pathname }, t('Back to the Easel'))));
    return;
  }
  const kept = JSON.parse(sessionStorage.getItem(draftName(photograph)) ?? 'null') as Pair[] | null;
  const pairs = kept?.length ? kept : stored.map((p, i): Pair => ({ ...p, id: i + 1, locked: false, note: '' }));
  await new PairsPage(main, withLayer(painting, layer), layer, references, new PairList(pairs), api).show();
}

/** Photographs that others can be aligned to, visible light first. */
export const referencesFor = (painting: Painting, photograph: string): Layer[] => planeLayers(painting)
  .filter((l) => l.kind === 'photograph' && l.photographId !== photograph).sort((a, b) => Number(b.light === 'VIS') - Number(a.light === 'VIS'));

const draftName = (photograph: string): string => `sandarac.pairs.${photograph}`;
const sent = ({ place, pixel, used }: WholePair): PairSent => ({ place, pixel, used });

class PairsPage {
  private readonly photograph: string;
  private readonly notices = new Notices(() => location.reload());
  private readonly store: Store;
  private readonly panes: Record<Point, PairPane>;
  private readonly state: AlignmentState;
  private readonly pairArrows = new ResidualArrows(2.5);
  private readonly table: PairTable;
  private readonly summary = el('div', { class: 'summary', role: 'status', 'aria-live': 'polite' });
  private readonly label = el('div', { class: 'label a' });
  private readonly stage = el('div', { class: 'stage duo' });
  private readonly places: Record<Point, HTMLElement> = { place: el('output', { class: 'place' }), pixel: el('output', { class: 'place right' }) };
  private readonly byPairs = button(t('Align by these pairs'), t('Aligns the photograph by these pairs and stores them'), () => void this.alignByPairs());
  private readonly byItself = button(t('Align automatically'), t('Looks for matching places all over and aligns by them'), () => void this.alignByItself());
  private readonly undoButton = button(t('Undo'), t('Take back the last change (Ctrl+Z)'), () => this.list.undo());
  private readonly reference: HTMLSelectElement;
  private readonly model = el('select', { change: () => this.changed() },
    el('option', { value: 'auto' }, t('Automatic choice')), ...models.map((m) => el('option', { value: m.id }, t('{0} (from {1} pairs)', m.words, m.fewest))));
  private readonly toggles = { snap: true, linked: true, arrows: true };
  private fit: PairsFit | null = null;
  private asked = 0;
  private answered = '';
  private selected: number | null = null;
  private running = false;

  constructor(private readonly main: HTMLElement, private readonly painting: Painting, private readonly layer: Layer, private readonly references: Layer[],
    private readonly list: PairList, private readonly api: Api) {
    this.photograph = layer.photographId!;
    api.onReach = (reached) => this.notices.reach(reached);
    this.store = new Store({ ...initialState, mode: 'beside', a: plainLook(references[0]!), b: plainLook(layer) });
    this.state = new AlignmentState(api, this.photograph, (busy) => this.run(busy));
    const missing = (l: Layer): void => this.notices.tileMissing(l.label);
    const actions = {
      set: (point: Point, at: Place) => void this.set(point, at), select: (id: number) => this.select(id), look: (point: Point) => this.follow(point),
      move: (id: number, point: Point, to: Place) => this.list.move(id, point, to), pointer: (point: Point, at: Place) => this.say(point, at), drawn: () => this.tellBusy(),
    };
    const planeView = new OlView({ projection: planeProjection, center: toMap([painting.widthMm / 2, painting.heightMm / 2]), resolution: 1, minResolution: references[0]!.mmPerPixel / 32, maxResolution: Math.max(painting.widthMm, painting.heightMm) / 50, constrainResolution: false });
    this.panes = {
      place: new PairPane('place', t('the reference'), planeView, this.painting, api, actions, missing),
      pixel: new PairPane('pixel', layer.label, pixelView(layer), this.painting, api, actions, missing),
    };
    this.reference = el('select', { change: () => this.refer() }, ...references.map((r) => el('option', { value: r.id }, r.label)));
    this.table = new PairTable({
      look: (id) => this.look(id), use: (id, used) => this.list.change(id, { used }), lock: (id, locked) => this.list.change(id, { locked }),
      snap: (id) => void this.snap(id), remove: (id) => this.list.remove(id),
    });
  }

  async show(): Promise<void> {
    const contrast = new ContrastPanel(this.painting, this.store, this.api, false);
    const keys = this.keys();
    const sheet = new KeySheet(keys);
    this.stage.append(this.panes.place.element, this.panes.pixel.element, this.label, el('div', { class: 'label b' }, t('{0}, its own pixels', this.layer.label)), this.places.place, this.places.pixel);
    fill(this.main,
      el('div', { class: 'centre' },
        el('div', { class: 'toolbar' }, el('a', { class: 'button', href: location.pathname }, t('Back to the Easel')), this.byPairs, this.byItself, this.undoButton, el('span', { class: 'gap' }),
          this.toggle('snap', t('Snap'), t('Move each new pair to the best match nearby')), this.toggle('linked', t('Linked'), t('Move the other pane along, as far as it is known where')),
          this.toggle('arrows', t('Arrows'), t('Show what the alignment leaves')), button(t('Contrast'), t('Contrast window, channels, invert'), () => contrast.toggle()),
          el('span', { class: 'push' }), button(t('Keys'), t('List all keys'), () => sheet.open())),
        el('div', { class: 'frame' }, this.stage, contrast.element, this.notices.element)),
      el('section', { class: 'column', 'aria-label': t('Pairs') },
        el('p', {}, t('Click one place in both panes, in either order. Four pairs near the corners and one near the middle are a good beginning.')),
        el('div', { class: 'choices' }, el('label', {}, t('Align to'), this.reference), el('label', {}, t('What may differ'), this.model)),
        this.state.element, el('section', { 'aria-label': t('Pairs') }, el('h2', {}, t('Pairs')), this.summary, this.table.element)),
      sheet.element);
    listen(keys, () => sheet.lettersOn);
    this.panes.place.pane.map.addLayer(this.state.arrows.layer);
    this.panes.place.pane.map.addLayer(this.pairArrows.layer);
    this.store.on((state) => this.draw(state.a, state.b));
    this.list.on(() => this.changed());
    this.refer();
    // An aligned photograph is met where it lies: a plate of an X-radiograph is a small part of the face.
    const shown = this.painting.layers.find((l) => l.id === `p-${this.photograph}`)?.extentMm ?? [0, 0, this.painting.widthMm, this.painting.heightMm];
    this.panes.place.quietly(() => this.panes.place.view.fit(toMapExtent(shown), { size: this.sized('place'), padding: [40, 24, 40, 24] }));
    this.panes.pixel.quietly(() => showWhole(this.panes.pixel.pane.map, this.panes.pixel.view, this.layer));
    await this.state.load();
    this.changed();
  }

  private keys(): Key[] {
    const on = (keys: string, says: string, name: string, act: () => void, control = false): Key => ({ keys, says, match: key(name, { control }), act, group: t('Pairs') });
    const told = (keys: string, says: string): Key => ({ keys, says, match: () => false, act: () => {}, group: t('Moving') });
    const chosen = (act: (id: number) => void) => (): void => { if (this.selected !== null) act(this.selected); };
    return [
      on('N', t('New pair in the middles of both panes'), 'n', () => this.add()), on('S', t('Snap the selected pair'), 's', chosen((id) => void this.snap(id))),
      on(t('Del'), t('Take the selected pair out'), 'Delete', chosen((id) => this.list.remove(id))), on('Ctrl+Z', t('Undo'), 'z', () => this.list.undo(), true),
      told('Tab', t('From pane to pane, from mark to mark')), told(t('Arrows'), t('Move the pane, or the mark that has the focus, by one pixel')), told(t('Shift, Alt'), t('Ten pixels, a tenth')),
      told('+ -', t('Nearer, farther')), told(t('Enter'), t('Set a point in the middle of the pane')),
      { keys: '?', says: t('This list'), match: (e) => e.key === '?', act: () => this.main.querySelector<HTMLDialogElement>('dialog')!.showModal(), group: t('Moving') },
    ];
  }

  private toggle(name: keyof typeof this.toggles, word: string, title: string): HTMLButtonElement {
    const made = button(word, title, () => {
      this.toggles[name] = !this.toggles[name];
      made.setAttribute('aria-pressed', String(this.toggles[name]));
      for (const { layer } of [this.state.arrows, this.pairArrows]) layer.setVisible(this.toggles.arrows);
    });
    made.setAttribute('aria-pressed', 'true');
    return made;
  }

  private get referred(): Layer {
    return this.references.find((r) => r.id === this.reference.value)!;
  }

  private refer(): void {
    this.panes.place.step = this.referred.mmPerPixel;
    this.label.textContent = t('{0} on the plane', this.referred.label);
    this.store.set({ a: plainLook(this.referred) });
    this.draw(this.store.now.a, this.store.now.b);
  }

  private draw(a: Parameters<PairPane['pane']['show']>[0], b: typeof a): void {
    this.panes.place.pane.show(a);
    this.panes.pixel.pane.show(b);
  }

  private sized(point: Point): number[] {
    const { map } = this.panes[point].pane;
    map.updateSize();
    return map.getSize()!;
  }

  private tellBusy(): void {
    this.stage.setAttribute('aria-busy', String(this.panes.place.pane.busy || this.panes.pixel.pane.busy));
  }

  private say(point: Point, [x, y]: Place): void {
    this.places[point].textContent = point === 'place' ? placeText(fromEdges([x, y], this.painting.heightMm)) : t('pixel {0}, {1}', fixed(x, 1), fixed(y, 1));
  }

  /** Everything that follows from a change: marks, table, what is kept in this window, and the fit. */
  private changed(): void {
    if (this.selected !== null && !this.list.find(this.selected)) this.selected = null;
    if (this.fit?.pairs.length !== this.list.whole.length) this.fit = null;
    sessionStorage.setItem(draftName(this.photograph), JSON.stringify(this.list.all));
    this.render();
    if (this.question() !== this.answered) this.refit();
  }

  /** What the fit is asked for: a lock or a remark changes nothing of it. */
  private readonly question = (): string => JSON.stringify([this.model.value, this.list.whole.map(sent)]);

  private render(): void {
    for (const pane of Object.values(this.panes)) pane.show(this.list.all, this.selected);
    this.table.show(this.list.all, this.list.whole, this.fit, this.selected);
    this.undoButton.disabled = !this.list.canUndo;
    this.byPairs.disabled = this.running || this.list.whole.filter((p) => p.used).length < fewestFor(this.model.value);
    this.byItself.disabled = this.running;
  }

  private readonly refit = debounce(120, () => void this.askFit());

  private async askFit(): Promise<void> {
    const [asked, question] = [++this.asked, this.question()];
    const { whole } = this.list;
    const used = whole.filter((p) => p.used);
    const fewest = fewestFor(this.model.value);
    const missing = fewest - used.length;
    let said = [missing > 0 ? neededText(missing, fewest > 2) : ''];
    let fit: PairsFit | null = null;
    try {
      if (missing <= 0) fit = await this.api.fitPairs(this.photograph, whole.map(sent), this.model.value);
      if (fit) said = summaryText(fit, used.map((p) => p.id));
    } catch (error) {
      said = [error instanceof Error ? error.message : String(error)];
    }
    if (asked !== this.asked) return;
    [this.fit, this.answered] = [fit, question];
    this.pairArrows.show(fit ? fit.pairs.map((p, i) => ({ place: whole[i]!.place, residual: p.residual })) : []);
    if (fit) said.push(t('Heavy arrows: what this leaves of each pair, drawn {0} times as long.', enlarged));
    fill(this.summary, ...said.map((text) => el('p', {}, text)));
    this.render();
  }

  private select(id: number): void {
    if (this.selected === id) return;
    this.selected = id;
    this.render();
  }

  private look(id: number): void {
    const pair = this.list.find(id);
    this.selected = id;
    for (const point of ['place', 'pixel'] as const) if (pair?.[point]) this.panes[point].lookAt(pair[point]);
    this.render();
  }

  private async set(point: Point, at: Place): Promise<void> {
    const pair = this.list.set(point, at);
    this.select(pair.id);
    if (isWhole(pair)) await this.settle(pair.id);
    else if (this.toggles.linked) await this.bring(point, at);
  }

  private add(): void {
    const { id } = this.list.add(this.panes.place.middle, this.panes.pixel.middle);
    this.select(id);
    this.panes.pixel.focus(id);
    void this.settle(id);
  }

  private async settle(id: number): Promise<void> {
    if (this.toggles.snap) await this.snap(id);
  }

  /** Moves a pair's point in the photograph to the best match near it, and says so. */
  private async snap(id: number): Promise<void> {
    const pair = this.list.find(id);
    if (!pair || !isWhole(pair) || pair.locked) return;
    try {
      const others = this.list.whole.filter((p) => p.id !== id);
      const { pixel, score, reason } = await this.api.snapPair(this.photograph, this.referred.photographId!, others.map(sent), sent(pair));
      // Whoever moved it meanwhile knows better.
      if (this.list.find(id)?.pixel !== pair.pixel || this.list.find(id)?.place !== pair.place) return;
      this.list.snapped(id, pixel, pixel ? t('Snapped by {0} px; the match is {1} of 1.', fixed(Math.hypot(pixel[0] - pair.pixel[0], pixel[1] - pair.pixel[1]), 1), fixed(score!, 2))
        : t('Not snapped, left where you set it: {0}{1}', reason![0]!.toLowerCase(), reason!.slice(1)));
    } catch (error) {
      if (!isAbort(error)) this.notices.problem(error);
    }
  }

  /** The other pane follows whoever looks around in one, but not while a pair waits for its second point. */
  private readonly follow = debounce(150, (point: Point) => {
    if (this.toggles.linked && !this.list.half) void this.bring(point, this.panes[point].middle);
  });

  /** Brings what lies at a point into the middle of the other pane, as large as here. Only pairs or an alignment say where that is. */
  private async bring(point: Point, at: Place): Promise<void> {
    const used = this.list.whole.filter((p) => p.used);
    if (used.length < 2 && (this.state.inForce?.verdict ?? 'not aligned') === 'not aligned') return;
    const found = await this.api.predictPair(this.photograph, used.map(sent), point === 'place' ? { place: at } : { pixel: at }).catch(() => null);
    const other = otherPoint(point);
    const there = found?.[other];
    if (!there || !found.mmPerPixel) return;
    const resolution = this.panes[point].view.getResolution()!;
    this.panes[other].lookAt(there, point === 'place' ? resolution / found.mmPerPixel : resolution * found.mmPerPixel);
  }

  private run(busy: boolean): void {
    this.running = busy;
    this.render();
  }

  private alignByPairs = (): Promise<void> =>
    this.state.follow(() => this.api.alignByPairs(this.photograph, this.referred.photographId!, this.list.whole.map(sent), this.model.value));

  private alignByItself = (): Promise<void> => this.state.follow(() => this.api.match(this.photograph, this.referred.photographId!, this.model.value));
}
