// The movable edge between A and B, and the ring of the loupe.
import { clampEdge, clampLoupe, edgeAt } from './compare';
import { el } from './dom';
import { t } from './language';
import type { Stage } from './stage';
import type { Store } from './state';

/** Adds the handle of the edge to the stage: dragged, or moved by arrow keys. */
export function addEdge(stage: Stage, store: Store): void {
  const handle = el('div', {
    class: 'edge', role: 'slider', tabindex: '0', 'aria-label': t('Edge between A and B'), 'aria-orientation': 'horizontal', 'aria-valuemin': 0, 'aria-valuemax': 100,
  });
  const show = (): void => {
    const { mode, edge } = store.now;
    handle.hidden = mode !== 'divide';
    handle.style.left = `${edgeAt(edge, stage.element.clientWidth)}px`;
    handle.setAttribute('aria-valuenow', String(Math.round(edge * 100)));
  };
  handle.addEventListener('pointerdown', (event) => {
    handle.setPointerCapture(event.pointerId);
    event.preventDefault();
    handle.focus();
  });
  handle.addEventListener('pointermove', (event) => {
    if (!handle.hasPointerCapture(event.pointerId)) return;
    const box = stage.element.getBoundingClientRect();
    store.set({ edge: clampEdge((event.clientX - box.left) / box.width) });
  });
  handle.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 0.1 : 0.01;
    const by = { ArrowLeft: -step, ArrowRight: step, ArrowDown: -step, ArrowUp: step }[event.key];
    const to = event.key === 'Home' ? 0 : event.key === 'End' ? 1 : by === undefined ? null : store.now.edge + by;
    if (to === null) return;
    event.preventDefault();
    event.stopPropagation();
    store.set({ edge: clampEdge(to) });
  });
  store.on((_, changed) => (changed.has('mode') || changed.has('edge')) && show());
  new ResizeObserver(show).observe(stage.element);
  stage.element.append(handle);
  show();
}

/** Adds the loupe's ring, which shows where B ends; Alt and the wheel change its size. */
export function addRing(stage: Stage, store: Store): void {
  const ring = el('div', { class: 'ring', hidden: true });
  const show = (): void => {
    const { mode, loupe } = store.now;
    ring.hidden = mode !== 'loupe';
    const [x, y] = stage.pointer ?? [stage.element.clientWidth / 2, stage.element.clientHeight / 2];
    ring.style.transform = `translate(${x - loupe}px, ${y - loupe}px)`;
    ring.style.width = ring.style.height = `${2 * loupe}px`;
  };
  stage.element.addEventListener('pointermove', () => store.now.mode === 'loupe' && show());
  stage.element.addEventListener('wheel', (event) => {
    if (store.now.mode !== 'loupe' || !event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    store.set({ loupe: clampLoupe(store.now.loupe * (event.deltaY < 0 ? 1.1 : 1 / 1.1)) });
  }, { capture: true, passive: false });
  store.on((_, changed) => (changed.has('mode') || changed.has('loupe')) && show());
  stage.element.append(ring);
  show();
}
