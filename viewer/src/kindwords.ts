// Kinds of phenomenon in the reader's language. Their names are terms, which the server gives in English; a house's own terms stay as it wrote them.
import type { Zone } from './api';
import { type Kind, kindOf } from './kinds';
import { t } from './language';

/** A kind's name. */
export function nameOf({ name }: Pick<Kind, 'name'>): string {
  const term = name.toLowerCase();
  const known = t(term);
  return known === term ? name : known.charAt(0).toUpperCase() + known.slice(1);
}

/** What a zone is called: one to which a reading gave its kind's word for a name is called as its kind. */
export const zoneName = ({ name, kind }: Pick<Zone, 'name' | 'kind'>): string => (name === kind ? nameOf(kindOf(kind)) : name);

/** The name of a group of kinds. */
export const groupName = (group: Kind['group']): string => t(group);
