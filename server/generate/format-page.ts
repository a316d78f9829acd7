/** The format's reference page: every document, every field, from the schemas. */
import { DOCUMENTS, type DocumentKind } from '../src/model/lookup';
import { formOf } from '../src/model/resolve/validate';
import { type KeyShape, type Shape, shapeOf } from '../src/model/schema/shape';
import { EXAMPLES, INTRODUCTION, TITLES } from './format-prose';
import { oldWordsText } from './old-words';

type MapShape = Extract<Shape, { type: 'map' }>;

export function formatPage(): string {
  const parts = [INTRODUCTION];
  for (const kind of Object.keys(DOCUMENTS) as DocumentKind[]) parts.push(...documentPage(kind));
  parts.push(oldWordsText());
  return `${parts.map((p) => p.trim()).join('\n\n')}\n`;
}

function documentPage(kind: DocumentKind): string[] {
  const shape = shapeOf(DOCUMENTS[kind]) as MapShape;
  const out = [`## ${TITLES[kind]}`, shape.meta.description ?? '', `\`\`\`yaml\n${EXAMPLES[kind].trim()}\n\`\`\``];
  out.push(table(shape), ...below(shape, '', new Set()));
  return out;
}

/** Sections for the maps inside a map. A form that several fields share is told once. */
function below(shape: MapShape, path: string, told: Set<string>): string[] {
  const out: string[] = [];
  for (const [key, field] of shape.keys) out.push(...section(field.shape, path ? `${path}.${key}` : key, told));
  return out;
}

function section(shape: Shape, path: string, told: Set<string>): string[] {
  if (shape.type === 'list') return section(shape.item, path, told);
  if (shape.type === 'record') return section(shape.value, `${path}.NAME`, told);
  if (shape.type === 'map') return form(shape, path, told);
  if (shape.type === 'scalar') return [];
  const { by } = shape;
  const maps = shape.options.filter((o): o is MapShape => o.type === 'map');
  const lists = shape.options.filter((o) => o.type === 'list');
  const nameOf = (o: MapShape) => {
    if (by) return wordOf(o, by);
    return maps.length > 1 ? `${path}: ${o.keys.keys().next().value}` : path;
  };
  return [...maps.flatMap((o) => form(o, nameOf(o), told)), ...lists.flatMap((o) => section(o, path, told))];
}

/** A form that has a title is told under it, wherever it first turns up. */
function form(shape: MapShape, path: string, told: Set<string>): string[] {
  const facts = [...shape.keys].map(([key, { shape: value, required }]) => [key, required, value.meta.description]);
  const print = JSON.stringify(facts);
  if (told.has(print)) return [];
  told.add(print);
  const name = shape.meta.title ?? path;
  const example = shape.meta.example ? `Example: \`${shape.meta.example}\`` : '';
  const head = [`### \`${name}\``, shape.meta.description ?? '', rules(shape), example, table(shape)];
  return [...head.filter(Boolean), ...below(shape, name, told)];
}

function wordOf(shape: MapShape, by: string): string {
  const kind = shape.keys.get(by)?.shape;
  return kind?.type === 'scalar' ? (kind.words ?? []).join(', ') : '';
}

function rules(shape: MapShape): string {
  const groups = [
    ...(shape.meta.one ?? []).map((keys) => `exactly one of ${keys.map((k) => `\`${k}\``).join(', ')}`),
    ...(shape.meta.some ?? []).map((keys) => `at least one of ${keys.map((k) => `\`${k}\``).join(', ')}`),
  ];
  return groups.length > 0 ? `Give ${groups.join(', and ')}.` : '';
}

function table(shape: MapShape): string {
  const rows = [...shape.keys].map(([key, field]) => `| ${row(key, field).map(cell).join(' | ')} |`);
  return ['| field | takes | meaning | left out | example |', '| --- | --- | --- | --- | --- |', ...rows].join('\n');
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
