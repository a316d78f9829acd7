/**
 * What a text says, apart from how it says it: each thing under a path of plain words, with a key that is equal for what
 * means the same (an inch, a sum or a parameter in place of millimetres) and the words in which it is shown.
 */
import type { Angle, Depth, Length, Named, Place, Tolerance, Units } from '../model/model';
import { formatLength } from '../text/format';

export interface Fact {
  readonly key: string;
  readonly shown: string;
  /** Of a tolerance that is one: the fit, whatever its limits. */
  readonly fit?: string;
}
export type Facts = ReadonlyMap<string, Fact>;

/** How names and lengths are written in what is shown; `nameOf`: what a feature of the old text is called in the new one. */
export interface Reader {
  readonly units: Units;
  nameOf(name: string): string;
}

/** Where something stands, how it was written, and what only the text has. */
const NOT_MEANT = new Set([
  'span',
  'text',
  'block',
  'from',
  'note',
  'name',
  'pattern',
  'places',
  'spec',
  'whole',
  'kind',
  // A feature of another file is what it is here.
  'included',
  // Its path says it.
  'characteristic',
]);

export function factsOf(value: object, reader: Reader): Facts {
  const facts = new Map<string, Fact>();
  for (const [key, inner] of Object.entries(value))
    if (isMeant(key)) put(facts, wordsOf(key), withUnit(key, inner, reader), reader);
  return facts;
}

function isMeant(key: string): boolean {
  return !NOT_MEANT.has(key) && !key.endsWith('Span') && !key.endsWith('Given');
}

