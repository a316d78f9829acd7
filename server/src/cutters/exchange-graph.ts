/** Instances of an exchange file as a net: what names what, and what each is for. */
import type { Instance, Param } from './exchange';
import { unitOf } from './numbers';
import type { Unit } from './row';

/** What has a name and properties: items, products, tools, in whatever words a schema has for them. */
const ITEM = /(?:^|_)(?:ITEM|PRODUCT|TOOL|CUTTER|ARTICLE|ASSET|OBJECT)(?:_|$)/;
const ABOUT =
  /ASSOCIATION|RELATION|CLASSIFICATION|CHARACTERISTIC|PROPERTY|REPRESENTATION|ASSIGNMENT|CATEGORY|CONTEXT|VALUE|UNIT|CLASS|MEASURE|REFERENCE/;
/** What says which property is meant, never how large it is. */
const DEFINES = /PROPERTY|REFERENCE|DEFINITION|CLASS/;
const HOLDS = /VALUE|MEASURE|REPRESENTATION/;
const UNIT = /UNIT/;

export const isItem = ({ parts }: Instance) => parts.some(({ type }) => ITEM.test(type) && !ABOUT.test(type));
export const isUnit = ({ parts }: Instance) => parts.some(({ type }) => UNIT.test(type) && !HOLDS.test(type));
export const isDefinition = ({ parts }: Instance) => parts.some(({ type }) => DEFINES.test(type) && !HOLDS.test(type));
export const isClass = ({ parts }: Instance) => parts.some(({ type }) => /CLASS/.test(type));

export class Net {
  private readonly back = new Map<number, number[]>();

  constructor(readonly instances: ReadonlyMap<number, Instance>) {
    for (const from of instances.values())
      for (const to of this.namedBy(from)) {
        const known = this.back.get(to.id);
        if (known) known.push(from.id);
        else this.back.set(to.id, [from.id]);
      }
  }

  /** What it names, in order. */
  namedBy(instance: Instance): readonly Instance[] {
    const found = instance.parts.flatMap(({ params }) => refsIn(params));
    return found.flatMap((id) => this.instances.get(id) ?? []);
  }

  /** What names it, in order; of what half the file names, such as a unit, the first. */
  namesIt({ id }: Instance): readonly Instance[] {
    return (this.back.get(id) ?? []).slice(0, MOST_NAMES).map((from) => this.instances.get(from)!);
  }
}

const MOST_NAMES = 2000;

export function refsIn(params: readonly Param[]): readonly number[] {
  return params.flatMap((p) => {
    if (p === null || typeof p !== 'object') return [];
    if ('ref' in p) return [p.ref];
    if ('params' in p) return refsIn(p.params);
    return isList(p) ? refsIn(p) : [];
  });
}

export function isList(p: Param): p is readonly Param[] {
  return Array.isArray(p);
}

export function stringsIn(params: readonly Param[]): readonly string[] {
  return params.flatMap((p) => {
    if (typeof p === 'string') return [p];
    if (p === null) return [];
    if ('params' in p) return stringsIn(p.params);
    return isList(p) ? stringsIn(p) : [];
  });
}

function wordsIn(params: readonly Param[]): readonly string[] {
  return params.flatMap((p) => (p !== null && typeof p === 'object' && 'word' in p ? [p.word] : []));
}

/** A unit by its word, or in the terms of the SI: `SI_UNIT(.MILLI.,.METRE.)`. A string is one that is not known. */
export function unitIn(instance: Instance): readonly [Unit, number] | string {
  const strings = instance.parts.flatMap(({ params }) => stringsIn(params)).filter((s) => s.trim() !== '');
  for (const word of strings) {
    const found = unitOf(word);
    if (found) return found;
  }
  const words = instance.parts.flatMap(({ params }) => wordsIn(params));
  if (words.includes('RADIAN')) return ['°', 180 / Math.PI];
  const prefix = { MILLI: 1, CENTI: 10, DECI: 100, MICRO: 0.001 }[words.find((w) => w !== 'METRE') ?? ''];
  if (words.includes('METRE')) return ['mm', words.length > 1 ? (prefix ?? Number.NaN) : 1000];
  return strings[0] ?? words.join(' ');
}
