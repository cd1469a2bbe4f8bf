// Corners by hand: the original pixels with the four corners of the painted face, each with a loupe; then the photograph is aligned again.
import type { Api, Layer, Painting } from './api';
import { el, fill } from './dom';
import { Handles } from './handles';
import { t } from './language';
import { Notices } from './notices';
import type { Place } from './plane';
import { endedAs, followRun, residualText } from './runs';
import { button } from './toolbar';

const corners = [t('Upper left'), t('Upper right'), t('Lower right'), t('Lower left')].map((name) => ({ name, says: (at: string): string => t('{0} corner at {1}. Arrow keys move it.', name, at) }));

/** Opens the corners of one photograph. */
export async function openCorners(main: HTMLElement, painting: Painting, photograph: string, api: Api): Promise<void> {
  const [layer, { corners }] = await Promise.all([api.layer(`o-${photograph}`), api.corners(photograph)]);
  new CornersPage(main, painting, layer, api, corners ?? inset(layer)).show();
}

/** Where corners start when none were found: a tenth in from the frame. */
export const inset = ({ width, height }: Pick<Layer, 'width' | 'height'>): Place[] =>
  [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]].map(([x, y]) => [x! * width, y! * height]);

class CornersPage {
  private readonly notices = new Notices(() => location.reload());
  private readonly result = el('p', { class: 'result', role: 'status', 'aria-live': 'polite' });
  private readonly align = button(t('Align again'), t('Stores these corners and aligns the photograph by them'), () => void this.alignAgain());
  private readonly handles: Handles;

  constructor(private readonly main: HTMLElement, painting: Painting, private readonly layer: Layer, private readonly api: Api, private points: readonly Place[]) {
    api.onReach = (reached) => this.notices.reach(reached);
    this.handles = new Handles(layer, painting, api, this.notices, t('{0}: corners of the painted face', layer.label), corners, points, (moved) => { this.points = moved; });
  }

  show(): void {
    fill(this.main,
      el('div', { class: 'centre' },
        el('div', { class: 'toolbar' }, el('a', { class: 'button', href: location.pathname }, t('Back to the Easel')), this.align, this.handles.undoing),
        el('div', { class: 'frame' }, this.handles.stage, this.notices.element)),
      el('section', { class: 'column loupes', 'aria-label': t('Corners') },
        el('p', {}, t('Put each corner where the painted face ends. Drag it, or focus a loupe and use the arrow keys; with Shift ten pixels, with Alt a tenth.')),
        el('div', { class: 'fourfold' }, ...this.handles.loupes.map((l) => l.element)), this.result));
    this.main.classList.add('easel', 'corners');
    this.handles.begin();
  }

  private async alignAgain(): Promise<void> {
    this.align.disabled = true;
    try {
      const photograph = this.layer.photographId!;
      const { runId } = await this.api.setCorners(photograph, [...this.points]);
      const run = await followRun(this.api, runId, (text) => fill(this.result, text));
      const { alignments } = await this.api.photograph(photograph);
      const now = alignments.find((a) => a.inForce);
      fill(this.result, run.state === 'done' && now ? residualText(now) : run.problem?.message ?? run.noAnswer ?? endedAs(run));
    } catch (error) {
      fill(this.result, error instanceof Error ? error.message : String(error));
    } finally {
      this.align.disabled = false;
    }
  }
}
