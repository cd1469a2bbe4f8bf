// A walk full screen in front of people: the picture, the words, the scale, and nothing else. Steered by keys, a presenter's remote (which sends PageUp
// and PageDown), or a tap.
import 'ol/ol.css';
import './walk.css';
import { Api, Lost, Problem, told } from './api';
import { el, fill } from './dom';
import { t } from './language';
import { LivePane, type LivePicture } from './livepane';
import { Readout } from './readout';
import { captionOf } from './walkcaption';
import { stillWanted, WalkStage } from './walkstage';
import { countText, picturesText, type ShownWalk } from './walkstep';

/** A walk as the server finds it. */
interface LiveWalk extends ShownWalk {
  pictures: LivePicture[];
}

/** How long the pointer stays in sight after it was moved, ms. */
const patience = 2000;

/** From so many letters on a caption is set smaller. */
const long = 420;

class Presenting {
  private readonly words = el('section', { class: 'presented', 'aria-live': 'polite', 'aria-atomic': 'true', tabindex: '0' });
  private readonly label = el('p', { class: 'label' });
  private readonly stage: WalkStage;
  private readonly scale: Readout;
  private index = 0;
  private idle: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly main: HTMLElement, private readonly walk: LiveWalk, panes: (element: HTMLElement, view: WalkStage['view']) => LivePane, painting: { widthMm: number; heightMm: number; finest: number }) {
    this.stage = new WalkStage(painting, walk.zones, panes, false);
    this.scale = new Readout(painting.heightMm);
    this.stage.element.append(this.label, this.scale.scale);
    this.stage.view.on('change:resolution', () => this.scale.rescale(this.stage.view.getResolution()!));
    this.words.lang = walk.language;
    fill(main, this.stage.element, this.words);
  }

  begin(): void {
    const start = Number(new URLSearchParams(location.search).get('step') ?? 1);
    addEventListener('keydown', (event) => this.key(event));
    addEventListener('pointermove', () => this.awake());
    this.stage.element.addEventListener('click', (event) => this.show(this.index + (event.clientX < innerWidth / 3 ? -1 : 1)));
    this.awake();
    requestAnimationFrame(() => this.show(Number.isInteger(start) ? start - 1 : 0, false));
  }

  private show(index: number, fly = !stillWanted()): void {
    const { steps } = this.walk;
    this.index = Math.min(Math.max(0, index), steps.length - 1);
    const step = steps[this.index]!;
    fill(this.words, ...captionOf(step));
    this.words.classList.toggle('long', step.caption.length > long);
    this.words.setAttribute('aria-label', countText(this.index, steps.length));
    this.words.scrollTop = 0;
    this.label.textContent = picturesText(step, this.walk.pictures);
    this.stage.compare(step);
    this.stage.showZones(step.zones);
    // The words' height decides the stage's, which decides the view.
    requestAnimationFrame(() => this.stage.go(step, fly));
    history.replaceState(null, '', `?step=${this.index + 1}`);
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const acts: Record<string, () => void> = {
      ArrowRight: () => this.show(this.index + 1), ArrowLeft: () => this.show(this.index - 1), PageDown: () => this.show(this.index + 1), PageUp: () => this.show(this.index - 1),
      ' ': () => this.show(this.index + 1), Home: () => this.show(0), End: () => this.show(this.walk.steps.length - 1), f: () => void this.fullScreen(), F: () => void this.fullScreen(), Escape: () => this.end(),
      ArrowDown: () => this.words.scrollBy(0, 80), ArrowUp: () => this.words.scrollBy(0, -80),
    };
    const act = acts[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  private async fullScreen(): Promise<void> {
    if (document.fullscreenElement) await document.exitFullscreen();
    else await document.documentElement.requestFullscreen();
  }

  /** The browser keeps the first Esc for itself while it shows a page full screen. */
  private end(): void {
    location.href = this.main.dataset['end']!;
  }

  private awake(): void {
    this.main.classList.remove('idle');
    clearTimeout(this.idle);
    this.idle = setTimeout(() => this.main.classList.add('idle'), patience);
  }
}

async function start(main: HTMLElement): Promise<void> {
  const api = new Api();
  main.classList.add('presenting');
  try {
    const [painting, walk] = await Promise.all([api.painting(main.dataset['painting']!), api.shownWalk(main.dataset['walk']!) as Promise<LiveWalk>]);
    const finest = Math.min(...painting.layers.filter((l) => l.onPlane).map((l) => l.mmPerPixel));
    new Presenting(main, walk, (element, view) => new LivePane(element, view, painting, walk.pictures, api), { widthMm: painting.widthMm, heightMm: painting.heightMm, finest }).begin();
  } catch (error) {
    if (!(error instanceof Lost || error instanceof Problem)) throw error;
    fill(main, el('div', { class: 'told', role: 'alert' }, el('p', {}, error instanceof Problem ? told(error) : error.message), el('p', {}, el('a', { href: main.dataset['end']! }, t('To the Easel')))));
  }
}

const main = document.getElementById('walk');
if (main) void start(main);
