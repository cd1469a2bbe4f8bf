import { afterEach, describe, expect, it, vi } from 'vitest';
import spanish from '../src/es.json';
import terms from '../src/es.terms.json';
import { argumentsOf, calledBy, entryName, literalsIn, type Node, sources, textOf, treeOf, walk } from './sources';

/** English sentences with how many values are filled in at most. */
interface Said {
  file: string;
  english: string | null;
  values: number;
}

/** Terms and their groups come from the server: the only place that translates what is no literal. */
const dynamic = ['kindwords.ts'];

const said: Said[] = sources.flatMap(([file, tree]) => [...walk(tree)].flatMap(([node]): Said[] => {
  const given = node.type === 'CallExpression' ? calledBy(node) : null;
  if (file === 'language.ts' || (given !== 't' && given !== 'counted')) return [];
  const [first, second, third, ...more] = argumentsOf(node);
  return given === 't' ? [{ file, english: textOf(first!), values: argumentsOf(node).length - 1 }] : [second!, third!].map((s) => ({ file, english: textOf(s), values: 1 + more.length }));
}));

const table: Record<string, string> = spanish;
const placesIn = (text: string): string[] => [...new Set(text.match(/\{\d\}/g) ?? [])].sort();
const edges = (text: string): string[] => [/^\s*/.exec(text)![0], /\s*$/.exec(text)![0]];

describe('the Spanish table', () => {
  const used = new Set(said.flatMap((s) => s.english ?? []));

  it('has every sentence that is said', () => expect([...used].filter((k) => !(k in table) && !(k in terms))).toEqual([]));
  it('has no sentence that is not', () => expect(Object.keys(table).filter((k) => !used.has(k))).toEqual([]));
  it('is asked for literals only, but for terms', () => expect(said.filter((s) => s.english === null && !dynamic.includes(s.file))).toEqual([]));
  it('fills in what the English fills in', () => expect(Object.entries(table).filter(([k, v]) => `${placesIn(k)}` !== `${placesIn(v)}`)).toEqual([]));
  it('keeps blanks at the ends, by which parts are joined', () => expect(Object.entries(table).filter(([k, v]) => `${edges(k)}` !== `${edges(v)}`)).toEqual([]));
  it('is filled in with as many values as it has places', () =>
    expect(said.filter((s) => s.english !== null && placesIn(s.english).some((p) => Number(p[1]) >= s.values))).toEqual([]));
  it('neither shouts nor is empty', () => expect(Object.values(table).filter((v) => v.trim() === '' || /[!¡]/.test(v))).toEqual([]));
});

/** Attributes that are read or heard. */
const heard = ['title', 'aria-label', 'aria-valuetext', 'placeholder', 'alt', 'says', 'group', 'keys'];
/** Entries of objects that only the page or the server reads. */
const unread = /^(class|className|id|type|role|href|font|fill|color|code|transform|target|viewBox|download|list|rel|scope|method|format|data-.*)$/;
/** Calls whose arguments are read or heard, from this one on. */
const speaking: Record<string, number> = { el: 2, svg: 2, button: 0, fill: 1, put: 1, append: 0, say: 0, tell: 0, told: 0, reloadSaying: 0, labelled: 0 };

