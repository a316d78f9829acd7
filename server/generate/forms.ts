/** The maps of the format by the names that its page calls them: one that several fields share has one name. */
import { DOCUMENTS, type DocumentKind } from '../src/model/lookup';
import { type MapShape, type Shape, shapeOf } from '../src/model/schema/shape';

export interface Form {
  readonly name: string;
  readonly shape: MapShape;
}

/** The document's own map first, then those inside it. */
export function formsOf(kind: DocumentKind): readonly Form[] {
  const shape = shapeOf(DOCUMENTS[kind]) as MapShape;
  return [{ name: kind, shape }, ...below(shape, '', new Set())];
}

/** Two maps with the same fields are one form, wherever they stand. */
export function printOf({ keys }: MapShape): string {
  return JSON.stringify([...keys].map(([key, { shape, required }]) => [key, required, shape.meta.description]));
}

function below(shape: MapShape, path: string, told: Set<string>): Form[] {
  return [...shape.keys].flatMap(([key, field]) => inside(field.shape, path ? `${path}.${key}` : key, told));
}

function inside(shape: Shape, path: string, told: Set<string>): Form[] {
  if (shape.type === 'list') return inside(shape.item, path, told);
  if (shape.type === 'record') return inside(shape.value, `${path}.NAME`, told);
  if (shape.type === 'map') return form(shape, path, told);
  if (shape.type === 'scalar') return [];
  const { by } = shape;
  const maps = shape.options.filter((o): o is MapShape => o.type === 'map');
  const lists = shape.options.filter((o) => o.type === 'list');
  const nameOf = (o: MapShape) => {
    if (by) return wordOf(o, by);
    return maps.length > 1 ? `${path}: ${o.keys.keys().next().value}` : path;
  };
  return [...maps.flatMap((o) => form(o, nameOf(o), told)), ...lists.flatMap((o) => inside(o, path, told))];
}

/** A form that has a title is told under it, wherever it first turns up. */
function form(shape: MapShape, path: string, told: Set<string>): Form[] {
  const print = printOf(shape);
  if (told.has(print)) return [];
  told.add(print);
  const name = shape.meta.title ?? path;
  return [{ name, shape }, ...below(shape, name, told)];
}

function wordOf(shape: MapShape, by: string): string {
  const kind = shape.keys.get(by)?.shape;
  return kind?.type === 'scalar' ? (kind.words ?? []).join(', ') : '';
}