/** `cornerRadius` → `corner radius`, `startMm` → `start`. */
function wordsOf(key: string): string {
  return key === 'type' || key === 'value'
    ? ''
    : key.replace(/(Mm|Deg|Um)$/, '').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** A number whose key says its unit. */
function withUnit(key: string, value: unknown, { units }: Reader): unknown {
  if (typeof value !== 'number') return value;
  return key.endsWith('Mm')
    ? formatLength(Number(near(value)), units)
    : key.endsWith('Deg')
      ? `${near(value)}°`
      : value;
}

function put(facts: Map<string, Fact>, path: string, value: unknown, reader: Reader): void {
  // What is not so is not said.
  if (value === undefined || value === false) return;
  if (Array.isArray(value)) putList(facts, path, value, reader);
  else if (typeof value !== 'object' || value === null) facts.set(path, plain(value));
  else if (isLength(value)) putLength(facts, path, value, reader);
  else if (isAngle(value)) facts.set(path, { key: near(value.deg), shown: `${near(value.deg)}°` });
  else if (isDepth(value)) putDepth(facts, path, value, reader);
  else if (isPlace(value)) facts.set(path, placeFact(value, reader));
  else if (isNamed(value)) facts.set(path, nameFact(value, reader));
  else putInner(facts, path, value, reader);
}

function putInner(facts: Map<string, Fact>, path: string, value: object, reader: Reader): void {
  if (value instanceof Map) {
    for (const [key, inner] of value) put(facts, `${path} ${String(key)}`, inner, reader);
    return;
  }
  if (has(value, 'name', 'span')) facts.set(path, nameFact(value as Named, reader));
  for (const [key, inner] of Object.entries(value))
    if (isMeant(key)) put(facts, `${path} ${wordsOf(key)}`.trimEnd(), withUnit(key, inner, reader), reader);
}

/** A list is one thing: what is in it, in its order. What stands twice in a row under one name is there once: members of one pattern. */
function putList(facts: Map<string, Fact>, path: string, items: readonly unknown[], reader: Reader): void {
  // What is said of something by its name stands under that name: the tool of a cut.
  if (items.length > 0 && items.every(isOfOne)) {
    for (const { of, ...said } of items) {
      const [one, ...more] = Object.values(said);
      put(facts, `${path} ${reader.nameOf(of.name)}`, more.length === 0 ? one : said, reader);
    }
    return;
  }
  const keyed = items.map((item) => {
    const inner = new Map<string, Fact>();
    put(inner, '', item, reader);
    return { inner, key: JSON.stringify([...inner].map(([at, { key }]) => [at, key])) };
  });
  const isName = (item: unknown) => typeof item === 'object' && item !== null && has(item, 'name', 'span');
  const once = keyed.filter(({ key }, i) => !isName(items[i]) || key !== keyed[i - 1]?.key);
  const each = once.map((o) => o.inner);
  const key = JSON.stringify(once.map((o) => o.key));
  const shown = each.every((inner) => inner.size === 1)
    ? each.map((inner) => [...inner.values()][0]!.shown).join(', ')
    : listed(each);
  if (items.length > 0) facts.set(path, { key, shown });
}

/** Each with what it is, as far as that is read at a glance. */
function listed(each: readonly Facts[]): string {
  const texts = each.map((inner) => [...inner].map(([at, { shown }]) => `${at.trim()} ${shown}`.trim()).join(', '));
  const whole = texts.join('; ');
  return whole.length <= MOST_LETTERS ? whole : `${each.length} of them`;
}
const MOST_LETTERS = 120;

function isOfOne(item: unknown): item is { readonly of: Named } {
  const { of } = (item ?? {}) as { readonly of?: unknown };
  return typeof of === 'object' && of !== null && isNamed(of);
}

function putLength(facts: Map<string, Fact>, path: string, { mm, tolerance }: Length, { units }: Reader): void {
  facts.set(path, { key: near(mm), shown: formatLength(Number(near(mm)), units) });
  if (tolerance) facts.set(`${path} tolerance`, toleranceFact(tolerance, units));
}

/** Equal limits are one tolerance, however they are written. */
function toleranceFact({ text, lowerMm, upperMm, fit }: Tolerance, units: Units): Fact {
  if (lowerMm === undefined || upperMm === undefined) return { key: text, shown: text };
  const limits = `${signed(lowerMm, units)}/${signed(upperMm, units)}`;
  return {
    key: `${near(lowerMm)}/${near(upperMm)}`,
    shown: fit ? `${text} (${limits})` : limits,
    ...(fit && { fit: text }),
  };
}

function signed(mm: number, units: Units): string {
  return `${mm < 0 ? '-' : '+'}${formatLength(Math.abs(Number(near(mm))), units)}`;
}

function putDepth(facts: Map<string, Fact>, path: string, { through, mm, length }: Depth, reader: Reader): void {
  if (through) facts.set(path, { key: 'through', shown: 'through' });
  else if (length) putLength(facts, path, length, reader);
  else facts.set(path, { key: near(mm), shown: formatLength(mm, reader.units) });
}

export function placeFact({ u, v }: Pick<Place, 'u' | 'v'>, { units }: Reader): Fact {
  const at = (mm: number) => formatLength(Number(near(mm)), units).replace(/ \w+$/, '');
  return { key: `${near(u)},${near(v)}`, shown: `${at(u)}, ${at(v)}` };
}

function nameFact({ name }: Named, { nameOf }: Reader): Fact {
  return { key: nameOf(name), shown: nameOf(name) };
}

function plain(value: unknown): Fact {
  const text = typeof value === 'number' ? near(value) : value === true ? 'yes' : String(value);
  return { key: text, shown: text };
}

/** A hundred-thousandth of a millimetre: an inch has 25.4 of them exactly, sums have rounding. */
function near(value: number): string {
  const rounded = Number(value.toFixed(5));
  return String(rounded === 0 ? 0 : rounded);
}

const has = (value: object, ...keys: readonly string[]) => keys.every((key) => key in value);

function isLength(value: object): value is Length {
  return has(value, 'mm', 'text', 'span');
}
function isAngle(value: object): value is Angle {
  return has(value, 'deg', 'text');
}
function isDepth(value: object): value is Depth {
  return has(value, 'through', 'mm');
}
/** A corner has treatments beside its place: it is not a place alone. */
function isPlace(value: object): value is Place {
  return has(value, 'u', 'v') && Object.keys(value).every((key) => ['u', 'v', 'span', 'written'].includes(key));
}
function isNamed(value: object): value is Named {
  return has(value, 'name', 'span') && Object.keys(value).length === 2;
}

/** All of it as one key. */
export function keyOf(facts: Facts): string {
  return JSON.stringify([...facts].map(([path, { key }]) => [path, key]).sort((a, b) => (a[0]! < b[0]! ? -1 : 1)));
}

/** What differs, by path. */
export interface Difference {
  readonly what: string;
  readonly before?: string;
  readonly after?: string;
}

export function differences(before: Facts, after: Facts): readonly Difference[] {
  const paths = new Set([...before.keys(), ...after.keys()]);
  const differs = (what: string) => before.get(what)?.key !== after.get(what)?.key;
  return [...paths].flatMap((what) => {
    const [a, b] = [before.get(what), after.get(what)];
    if (!differs(what) || (isSameFit(a, b) && differs(what.replace(/ tolerance$/, '')))) return [];
    const now = b && (a?.shown === b.shown ? `${b.shown}, others` : b.shown);
    return [{ what, ...(a && { before: a.shown }), ...(now !== undefined && { after: now }) }];
  });
}

/** The same fit at another size: its limits follow from the size, which is told. */
function isSameFit(a: Fact | undefined, b: Fact | undefined): boolean {
  return a?.fit !== undefined && a.fit === b?.fit;
}
