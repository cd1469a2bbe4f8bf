/// <reference types="vite/client" />
// The viewer's own sources as syntax trees, and what of their texts a person sees.
import { parseAst } from 'vitest/node';

/** A node of a syntax tree (ESTree with types). */
export interface Node {
  type: string;
  [part: string]: unknown;
}

const texts = import.meta.glob('../src/*.ts', { query: '?raw', import: 'default', eager: true }) as Record<string, string>;

/** The syntax tree of a source. */
export const treeOf = (source: string): Node => parseAst(source, { lang: 'ts' }) as unknown as Node;

/** Every source by its file name. */
export const sources: readonly [file: string, tree: Node][] = Object.entries(texts).map(([path, text]) => [path.replace('../src/', ''), treeOf(text)]);

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
const partsOf = (node: Node): Node[] => Object.values(node).flat().filter(isNode);

/** Every node under a node, each with what it lies in, nearest last. */
export function* walk(node: Node, within: readonly Node[] = []): Generator<[node: Node, within: readonly Node[]]> {
  yield [node, within];
  for (const part of partsOf(node)) yield* walk(part, [...within, node]);
}

/** The text of a literal; in a template {0}, {1}, ... stand for what is filled in. Null for other nodes. */
export function textOf(node: Node): string | null {
  if (node.type === 'Literal') return typeof node['value'] === 'string' ? node['value'] : null;
  if (node.type !== 'TemplateLiteral') return null;
  const quasis = node['quasis'] as { value: { cooked: string } }[];
  return quasis.map(({ value }, i) => value.cooked + (i < quasis.length - 1 ? `{${i}}` : '')).join('');
}

/** What a call calls: `t`, `say` of `this.say`, `RangeError` of `new RangeError`. */
export function calledBy(node: Node): string | null {
  if (node.type !== 'CallExpression' && node.type !== 'NewExpression') return null;
  const callee = node['callee'] as Node;
  return ((callee.type === 'MemberExpression' ? callee['property'] : callee) as { name?: string }).name ?? null;
}

export const argumentsOf = (node: Node): Node[] => node['arguments'] as Node[];

/** The name of an entry of an object: `title` or 'aria-label'. */
export const entryName = (node: Node): string => {
  const key = node['key'] as { name?: string; value?: unknown };
  return key.name ?? String(key.value);
};

/** The literals that an expression comes to: through choices, lists and templates, not through calls. */
export function literalsIn(node: Node): Node[] {
  if (textOf(node) !== null) return [node, ...(node.type === 'TemplateLiteral' ? (node['expressions'] as Node[]).flatMap(literalsIn) : [])];
  const through: Record<string, string[]> = {
    ConditionalExpression: ['consequent', 'alternate'], LogicalExpression: ['left', 'right'], ArrayExpression: ['elements'], SpreadElement: ['argument'], TSNonNullExpression: ['expression'], ParenthesizedExpression: ['expression'],
  };
  return (through[node.type] ?? []).flatMap((part) => [node[part]].flat().filter(isNode)).flatMap(literalsIn);
}
