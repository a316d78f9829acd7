/** The format's reference page: every document, every field, from the schemas. */
import { DOCUMENTS, type DocumentKind } from '../src/model/lookup';
import { formOf } from '../src/model/resolve/validate';
import type { KeyShape, MapShape, Shape } from '../src/model/schema/shape';
import fields from './fields.json';
import { EXAMPLES, INTRODUCTION, TITLES } from './format-prose';
import { type Form, formsOf } from './forms';
import { oldWordsText } from './old-words';

export function formatPage(): string {
  const parts = [INTRODUCTION];
  for (const kind of Object.keys(DOCUMENTS) as DocumentKind[]) parts.push(...documentPage(kind));
  parts.push(oldWordsText());
  return `${parts.map((p) => p.trim()).join('\n\n')}\n`;
}

function documentPage(kind: DocumentKind): string[] {
  const [whole, ...forms] = formsOf(kind);
  const { shape } = whole!;
  const out = [`## ${TITLES[kind]}`, shape.meta.description ?? '', `\`\`\`yaml\n${EXAMPLES[kind].trim()}\n\`\`\``];
  return [...out, table(kind, whole!), ...forms.flatMap((form) => section(kind, form))];
}

function section(kind: DocumentKind, form: Form): string[] {
  const { name, shape } = form;
  const example = shape.meta.example ? `Example: \`${shape.meta.example}\`` : '';
  return [`### \`${name}\``, shape.meta.description ?? '', rules(shape), example, table(kind, form)].filter(Boolean);
}

function rules(shape: MapShape): string {
  const groups = [
    ...(shape.meta.one ?? []).map((keys) => `exactly one of ${keys.map((k) => `\`${k}\``).join(', ')}`),
    ...(shape.meta.some ?? []).map((keys) => `at least one of ${keys.map((k) => `\`${k}\``).join(', ')}`),
  ];
  return groups.length > 0 ? `Give ${groups.join(', and ')}.` : '';
}

function table(kind: DocumentKind, { name, shape }: Form): string {
  const told = OBSERVED[kind] !== undefined;
  const rows = [...shape.keys].map(([key, field]) => [
    ...row(key, field),
    ...(told ? [counts(kind, `${name}.${key}`, field)] : []),
  ]);
  return [
    `| field | takes | meaning | left out | example |${told ? ' counts in |' : ''}`,
    `| --- | --- | --- | --- | --- |${told ? ' --- |' : ''}`,
    ...rows.map((cells) => `| ${cells.map(cell).join(' | ')} |`),
  ].join('\n');
}

/** Found by changing it (`tests/fields/observe.ts`), never written by hand. */
const OBSERVED: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = fields;

/** A remark says something to people alone. */
const REMARK = /^A remark\b/;

function counts(kind: DocumentKind, field: string, { shape }: KeyShape): string {
  const found = OBSERVED[kind]?.[field];
  // A new field of a shop is looked at with the next look at all of them.
  if (!found && kind === 'shop') return '–';
  if (!found) throw new Error(`What does ${kind} ${field} change? \`npx tsx tests/fields/observe.ts\` looks.`);
  if (found.length > 0) return found.join(', ');
  return REMARK.test(shape.meta.description ?? '') ? 'stays in the text' : '–';
}

function row(key: string, { shape, required }: KeyShape): string[] {
  const { description = '', fallback, example, values } = shape.meta;
  const words = Object.entries(values ?? {}).map(([word, meaning]) => `\`${word}\`: ${meaning}`);
  const meaning =
    words.length > 0 && shape.type === 'scalar' && !PLAIN.has(shape.meta.names ?? key)
      ? `${description} ${words.join('; ')}.`
      : description;
  return [`\`${key}\``, takes(shape), meaning, required ? 'needed' : (fallback ?? ''), example ? `\`${example}\`` : ''];
}

/** Words that the page explains at its beginning, or right above the table. */
const PLAIN: ReadonlySet<string> = new Set(['kind', 'face', 'axis', 'about']);

function takes(shape: Shape): string {
  if (shape.type === 'map') return shape.meta.title ?? 'a map';
  if (shape.type === 'list') return shape.meta.title ?? 'a list';
  if (shape.type === 'choice' && shape.by) return `by \`${shape.by}\``;
  if (shape.type === 'choice') return [...new Set(shape.options.map(takes))].join(' or ');
  return formOf(shape);
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ');
}
