/**
 * Which answers a field of the format changes: found by changing it. `npx tsx tests/fields/observe.ts` looks at every
 * field (minutes) and writes `server/generate/fields.json`, from which the format's page has its column; words after it
 * name the fields to look at again.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseDocument } from 'yaml';
import { formsOf } from '../../server/generate/forms';

import type { DocumentKind } from '../../server/src/model/lookup';
import { corpus, REPOSITORY, type World } from './corpus';
import { changed, fieldsOf, formsIn, type Place, placesIn } from './places';
import { Answers, SHOWN, type Shown } from './shown';

/** Of a record nothing comes but what it says beside its part. */
export const KINDS = ['part', 'shop', 'job'] as const;
const FILE = join(REPOSITORY, 'server/generate/fields.json');
/** Worlds, and changes in each, that are tried until a field has shown all that it can. */
const MOST_WORLDS = 2;
const MOST_CHANGES = 5;
/** Of a shop: entries that are looked at for a document that uses them, and so many of those. */
const MOST_LOOKED = 60;
const MOST_USING = 3;
const OF_SHOPS = ['check', 'sheet'] as const;
/** All but being refused, and what is told only to the pointer; and so many that no other world is asked. */
const ALL = SHOWN.length - 2;
const ENOUGH = 4;

interface Found {
  readonly world: World;
  readonly file: string;
  readonly place: Place;
}

/** Every field of a kind of document, with where it stands: small worlds first. */
export function placesOf(
  kind: DocumentKind,
  worlds: readonly World[] = corpus(),
): ReadonlyMap<string, readonly Found[]> {
  const found = new Map<string, Found[]>(fieldsOf(kind).map((f) => [f, []]));
  for (const world of worlds)
    for (const [file, text] of Object.entries(world.files)) {
      if (!file.endsWith(`.${kind}.yaml`) || (kind !== 'shop' && file !== world.asked)) continue;
      const seen = new Set<string>();
      for (const place of placesIn(kind, text)) {
        // A shop has many tools of a kind, and a part is cut with few of them.
        if (seen.has(place.field) && kind !== 'shop') continue;
        seen.add(place.field);
        found.get(place.field)?.push({ world, file, place });
      }
    }
  for (const list of found.values()) list.sort((a, b) => weight(a) - weight(b));
  return found;
}

/** Small ones of our own first: they have set-ups, and shops with few tools. */
const weight = ({ world }: Found) => {
  const text = world.files[world.asked]!;
  const own = world.files[world.asked.replace(/[^/]*$/, 'bench.shop.yaml')] === undefined ? 4000 : 0;
  return text.length + own + (text.includes('\nsetups:') ? 0 : 2000) + (world.asked.endsWith('.job.yaml') ? 3000 : 0);
};

const kept = new Map<World, Answers>();
function asWritten(world: World): Answers {
  const made = kept.get(world) ?? new Answers(world.files, world.asked);
  kept.set(world, made);
  return made;
}

export async function observe(places: readonly Found[]): Promise<readonly Shown[]> {
  const seen = new Set<Shown>();
  const isShop = places[0]?.file.endsWith('.shop.yaml') === true;
  const tried = isShop ? await thatUse(places) : places.slice(0, MOST_WORLDS);
  for (const [i, { world, file, place }] of tried.entries()) {
    if (seen.size >= ENOUGH || (i >= 1 && seen.size > 0)) break;
    const document = parseDocument(world.files[file]!);
    let [changes, before] = [0, 0];
    const others: string[] = [];
    for (const text of changed(place, document)) {
      if (seen.size >= ALL || changes++ >= MOST_CHANGES) break;
      if (changes % 3 === 0 && seen.size > 0 && seen.size === before) break;
      before = seen.size;
      await compare(world, new Answers({ ...world.files, [file]: text }, world.asked), seen);
      others.push(text);
    }
    for (const text of seen.size > 0 ? [] : others)
      await compare(world, new Answers({ ...world.files, [file]: text }, world.asked), seen, ['hover']);
  }
  return SHOWN.filter((s) => seen.has(s));
}

