/** JSON Schemas of the three documents, for editors and tools that know nothing of us. Made from the zod schemas. */
import * as z from 'zod/mini';
import { DOCUMENTS, type DocumentKind } from '../src/model/lookup';
import { type FieldMeta, NOTES } from '../src/model/schema/common';

/** What zod puts in from a field's own notes, and what has no meaning in a JSON Schema. */
const OUR_OWN = ['unit', 'names', 'keyNames', 'defines', 'example', 'fallback', 'values', 'one', 'some'] as const;
type Json = Record<string, unknown>;

export function jsonSchema(kind: DocumentKind): Json {
  const made = z.toJSONSchema(DOCUMENTS[kind], {
    target: 'draft-7',
    io: 'input',
    metadata: NOTES,
    override: ({ zodSchema, jsonSchema: json }) => improve(NOTES.get(zodSchema), json as Json),
  });
  const title = `${kind[0]!.toUpperCase()}${kind.slice(1)} document`;
  return { ...made, title };
}

function improve(notes: FieldMeta | undefined, json: Json): void {
  for (const key of OUR_OWN) delete json[key];
  const { description, fallback, values, example, one, some }: Partial<FieldMeta> = notes ?? {};
  if (description) {
    const left = fallback ? ` Left out: ${fallback}.` : '';
    const eg = example ? ` Example: ${example}` : '';
    json.description = `${description}${left}${eg}`;
  }
  if (values && Array.isArray(json.enum)) json.enumDescriptions = json.enum.map((word) => values[String(word)] ?? '');
  mergeScalars(json);
  chooseByKind(json);
  const groups: Json[] = [
    ...(one ?? []).map((keys) => ({ oneOf: keys.map((key) => ({ required: [key] })) })),
    ...(some ?? []).map((keys) => ({ anyOf: keys.map((key) => ({ required: [key] })) })),
  ];
  if (groups.length > 0) json.allOf = groups;
}

/** `anyOf` of plain types is one list of types. */
function mergeScalars(json: Json): void {
  const options = json.anyOf as Json[] | undefined;
  if (!options?.every((o) => typeof o.type === 'string' && Object.keys(o).length === 1)) return;
  json.type = options.map((o) => o.type);
  delete json.anyOf;
}

/** Forms that a word tells apart are asked for that word first, so that an error is about the one that is meant. */
function chooseByKind(json: Json): void {
  const options = json.oneOf as { properties?: { kind?: { const?: string; enum?: string[] } } }[] | undefined;
  const wordsOf = (o: NonNullable<typeof options>[number]) => o.properties?.kind?.enum ?? [o.properties?.kind?.const];
  if (!options?.every((o) => wordsOf(o)[0] !== undefined)) return;
  delete json.oneOf;
  json.type = 'object';
  json.required = ['kind'];
  json.properties = { kind: { enum: options.flatMap(wordsOf) } };
  json.allOf = options.map((o) => ({
    if: { properties: { kind: { enum: wordsOf(o) } }, required: ['kind'] },
    // biome-ignore lint/suspicious/noThenProperty: the keyword of JSON Schema.
    then: o,
  }));
}
