// A caption as elements. What a person wrote is text: markup in it is shown, never followed.
import { el } from './dom';
import type { ShownStep } from './walkstep';

/** Title, paragraphs, and what is no longer there. Each finds its own direction, so that an Arabic or Hebrew line runs from the right. */
export const captionOf = (step: Pick<ShownStep, 'title' | 'caption' | 'notes'>): HTMLElement[] => [
  ...(step.title ? [el('h2', { dir: 'auto' }, step.title)] : []),
  ...step.caption.split(/\n+/).filter((line) => line.trim() !== '').map((line) => el('p', { dir: 'auto' }, line)),
  ...step.notes.map((note) => el('p', { class: 'note', lang: 'en' }, note)),
];
