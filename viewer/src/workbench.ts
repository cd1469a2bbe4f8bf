// Puts the Easel's parts together and connects them; each part lives in its own file.
import type { Api, Layer, Painting } from './api';
import { clampEdge, clampLoupe } from './compare';
import { ContrastPanel } from './contrast';
import { debounce, el, fill } from './dom';
import { addEdge, addRing } from './edge';
import { nextGround } from './ground';
import { digitOf, key, type Key, KeySheet, listen, sign } from './keys';
import { readLink, writeLink } from './link';
import { Notices } from './notices';
import { Readout } from './readout';
import { Stage } from './stage';
import { initialState, layerOf, type Look, type Mode, plainLook, type Side, Store } from './state';
import { planeLayers, Strip } from './strip';
import { toolbar } from './toolbar';

export class Workbench {
  private readonly store: Store;
  private readonly stage: Stage;
  private readonly notices = new Notices(() => void this.retry());
  private readonly contrast: ContrastPanel;
  private readonly looks = new Map<string, Look>();
  private readonly sheet: KeySheet;

  constructor(private readonly main: HTMLElement, private readonly painting: Painting, private readonly api: Api) {
    this.store = new Store({ ...initialState, ...this.firstLooks(), ...readLink(new URLSearchParams(location.search), painting) });
    api.onReach = (reached) => this.notices.reach(reached);
    const centre = el('div', { class: 'centre' });
    this.stage = new Stage(centre, painting, this.store, api, (layer) => this.notices.tileMissing(layer.label));
    this.contrast = new ContrastPanel(painting, this.store, api);
    const readout = new Readout(painting.heightMm);
    const strip = new Strip(painting, this.store, api, { choose: (side, layer) => this.choose(side, layer), openAlone: (layer) => this.openAlone(layer) });
    const keys = this.keys();
    this.sheet = new KeySheet(keys);
    const bar = toolbar(this.store, {
      mode: (mode) => this.mode(mode), swap: () => this.swap(), whole: () => this.stage.whole(), onePixel: () => this.onePixel(),
      turn: (degrees) => this.turn(degrees), contrast: () => this.contrast.toggle(), keys: () => this.sheet.open(),
    });
    addEdge(this.stage, this.store);
    addRing(this.stage, this.store);
    this.stage.element.append(...this.labels(), readout.place, readout.scale);
    centre.prepend(bar);
    centre.append(this.contrast.element, this.notices.element);
    fill(main, centre, strip.element, this.sheet.element);
    listen(keys, () => this.sheet.lettersOn);
    this.stage.element.addEventListener('pointermove', (event) => readout.show(this.stage.placeAt(event)));
    this.stage.element.addEventListener('pointerleave', () => readout.show(null));
    this.store.on((state, changed) => changed.has('view') && state.view && readout.rescale(state.view.mmPerPixel));
    const relink = debounce(150, () => this.relink());
    this.store.on(relink);
  }

  /** Shows the painting as the link says. */
  begin(): void {
    this.main.classList.add('easel');
    this.stage.begin();
    this.relink();
  }

  private firstLooks(): { a: Look | null; b: Look | null } {
    const layers = planeLayers(this.painting);
    const a = layers.find((l) => l.light === 'VIS') ?? layers[0];
    const b = layers.find((l) => l.light === 'UVL') ?? layers.find((l) => l !== a);
    return { a: a ? plainLook(a) : null, b: b ? plainLook(b) : null };
  }

  private choose(side: Side, layer: Layer): void {
    const old = this.store.now[side];
    if (old) this.looks.set(`${side} ${old.layer}`, old);
    const look = this.looks.get(`${side} ${layer.id}`) ?? plainLook(layer);
    this.store.set({ [side]: look, ...(side === 'b' && this.store.now.mode === 'alone' ? { mode: 'divide' } : {}) });
  }

  private openAlone(layer: Layer): void {
    location.search = new URLSearchParams({ original: layer.id }).toString();
  }

  private mode(mode: Mode): void {
    if (mode === 'alone' || this.store.now.b) this.store.set({ mode });
  }

  private swap(): void {
    const { a, b } = this.store.now;
    if (a && b) this.store.set({ a: b, b: a });
  }

  private onePixel(): void {
    const layer = layerOf(this.painting, this.store.now.a?.layer);
    if (layer) this.stage.view.setResolution(layer.mmPerPixel / devicePixelRatio);
  }

  private turn(degrees: number): void {
    this.stage.view.adjustRotation((degrees * Math.PI) / 180);
  }

  private labels(): HTMLElement[] {
    const make = (side: Side): HTMLElement => {
      const label = el('div', { class: `label ${side}` });
      const show = (): void => {
        const { mode, [side]: look } = this.store.now;
        const layer = layerOf(this.painting, look?.layer);
        label.hidden = !layer || (side === 'b' && mode === 'alone');
        fill(label, el('b', {}, side.toUpperCase()), ` ${layer?.label ?? ''}${describe(look)}`);
      };
      this.store.on(show);
      show();
      return label;
    };
    return [make('a'), make('b')];
  }

