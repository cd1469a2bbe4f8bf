// The row of buttons over the stage. Each says what it does in words, and its key in the tooltip.
import { el } from './dom';
import { t } from './language';
import { type Mode, modes, type Store } from './state';

export interface ToolbarActions {
  mode(mode: Mode): void;
  swap(): void;
  whole(): void;
  onePixel(): void;
  turn(degrees: number): void;
  contrast(): void;
  stretch(): void;
  keys(): void;
}

const modeWords: Record<Mode, [word: string, hint: string]> = {
  alone: [t('A alone'), t('Show A alone (S)')],
  beside: [t('Beside'), t('A and B beside each other (B)')],
  divide: [t('Divide'), t('A left and B right of a movable edge (D)')],
  fade: [t('Fade'), t('B over A, as strong as you like (F)')],
  loupe: [t('Loupe'), t('B in a circle around the pointer (L)')],
};

/** Makes the row. `extra` holds the buttons of drawing and measuring. */
export function toolbar(store: Store, actions: ToolbarActions, ...extra: HTMLElement[]): HTMLElement {
  const modeButtons = modes.map((mode) => el('button', {
    type: 'button', 'aria-pressed': String(store.now.mode === mode), 'data-mode': mode, title: modeWords[mode][1], click: () => actions.mode(mode),
  }, modeWords[mode][0]));
  const fade = el('input', {
    type: 'range', min: 0, max: 1, step: 0.01, 'aria-label': t('How strongly B is seen'), input: () => store.set({ fade: Number(fade.value) }),
  });
  const swap = button(t('Swap'), t('Exchange A and B (X)'), actions.swap);
  store.on((_, changed) => (changed.has('mode') || changed.has('b') || changed.has('fade')) && show());
  const show = (): void => {
    const { mode, b, fade: amount } = store.now;
    for (const item of modeButtons) {
      item.setAttribute('aria-pressed', String(item.dataset['mode'] === mode));
      item.disabled = item.dataset['mode'] !== 'alone' && b === null;
    }
    fade.hidden = mode !== 'fade';
    fade.value = String(amount);
    swap.disabled = b === null;
  };
  show();
  return el('div', { class: 'toolbar', role: 'toolbar', 'aria-label': t('How the painting is shown') },
    el('span', { class: 'segments' }, ...modeButtons), fade, swap,
    el('span', { class: 'gap' }),
    button(t('Whole'), t('Bring the whole painting into view, upright (H)'), actions.whole),
    button('1:1', t('One pixel of A on one pixel of the screen (Z)'), actions.onePixel),
    button(t('Turn'), t('Turn a quarter to the right (R); Shift turns left'), (event) => actions.turn(event.shiftKey ? -90 : 90)),
    button(t('Contrast'), t('Contrast window, channels, invert, mirror (C)'), actions.contrast),
    button(t('Stretch'), t('Components and decorrelation stretches of several layers (W)'), actions.stretch),
    el('span', { class: 'gap' }), ...extra, el('span', { class: 'push' }),
    button(t('Keys'), t('List all keys (?)'), actions.keys));
}

/** A plain button. */
export const button = (word: string, title: string, click: (event: MouseEvent) => void): HTMLButtonElement =>
  el('button', { type: 'button', title, click: (event) => click(event as MouseEvent) }, word);
