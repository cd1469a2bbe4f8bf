// Fields of the Sections page's forms.
import { el } from './dom';

/** A field for a number. */
export const numberField = (name: string, min: number, max: number, step: string, input?: () => void): HTMLInputElement => el('input', { type: 'number', id: `section-${name}`, name, min, max, step, input });

/** A field with its label, unit and help. */
export const labelled = (label: string, field: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement, unit: string, help: string): HTMLElement => {
  if (help) field.setAttribute('aria-describedby', `${field.id}-help`);
  return el('div', { class: 'field' }, el('label', { for: field.id }, label), el('span', { class: 'entry' }, field, unit && el('span', {}, unit)), help && el('span', { class: 'quiet', id: `${field.id}-help` }, help));
};