  private keys(): Key[] {
    const { store, stage } = this;
    const layers = planeLayers(this.painting);
    const pan = (dx: number, dy: number) => (event: KeyboardEvent): void => stage.pan(dx, dy, event.shiftKey ? 4 : 1);
    const arrow = (name: string) => (event: KeyboardEvent): boolean => event.key === name && !event.ctrlKey && !event.altKey;
    const modeKey = (keys: string, mode: Mode, says: string): Key =>
      ({ keys: keys.toUpperCase(), says, group: 'Compare', match: key(keys), act: () => this.mode(mode) });
    const digit = (event: KeyboardEvent): void => {
      const layer = layers[digitOf(event)! - 1];
      if (layer) this.choose(event.shiftKey ? 'b' : 'a', layer);
    };
    return [
      { keys: '1 to 9', says: 'that layer of the strip on A', group: 'Layers', match: (e) => digitOf(e) !== null && !e.shiftKey, act: digit },
      { keys: 'Shift+1 to 9', says: 'that layer on B', group: 'Layers', match: (e) => digitOf(e) !== null && e.shiftKey, act: digit },
      { keys: 'X', says: 'exchange A and B', group: 'Layers', match: key('x'), act: () => this.swap() },
      { keys: 'C', says: 'contrast, channels', group: 'Layers', match: key('c'), act: () => this.contrast.toggle() },
      { keys: 'I', says: 'invert A', group: 'Layers', match: key('i'), act: () => this.contrast.change({ invert: !store.now.a?.invert }, 'a') },
      { keys: 'M', says: 'mirror A left to right', group: 'Layers', match: key('m'), act: () => this.contrast.change({ mirror: !store.now.a?.mirror }, 'a') },
      modeKey('s', 'alone', 'A alone'), modeKey('b', 'beside', 'beside'), modeKey('d', 'divide', 'divide'), modeKey('f', 'fade', 'fade'), modeKey('l', 'loupe', 'loupe'),
      { keys: '[ and ]', says: 'move the edge, fade, size of the loupe', group: 'Compare', match: sign('[', ']'), act: (e) => this.shift(e.key === ']' ? 1 : -1) },
      { keys: '← ↑ → ↓', says: 'move; with Shift further', group: 'View', match: arrow('ArrowLeft'), act: pan(-1, 0) },
      { keys: '', says: '', group: '', match: arrow('ArrowRight'), act: pan(1, 0) },
      { keys: '', says: '', group: '', match: arrow('ArrowUp'), act: pan(0, -1) },
      { keys: '', says: '', group: '', match: arrow('ArrowDown'), act: pan(0, 1) },
      { keys: '+ and −', says: 'closer, further', group: 'View', match: sign('+', '=', '-'), act: (e) => stage.zoom(e.key === '-' ? -0.5 : 0.5) },
      { keys: 'H', says: 'whole painting, upright', group: 'View', match: key('h'), act: () => stage.whole() },
      { keys: 'Z', says: 'one pixel on one pixel', group: 'View', match: key('z'), act: () => this.onePixel() },
      { keys: 'R', says: 'turn a quarter right; with Shift left', group: 'View', match: sign('r', 'R'), act: (e) => this.turn(e.shiftKey ? -90 : 90) },
      { keys: ', and .', says: 'turn by one degree', group: 'View', match: sign(',', '.'), act: (e) => this.turn(e.key === '.' ? 1 : -1) },
      { keys: 'G', says: 'ground lighter; with Shift darker', group: 'View', match: sign('g', 'G'), act: (e) => store.set({ ground: nextGround(store.now.ground, e.shiftKey ? -1 : 1) }) },
      { keys: '?', says: 'this list', group: 'View', match: sign('?'), act: () => this.sheet.open() },
    ];
  }

  /** Moves whatever the way of comparing can move. */
  private shift(direction: 1 | -1): void {
    const { mode, edge, fade, loupe } = this.store.now;
    if (mode === 'divide') this.store.set({ edge: clampEdge(edge + direction * 0.02) });
    if (mode === 'fade') this.store.set({ fade: Math.min(1, Math.max(0, fade + direction * 0.05)) });
    if (mode === 'loupe') this.store.set({ loupe: clampLoupe(loupe * 1.1 ** direction) });
  }

  private relink(): void {
    const query = writeLink(this.store.now, this.painting, new URLSearchParams(location.search));
    history.replaceState(history.state, '', `${location.pathname}?${query}`);
  }

  private async retry(): Promise<void> {
    try {
      await this.api.painting(this.painting.id);
      this.notices.clearMissing();
      this.stage.panes.a.refresh();
      this.stage.panes.b.refresh();
    } catch (error) {
      this.notices.problem(error);
    }
  }
}

/** What differs from the plain picture, in words. */
function describe(look: Look | null): string {
  if (!look) return '';
  const show = look.show.startsWith('ir:') ? 'false colour' : look.show === 'grey' ? 'grey' : '';
  const said = [show, look.invert && 'inverted', look.mirror && 'mirrored'].filter(Boolean).join(', ');
  return said ? `, ${said}` : '';
}
