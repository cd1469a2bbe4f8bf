// The labels on the stage that say which layer lies in A and in B.
import type { Painting } from './api';
import { classesOf, classKey } from './classhatch';
import { el, fill } from './dom';
import { t } from './language';
import { lampText } from './relightlamp';
import { layerOf, type Look, type Side, type Store } from './state';

/** Makes both labels; they follow the state. */
export const labels = (painting: Painting, store: Store): HTMLElement[] => [label('a', painting, store), label('b', painting, store)];

function label(side: Side, painting: Painting, store: Store): HTMLElement {
  const element = el('div', { class: `label ${side}` });
  const show = (): void => {
    const { mode, relight, [side]: look } = store.now;
    const layer = layerOf(painting, look?.layer);
    element.hidden = !layer || (side === 'b' && mode === 'alone');
    const lit = side === 'a' && relight?.run ? relight : null;
    const classes = lit && lit.show !== 'over' ? null : classesOf(layer);
    const shown = `${layer?.label ?? ''}${describe(look)}`;
    fill(element, el('b', {}, side.toUpperCase()), lit === null ? ` ${shown}` : lit.show === 'over' ? t(' {0}, with the light and shade of its surface', shown) : t(' Measured surface, lit {0}', lampText(lit)), classes && classKey(classes));
  };
  store.on((_, changed) => (changed.has(side) || changed.has('mode') || changed.has('relight')) && show());
  show();
  return element;
}

/** What differs from the plain picture, in words. */
function describe(look: Look | null): string {
  if (!look) return '';
  const show = look.show.startsWith('ir:') ? t('false colour') : look.show === 'grey' ? t('grey') : '';
  const said = [show, look.invert && t('inverted'), look.mirror && t('mirrored')].filter(Boolean).join(', ');
  return said ? `, ${said}` : '';
}
