import { svg } from './dom';
import { RingEdits } from './ringedits';

/** How far an arrow key moves a boundary, mm; with Shift ten times as far. */
const STEP = 0.05;

const picture = document.querySelector<SVGSVGElement>('svg.ring-strip');
const out = document.querySelector<HTMLInputElement>('#entry-out');
const into = document.querySelector<HTMLInputElement>('#entry-in');
if (picture && out && into) begin(picture, out, into);

/** Makes the marks on the picture movable by pointer and by keys; the fields of the form say what changed. */
function begin(picture: SVGSVGElement, out: HTMLInputElement, into: HTMLInputElement): void {
  const perMm = Number(picture.dataset.perMm);
  const marks = [...picture.querySelectorAll<SVGGElement>('g.mark')];
  const longest = picture.viewBox.baseVal.width / perMm;
  const edits = new RingEdits(marks.map((m) => Number(m.dataset.mm)), longest);

  const show = (mark: SVGGElement, index: number): void => {
    const mm = edits.places[index] ?? null;
    mark.toggleAttribute('hidden', mm === null);
    if (mm !== null) {
      mark.setAttribute('transform', `translate(${(mm * perMm).toFixed(2)} 0)`);
      mark.setAttribute('aria-valuenow', mm.toFixed(2));
    }
    [out.value, into.value] = [edits.out, edits.in];
  };

  const makeMovable = (mark: SVGGElement, index: number): void => {
    const label = mark.querySelector('title')?.textContent ?? picture.dataset.newLabel ?? '';
    let grip = 0;
    for (const [name, value] of Object.entries({ tabindex: '0', role: 'slider', 'aria-label': label, 'aria-valuemin': '0', 'aria-valuemax': longest.toFixed(2) })) mark.setAttribute(name, value);
    show(mark, index);
    mark.addEventListener('keydown', (e) => {
      const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[e.key];
      if (by) edits.move(index, edits.places[index]! + by * STEP * (e.shiftKey ? 10 : 1));
      else if (e.key === 'Delete' || e.key === 'Backspace') edits.takeOut(index);
      else return;
      e.preventDefault();
      if (edits.places[index] === null) (marks.slice(index + 1).find((m) => !m.hasAttribute('hidden')) ?? picture.closest<HTMLElement>('[tabindex]'))?.focus();
      show(mark, index);
    });
    mark.addEventListener('pointerdown', (e) => {
      e.preventDefault();
      mark.focus();
      mark.setPointerCapture(e.pointerId);
      grip = placeOf(e) - edits.places[index]!;
    });
    mark.addEventListener('pointermove', (e) => {
      if (!mark.hasPointerCapture(e.pointerId)) return;
      edits.move(index, placeOf(e) - grip);
      show(mark, index);
    });
  };

  const placeOf = (e: MouseEvent): number => (e.clientX - picture.getBoundingClientRect().left) / (picture.getBoundingClientRect().width / picture.viewBox.baseVal.width) / perMm;

  marks.forEach(makeMovable);
  picture.addEventListener('dblclick', (e) => {
    const height = picture.querySelector('image')!.height.baseVal.value;
    const mark = svg('g', { class: 'mark' }, svg('line', { y1: 0, y2: height, stroke: 'transparent', 'stroke-width': 9 }),
      svg('line', { y1: 0, y2: height, stroke: '#ffffff', 'stroke-width': 3 }), svg('line', { y1: 0, y2: height, stroke: '#000000', 'stroke-width': 1.2, 'stroke-dasharray': '6 4' })) as SVGGElement;
    picture.append(mark);
    marks.push(mark);
    makeMovable(mark, edits.add(placeOf(e)));
    mark.focus();
  });
  document.querySelector('#ring-help')?.removeAttribute('hidden');
}
