// Kinds of phenomenon in the reader's language. Their names are terms, which the server gives in English; a house's own terms stay as it wrote them.
import type { Kind } from './kinds';
import { t } from './language';

/** A kind's name. */
export function nameOf({ name }: Pick<Kind, 'name'>): string {
  const term = name.toLowerCase();
  const known = t(term);
  return known === term ? name : known.charAt(0).toUpperCase() + known.slice(1);
}

/** The name of a group of kinds. */
export const groupName = (group: Kind['group']): string => t(group);
