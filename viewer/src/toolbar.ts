// The row of buttons over the stage. Each says what it does in words, and its key in the tooltip.
import { el } from './dom';
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
  alone: ['A alone', 'Show A alone (S)'],
  beside: ['Beside', 'A and B beside each other (B)'],
  divide: ['Divide', 'A left and B right of a movable edge (D)'],
  fade: ['Fade', 'B over A, as strong as you like (F)'],
  loupe: ['Loupe', 'B in a circle around the pointer (L)'],
};

/** Makes the row. `extra` holds the buttons of drawing and measuring. */
export function toolbar(store: Store, actions: ToolbarActions, ...extra: HTMLElement[]): HTMLElement {
  const modeButtons = modes.map((mode) => el('button', {
    type: 'button', 'aria-pressed': String(store.now.mode === mode), 'data-mode': mode, title: modeWords[mode][1], click: () => actions.mode(mode),
  }, modeWords[mode][0]));
  const fade = el('input', {
    type: 'range', min: 0, max: 1, step: 0.01, 'aria-label': 'How strongly B is seen', input: () => store.set({ fade: Number(fade.value) }),
  });
  const swap = button('Swap', 'Exchange A and B (X)', actions.swap);
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
  return el('div', { class: 'toolbar', role: 'toolbar', 'aria-label': 'How the painting is shown' },
    el('span', { class: 'segments' }, ...modeButtons), fade, swap,
    el('span', { class: 'gap' }),
    button('Whole', 'Bring the whole painting into view, upright (H)', actions.whole),
    button('1:1', 'One pixel of A on one pixel of the screen (Z)', actions.onePixel),
    button('Turn', 'Turn a quarter to the right (R); Shift turns left', (event) => actions.turn(event.shiftKey ? -90 : 90)),
    button('Contrast', 'Contrast window, channels, invert, mirror (C)', actions.contrast),
    button('Stretch', 'Components and decorrelation stretches of several layers (W)', actions.stretch),
    el('span', { class: 'gap' }), ...extra, el('span', { class: 'push' }),
    button('Keys', 'List all keys (?)', actions.keys));
}

/** A plain button. */
export const button = (word: string, title: string, click: (event: MouseEvent) => void): HTMLButtonElement =>
  el('button', { type: 'button', title, click: (event) => click(event as MouseEvent) }, word);