/** Texts that are the same in every language, or that no person reads; each with its reason. */
const allowed: readonly [text: RegExp, reason: string][] = [
  [/^([\s;:±×(){}\d,./%=n-]|mm|cm|µm|um|px|²)*$/, 'figures and units'],
  [/^(stored|storing|unsent|refused)$/, 'states of what is kept, which have sentences of their own'],
  [/^(Ctrl\+Z|Esc|Tab|L\*)$/, 'keys and quantities called so in both languages'],
  [/^(Point|LineString|Polygon|Feature|FeatureCollection)$/, 'types of GeoJSON'],
  [/^(VIS|UVL|IR|IRR|XSEC)$/, 'codes of lights'],
  [/^(GET|POST|PUT|DELETE|Accept|Content-Type|If-Match)$/, 'HTTP'],
  [/^(Arrow\w+|Page\w+|Delete|Enter|Escape|Home|End)$/, 'names of keys in events'],
  [/rgba?\(|px\b.*(\)|px)|Source Sans|^(rotate|translate|inset|circle)\(/, 'style'],
  [/^(stage-|layer-|component |all of |changed elsewhere|not aligned|step |look \{|use \{|pen \{|see \{|stroke \{|sample \{)/, 'words of the API, and names of places in the page'],
  [/^(tiles|pane|label|button,|input|select,|\.pane|\.says|\[data)|^\(prefers-/, 'classes and selectors'],
  [/ over$/, 'names of an exported walk’s pictures'],
  [/^(https:|CC BY)/, 'addresses, and licences called so in both languages'],
  [/^(Note|notes and readings)$/, 'terms, which are translated where they are shown'],
  [/^A tile holds/, 'a defect, for who mends it'],
];

/** Where a literal is no text: compared, the name of an entry, part of a type, looked up, or imported. */
function isTechnical(node: Node, within: readonly Node[]): boolean {
  const parent = within.at(-1)!;
  return within.some((n) => /^(Import|TSType|TSLiteral|TSInterface)/.test(n.type)) || (parent.type === 'BinaryExpression' && /[=!]=|in/.test(parent['operator'] as string))
    || (parent.type === 'Property' && (parent['key'] === node || unread.test(entryName(parent)))) || parent.type === 'MemberExpression' || parent.type === 'SwitchCase' || within.some((n) => n.type === 'Property' && unread.test(entryName(n)));
}

/** Literals that are read or heard for where they stand, whatever their words. */
function spoken(node: Node): Node[] {
  const from = speaking[calledBy(node) ?? ''];
  if (from !== undefined) return argumentsOf(node).slice(from).flatMap(literalsIn);
  if (calledBy(node) === 'setAttribute' && heard.includes(textOf(argumentsOf(node)[0]!) ?? '')) return literalsIn(argumentsOf(node)[1]!);
  if (node.type === 'Property' && heard.includes(entryName(node))) return literalsIn(node['value'] as Node);
  const left = node['left'] as { property?: { name?: string } } | undefined;
  return node.type === 'AssignmentExpression' && ['textContent', 'title', 'placeholder'].includes(left?.property?.name ?? '') ? literalsIn(node['right'] as Node) : [];
}

/** Texts of a source that look as if a person read them, and are not translated. */
function english(tree: Node): string[] {
  const all = [...walk(tree)];
  const aloud = new Set(all.flatMap(([node]) => spoken(node)));
  return all.flatMap(([node, within]) => {
    const text = textOf(node);
    const parent = within.at(-1);
    if (text === null || parent === undefined || ['t', 'counted'].includes(calledBy(parent) ?? '')) return [];
    const words = text.replace(/\{\d\}/g, '');
    const looksRead = /[a-z]{2}/i.test(words) && (/\S\s+\S/.test(words) || /^[A-Z]/.test(words) || /^[\s,;:.]+[a-z]/i.test(words));
    const isRead = aloud.has(node) ? /[a-z]{2}/i.test(words) : looksRead && !isTechnical(node, within);
    return isRead && !allowed.some(([pattern]) => pattern.test(text)) ? [text] : [];
  });
}

/** The program's own terms that a zone may be named by: what is seen on a painting and how it was made, and words of readings that no term has. */
const ownTerms = import.meta.glob('../../src/Sandarac.Materials/Terms/*.csv', { query: '?raw', import: 'default', eager: true }) as Record<string, string>;
const column = (file: string, from: (cells: string[]) => string | null): string[] => ownTerms[`../../src/Sandarac.Materials/Terms/${file}`]!.trim().split(/\r?\n/).slice(1).flatMap((line) => from(line.split(',')) ?? []);

describe('the Spanish terms', () => {
  const named = [...column('terms.csv', ([category, , term]) => (category === 'treatment' ? null : term!)), ...column('appearances.csv', (cells) => (cells.at(-1) === '' ? null : cells[1]!.toLowerCase()))];
  const groups = ['notes and readings', ...column('terms.csv', ([category, group]) => (category === 'condition' ? group!.replace('-', ', ') : null)), ...column('appearance-groups.csv', ([group]) => (group === 'note' || group === 'treatment' ? null : group!.replace('-', ', ')))];
  it('are there for every term', () => expect([...named, ...groups].filter((name) => !(name in terms))).toEqual([]));
  it('are there for no other word', () => expect(Object.keys(terms).filter((name) => !named.includes(name) && !groups.includes(name))).toEqual([]));
  it('say the same where the pages use the word too', () => expect(Object.entries(terms).filter(([name, said]) => (table[name] ?? said) !== said)).toEqual([]));
  it('are shown with a capital letter; a house’s own stay as they are', async () => {
    vi.resetModules();
    vi.stubGlobal('document', { documentElement: { lang: 'es' } });
    const { nameOf, zoneName } = await import('../src/kindwords');
    vi.unstubAllGlobals();
    expect([nameOf({ name: 'Overpaint' }), nameOf({ name: 'Note' }), nameOf({ name: 'Our own Word' })]).toEqual(['Repinte', 'Nota', 'Our own Word']);
    // Readings name what they propose by the word of its kind.
    expect([zoneName({ name: 'note', kind: 'note' }), zoneName({ name: 'The left cloud', kind: 'note' })]).toEqual(['Nota', 'The left cloud']);
  });
});

describe('nothing in English stays outside the tables', () => {
  it.each([
    ["el('p', {}, 'zones')", ['zones']], ["el('p', { title: on ? 'shown here' : null })", ['shown here']], ["notices.say(`${n} left`)", ['{0} left']], ["const words = { a: 'Shade' }", ['Shade']],
    ["el('p', { class: 'quiet small' }, t('Zones'), name)", []], ["const is = kind === 'Some kind'", []], ["element.setAttribute('aria-label', 'lamp')", ['lamp']], ["element.title = a ?? 'lamp'", ['lamp']],
  ])('the scan reads %s', (source, found) => expect(english(treeOf(source))).toEqual(found));
  it.each(sources.filter(([file]) => file !== 'language.ts'))('%s', (_, tree) => expect(english(tree)).toEqual([]));
});

/** The modules as they are on a page in this language. */
async function inLanguage(lang: string): Promise<typeof import('../src/units') & typeof import('../src/language') & typeof import('../src/stretchwords')> {
  vi.resetModules();
  vi.stubGlobal('document', { documentElement: { lang } });
  return { ...(await import('../src/units')), ...(await import('../src/language')), ...(await import('../src/stretchwords')) };
}

describe('a page in one language', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('in Spanish: words, counts and the decimal comma', async () => {
    const { t, counted, fixed, valueText, areaText, placeText, figures, fieldText } = await inLanguage('es');
    expect([t('Beside'), t('Zones ({0})', 3), t('a sentence nobody translated')]).toEqual(['Al lado', 'Zonas (3)', 'a sentence nobody translated']);
    expect([counted(1, '1 layer', '{0} layers'), counted(4, '1 layer', '{0} layers')]).toEqual(['1 capa', '4 capas']);
    expect([fixed(1234.5, 2), valueText(0.123456), valueText(65535), areaText(1234), figures(0.25, 3)]).toEqual(['1234,50', '0,1235', '65535', '12,34 cm²', '0,250']);
    expect(placeText({ fromLeft: 123.4, fromBottom: 88 })).toBe('123,4 mm desde la izquierda, 88,0 desde abajo');
    // A field takes a point in every language.
    expect([fieldText(0.123456), fieldText(65535)]).toEqual(['0.1235', '65535']);
  });
  it('in English: the decimal point, whatever the browser speaks', async () => {
    const { t, fixed, valueText, language } = await inLanguage('en');
    expect([language, t('Zones ({0})', 3), fixed(1234.5, 2), valueText(0.123456)]).toEqual(['en', 'Zones (3)', '1234.50', '0.1235']);
  });
  it('in Spanish of any country, and in English where there is no table', async () => {
    expect((await inLanguage('es-MX')).language).toBe('es');
    expect((await inLanguage('fi')).language).toBe('en');
    expect((await inLanguage('est')).language).toBe('en');
    expect((await inLanguage('')).language).toBe('en');
  });
  it('figures that are shown with a comma are not read back as words', async () => {
    const { loadingTable, loadingWords } = await inLanguage('es');
    const figure = (component: number, band: string, value: number) => ({ name: 'loading', title: '', unit: '1', value, uncertainty: null, note: null, subject: `component ${component}: ${band}` });
    const run = { figures: [figure(1, 'VIS_01 red', 0.8), figure(1, 'IR_01', -0.6)] };
    expect(loadingTable(run).rows.map((r) => r.cells)).toEqual([['0,80'], ['−0,60']]);
    expect(loadingWords(run)).toEqual(['El componente 1 muestra VIS_01 red; invertido, IR_01.']);
  });
});
