// Puts the Easel's parts together and connects them; each part lives in its own file.
import type { Api, Layer, Painting } from './api';
import { ContrastPanel } from './contrast';
import { debounce, el, fill } from './dom';
import { addEdge, addRing } from './edge';
import { KeySheet, listen } from './keys';
import { labels } from './labels';
import { readLink, writeLink } from './link';
import { Notices } from './notices';
import { ProfileDesk } from './profile';
import { Readout } from './readout';
import { RelightDesk } from './relight';
import { sampleLayer } from './samples';
import { spotLayer } from './spots';
import { shortcuts } from './shortcuts';
import { Stage } from './stage';
import { initialState, layerOf, type Look, type Mode, plainLook, type Side, Store } from './state';
import { planeLayers, Strip } from './strip';
import { TeachDesk } from './teachdesk';
import { StretchPanel } from './stretch';
import { toolbar } from './toolbar';
import { TreatDesk } from './treatdesk';
import { WalkDesk } from './walkdesk';
import { ZoneDesk } from './zonedesk';

export class Workbench {
  private readonly store: Store;
  private readonly stage: Stage;
  private readonly notices = new Notices(() => void this.retry());
  private readonly contrast: ContrastPanel;
  private readonly looks = new Map<string, Look>();
  private readonly desk: ZoneDesk;
  private readonly teach: TeachDesk;
  private readonly relight: RelightDesk;
  private readonly profile: ProfileDesk;
  private readonly walk: WalkDesk;
  private readonly treat: TreatDesk;

  constructor(private readonly main: HTMLElement, private readonly painting: Painting, private readonly api: Api) {
    this.store = new Store({ ...initialState, ...this.firstLooks(), ...readLink(new URLSearchParams(location.search), painting) });
    api.onReach = (reached) => this.notices.reach(reached);
    const frame = el('div', { class: 'frame' });
    this.stage = new Stage(frame, painting, this.store, api, (layer) => this.notices.tileMissing(layer.label));
    this.contrast = new ContrastPanel(painting, this.store, api);
    const stretch = new StretchPanel(painting, this.store, api, (side, layer) => this.choose(side, layer));
    const readout = new Readout(painting.heightMm);
    const strip = new Strip(painting, this.store, api, { choose: (side, layer) => this.choose(side, layer), openAlone: (layer) => this.openAlone(layer) });
    this.desk = new ZoneDesk(painting, this.stage, this.store, api, this.notices);
    this.teach = new TeachDesk(painting, this.stage, this.store, api, this.desk.tools, this.desk.zones, this.notices);
    this.desk.column.prepend(this.teach.element);
    this.relight = new RelightDesk(painting, this.stage, this.store, api, this.notices);
    this.profile = new ProfileDesk(painting, this.stage, this.store, api, this.desk.tools);
    this.walk = new WalkDesk(painting, this.stage, this.store, api, this.desk.zones, this.notices);
    this.treat = new TreatDesk(painting, this.stage, this.store, api, this.notices);
    this.desk.column.prepend(this.walk.element, this.treat.element);
    const actions = {
      choose: (side: Side, layer: Layer) => this.choose(side, layer), mode: (mode: Mode) => this.mode(mode), swap: () => this.swap(),
      whole: () => this.stage.whole(), onePixel: () => this.onePixel(), turn: (degrees: number) => this.turn(degrees),
      contrast: () => this.toggleContrast(), stretch: () => this.store.set({ stretch: !this.store.now.stretch }), keys: () => sheet.open(),
    };
    const [common, ofTeaching] = [[...shortcuts(this.store, this.stage, planeLayers(painting), actions), ...this.desk.keys(), ...this.relight.keys(), ...this.profile.keys(), ...this.walk.keys(), ...this.treat.keys()], this.teach.keys()];
    const sheet = new KeySheet([...common, ...ofTeaching]);
    addEdge(this.stage, this.store);
    addRing(this.stage, this.store);
    this.stage.element.append(...labels(painting, this.store), readout.place, readout.scale);
    frame.append(this.contrast.element, stretch.element, this.relight.element, this.profile.element, this.notices.element);
    fill(main, el('div', { class: 'centre' }, toolbar(this.store, actions, ...this.desk.buttons, el('span', { class: 'group' }, this.relight.button, this.profile.button, this.teach.button, this.treat.button, this.walk.button)), frame), this.desk.column, strip.element, sheet.element);
    // The windows lie in the same place: one opens as another closes.
    this.store.on((state, changed) => {
      const opened = changed.has('stretch') && state.stretch ? 'stretch' : changed.has('relight') && state.relight ? 'relight' : null;
      if (opened && !this.contrast.element.hidden) this.contrast.toggle();
      if (opened === 'stretch' && state.relight) this.store.set({ relight: null });
      if (opened === 'relight' && state.stretch) this.store.set({ stretch: false });
    });
    // While marks are made their keys come first.
    listen([...ofTeaching, ...common], () => sheet.lettersOn);
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
    void this.desk.begin();
    void this.teach.begin();
    this.relight.begin();
    this.profile.begin();
    this.walk.begin();
    this.treat.begin();
    void this.showSamples();
  }

  private async showSamples(): Promise<void> {
    try {
      this.stage.addOverlay(sampleLayer(await this.api.samples(this.painting.id)));
      this.stage.addOverlay(spotLayer(await this.api.cleaningSpots(this.painting.id)));
    } catch (error) {
      this.notices.problem(error);
    }
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

  private toggleContrast(): void {
    this.store.set({ stretch: false, relight: null });
    this.contrast.toggle();
  }

  private onePixel(): void {
    const layer = layerOf(this.painting, this.store.now.a?.layer);
    if (layer) this.stage.view.setResolution(layer.mmPerPixel / devicePixelRatio);
  }

  private turn(degrees: number): void {
    this.stage.view.adjustRotation((degrees * Math.PI) / 180);
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
      this.relight.refresh();
      await this.walk.flush();
      await this.desk.begin();
      await this.teach.begin();
    } catch (error) {
      this.notices.problem(error);
    }
  }
}