/** Of a shop: first the documents that say something of this entry in their sheets or findings. */
async function thatUse(places: readonly Found[]): Promise<readonly Found[]> {
  const using: Found[] = [];
  for (const found of places.slice(0, MOST_LOOKED)) {
    const name = found.place.path.length > 1 ? String(found.place.path[1]) : '';
    const said = await Promise.all(
      [...OF_SHOPS].map((s) =>
        asWritten(found.world)
          .of(s)
          .catch(() => ''),
      ),
    );
    if (said.some((text) => text?.includes(name))) using.push(found);
    if (using.length >= MOST_USING) break;
  }
  return using.length > 0 ? using : places.slice(0, MOST_WORLDS);
}

/** A change that only cannot be understood shows nothing of the field. */
async function compare(
  world: World,
  other: Answers,
  seen: Set<Shown>,
  asked: readonly Shown[] = SHOWN.filter((s) => s !== 'hover'),
): Promise<void> {
  const before = asWritten(world);
  const [was, is] = [await before.snapshot(), await other.snapshot()];
  if (!was || !is || broken(is) > broken(was)) return;
  // Without it all is understood, and with it nothing could be shown: it is there to be refused in words.
  if (broken(is) === 0 && broken(was) > 0) seen.add('refused');
  for (const shown of asked) {
    if (seen.has(shown) || shown === 'refused') continue;
    try {
      if ((await before.of(shown)) !== (await other.of(shown))) seen.add(shown);
    } catch {
      // No sheet without a plan, no outline of a tangle: nothing is shown then.
    }
  }
}

function broken({ checked }: NonNullable<Awaited<ReturnType<Answers['snapshot']>>>): number {
  const document =
    'part' in checked ? checked.part : 'shop' in checked ? checked.shop : 'job' in checked ? checked.job : undefined;
  return checked.tree.problems.length + (document?.problems.length ?? 0);
}

type Observed = Readonly<Record<string, Readonly<Record<string, readonly Shown[]>>>>;

export function observed(): Observed {
  return existsSync(FILE) ? JSON.parse(readFileSync(FILE, 'utf8')) : {};
}

/** What a map does is what its fields do. */
function withInner(
  kind: DocumentKind,
  rows: Readonly<Record<string, readonly Shown[]>>,
): Record<string, readonly Shown[]> {
  const forms = new Map(formsOf(kind).map((f) => [f.name, f.shape]));
  const of = (name: string, met: readonly string[] = []): readonly Shown[] => {
    if (met.includes(name)) return [];
    return [...(forms.get(name)?.keys ?? [])].flatMap(([key, shape]) => [
      ...(rows[`${name}.${key}`] ?? []),
      ...formsIn(kind, shape).flatMap((n) => of(n, [...met, name])),
    ]);
  };
  const all: Record<string, readonly Shown[]> = {};
  for (const [name, { keys }] of forms)
    for (const [key, shape] of keys) {
      const own = rows[`${name}.${key}`] ?? [];
      const saysWhich = key === 'kind' || (shape.shape.type === 'scalar' && shape.shape.words?.length === 1);
      const inner = saysWhich ? of(name) : formsIn(kind, shape).flatMap((n) => of(n, [name]));
      const seen = new Set([...own, ...inner.filter((s) => s !== 'refused')]);
      all[`${name}.${key}`] = SHOWN.filter((s) => seen.has(s));
    }
  return all;
}

async function main(asked: readonly string[]): Promise<void> {
  const before = observed();
  const out: Record<string, Record<string, readonly Shown[]>> = { ...before };
  const save = () => writeFileSync(FILE, `${JSON.stringify(out, null, 1)}\n`);
  for (const kind of KINDS) {
    const rows: Record<string, readonly Shown[]> = {};
    for (const [field, found] of placesOf(kind)) {
      const known = before[kind]?.[field];
      const again =
        asked.includes('all') ||
        (asked.includes('empty') && known?.length === 0) ||
        asked.some((a) => `${kind}.${field}`.startsWith(a));
      rows[field] = known && !again ? known : await observe(found);
      if (known && !again) continue;
      console.log(`${kind}.${field}: ${rows[field].join(' ') || 'NOTHING'}`);
      out[kind] = { ...before[kind], ...rows };
      save();
    }
    out[kind] = withInner(kind, rows);
    save();
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) void main(process.argv.slice(2));
