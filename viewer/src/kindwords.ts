// Kinds of phenomenon in the reader's language.
import type { Kind } from './kinds';
import { t } from './language';

/** A kind's name; a word that is no kind's stays as it was written. */
export const nameOf = ({ name }: Pick<Kind, 'name'>): string => t(name);
