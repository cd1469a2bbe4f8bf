// The labels on the stage that say which layer lies in A and in B.
import type { Painting } from './api';
import { el, fill } from './dom';
import { layerOf, type Look, type Side, type Store } from './state';

/** Makes both labels; they follow the state. */
export const labels = (painting: Painting, store: Store): HTMLElement[] => [label('a', painting, store), label('b', painting, store)];

function label(side: Side, painting: Painting, store: Store): HTMLElement {
  const element = el('div', { class: `label ${side}` });
  const show = (): void => {
    const { mode, [side]: look } = store.now;
    const layer = layerOf(painting, look?.layer);
    element.hidden = !layer || (side === 'b' && mode === 'alone');
    fill(element, el('b', {}, side.toUpperCase()), ` ${layer?.label ?? ''}${describe(look)}`);
  };
  store.on((_, changed) => (changed.has(side) || changed.has('mode')) && show());
  show();
  return element;
}

/** What differs from the plain picture, in words. */
function describe(look: Look | null): string {
  if (!look) return '';
  const show = look.show.startsWith('ir:') ? 'false colour' : look.show === 'grey' ? 'grey' : '';
  const said = [show, look.invert && 'inverted', look.mirror && 'mirrored'].filter(Boolean).join(', ');
  return said ? `, ${said}` : '';
}
