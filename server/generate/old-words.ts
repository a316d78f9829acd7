/** Words that have a new name, where documents are described: in the JSON Schemas beside the new ones, on the format's page in a table. */
import { RENAMED, RENAMED_RULES, type Renamed } from '../src/text/renamed';

type Json = { [key: string]: unknown };

/** The schema with every old word beside the new one, so that files with old words are right in any editor. */
export function withOldWords(schema: Json): Json {
  // Words first: a key by its old name takes what it takes by its new one.
  const words = [...RENAMED.filter((r) => r.is === 'value'), ...RENAMED.filter((r) => r.is === 'key')];
  for (const word of words) everyAt(schema, word.path, (place) => add(place, word));
  return schema;
}

/** Every place of a schema that the keys lead to. */
function everyAt(json: Json, [key, ...more]: readonly string[], change: (place: Json) => void): void {
  for (const form of formsOf(json)) {
    if (key === undefined) change(form);
    else {
      const named = (form.properties as Record<string, Json> | undefined) ?? {};
      const any = key === '*' ? [form.additionalProperties, form.items] : [];
      for (const place of key === '*' ? [...Object.values(named), ...any] : [named[key]])
        if (typeof place === 'object' && place !== null) everyAt(place as Json, more, change);
    }
  }
}

/** Itself, and what else holds of the same place. */
function formsOf(json: Json): readonly Json[] {
  const more = ['allOf', 'anyOf', 'oneOf'].flatMap((word) => (json[word] as Json[] | undefined) ?? []);
  const ways = [json.if, json.then].filter((way): way is Json => typeof way === 'object' && way !== null);
  return [json, ...[...more, ...ways].flatMap(formsOf)];
}

function add(place: Json, { is, was, now }: Renamed): void {
  if (is === 'key') {
    const known = place.properties as Record<string, Json> | undefined;
    if (known?.[now]) known[was] = { ...known[now], description: `Now called \`${now}\`.`, deprecated: true };
    return;
  }
  if (place.const === now) {
    delete place.const;
    place.enum = [now];
  }
  const words = place.enum as string[] | undefined;
  if (!words?.includes(now) || words.includes(was)) return;
  // Not in the place: several places may share one list.
  place.enum = [...words, was];
  const means = place.enumDescriptions as string[] | undefined;
  if (means) place.enumDescriptions = [...means, `Now called ${now}.`];
}

/** The format page's last chapter. */
export function oldWordsText(): string {
  const rows = RENAMED.filter(({ was }) => !Object.hasOwn(RENAMED_RULES, was)).map(
    ({ path, is, was, now }) =>
      `| \`${was}\` | \`${now}\` | ${is === 'key' ? 'a key of' : 'under'} \`${shown(path)}\` |`,
  );
  const rules = Object.entries(RENAMED_RULES).map(([was, now]) => `| \`${was}\` | \`${now}\` |`);
  return `## Words with a new name

An old word is read for ever, and means what it meant. A hint offers the new one (\`form/old-name\`), and \`check --fix\` writes it.
Where a map has both, the new key counts.

| old | new | where |
| --- | --- | --- |
${rows.join('\n')}

Rules have new names too, under \`accept\` and \`limits\` and after \`scribeline why\`.
In JSON \`rule\` and \`kind\` keep the first name, with \`rule_now\` and \`kind_now\` beside them.
In SARIF the first name is in \`deprecatedIds\`.

| old | new |
| --- | --- |
${rules.join('\n')}`;
}

const LISTS: ReadonlySet<string> = new Set(['tolerances', 'accept']);
const shown = (path: readonly string[]) =>
  path.map((key, i) => (key === '*' ? (LISTS.has(path[i - 1]!) ? '' : '.NAME') : `${i ? '.' : ''}${key}`)).join('');
