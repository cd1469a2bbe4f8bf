// Small helpers for making elements. No markup strings and no style attributes: the page's security policy forbids both.

type Attributes = Record<string, string | number | boolean | undefined | ((event: Event) => void)>;
type Child = Node | string | null | undefined | false;

/** Makes an element. Attributes that are functions become listeners; false and undefined are left out; true is an empty attribute. */
export function el<K extends keyof HTMLElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: Child[]): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === 'function') element.addEventListener(name, value);
    else if (value !== undefined && value !== false) element.setAttribute(name, value === true ? '' : String(value));
  }
  put(element, ...children);
  return element;
}

/** Makes an element of a drawing (SVG). */
export function svg(tag: string, attributes: Record<string, string | number> = {}, ...children: Child[]): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  put(element, ...children);
  return element;
}

/** Appends children, skipping the empty ones. */
export function put(element: Element, ...children: Child[]): void {
  element.append(...children.filter((c): c is Node | string => c !== null && c !== undefined && c !== false && c !== ''));
}

/** Replaces what an element holds. */
export function fill(element: Element, ...children: Child[]): void {
  element.replaceChildren();
  put(element, ...children);
}

/** Calls a function once things have been quiet for so many milliseconds. */
export function debounce<A extends unknown[]>(milliseconds: number, action: (...args: A) => void): (...args: A) => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return (...args) => {
    clearTimeout(timer);
    timer = setTimeout(() => action(...args), milliseconds);
  };
}
