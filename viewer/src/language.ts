// What the viewer says, in the reader's language. The English sentence is the key, so that the code reads as the page does; another language is a table from
// English sentences to its own. What the server says, what people wrote, letters of keys and values of fields, links and the API are the same in every language.
import spanish from './es.json';
import spanishTerms from './es.terms.json';

const tables: Readonly<Record<string, Readonly<Record<string, string>>>> = { es: { ...spanishTerms, ...spanish } };

/** ISO 639-1 code of the page's language, which the server has set; English for languages without a table. */
export const language = (((code) => (code in tables ? code : 'en'))((globalThis.document?.documentElement.lang ?? '').split('-')[0]!.toLowerCase()));

/** How figures and dates are written: as in Spain, or as in Britain. */
export const locale = language === 'es' ? 'es-ES' : 'en-GB';

/** A sentence in the reader's language; {0}, {1}, ... are filled in. */
export const t = (english: string, ...values: readonly (string | number)[]): string =>
  (tables[language]?.[english] ?? english).replace(/\{(\d)\}/g, (_, place: string) => String(values[Number(place)]));

/** One sentence for a count of one, another for every other count. {0} is the count; what else is filled in comes after it. */
export const counted = (count: number, one: string, many: string, ...more: readonly (string | number)[]): string => t(count === 1 ? one : many, count, ...more);
