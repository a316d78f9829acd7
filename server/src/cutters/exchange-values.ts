/** What an exchange file says of properties: each code with its value, and the instance that puts the two together. */
import { heed } from '../effort';
import type { Instance, Param } from './exchange';
import { isDefinition, isItem, isList, isUnit, type Net, refsIn, stringsIn, unitIn } from './exchange-graph';
import { readMeasured, tidy, valueIn } from './numbers';
import { type Code, isCode, quantityOf } from './properties';
import { cited, type Value } from './row';

export interface Fact {
  readonly code: Code;
  /** A string says why it could not be read. */
  readonly value: Value | string;
  readonly at: Instance;
}

/** So many steps lead from a definition up to what gives it a value, and from there down to the value. */
const MOST_UP = 3;
const MOST_DOWN = 3;

export function* factsOf(net: Net): Iterable<Fact> {
  for (const instance of net.instances.values())
    for (const { code, beside } of codesIn(instance)) {
      heed(1);
      const own = isDefinition(instance) ? undefined : readValue(code, beside, net, instance);
      if (own !== undefined) yield { code, value: own, at: instance };
      else yield* above(code, instance, net);
    }
}

interface Coded {
  readonly code: Code;
  /** What stands behind it in its list, up to the next code. */
  readonly beside: readonly Param[];
}

/** Codes as strings, and as types of values: `DC(10.)`. */
function codesIn(instance: Instance): readonly Coded[] {
  return instance.parts.flatMap(({ params }) => codesAmong(params));
}

function codesAmong(params: readonly Param[]): readonly Coded[] {
  const places = params.flatMap((p, i) => (typeof p === 'string' && isCode(p) ? [i] : []));
  const here = places.map((at, i) => ({ code: params[at] as Code, beside: params.slice(at + 1, places[i + 1]) }));
  const within = params.flatMap((p) => {
    if (p === null || typeof p !== 'object') return [];
    if ('params' in p)
      return [...(isCode(p.type) ? [{ code: p.type, beside: p.params }] : []), ...codesAmong(p.params)];
    return isList(p) ? codesAmong(p) : [];
  });
  return [...here, ...within];
}

/** Of a definition: what names it and a value, as often as that is so. */
function* above(code: Code, definition: Instance, net: Net): Iterable<Fact> {
  let now: readonly Instance[] = [definition];
  const seen = new Set([definition.id]);
  for (let step = 0; step < MOST_UP && now.length > 0; step++) {
    const next: Instance[] = [];
    for (const below of now)
      for (const at of net.namesIt(below)) {
        heed(1);
        if (seen.has(at.id)) continue;
        seen.add(at.id);
        const value = isDefinition(at) ? undefined : valueUnder(code, at, below, net);
        if (value === undefined) next.push(at);
        else yield { code, value, at };
      }
    now = next;
  }
}

/** In what stands there itself, else in what it names. */
function valueUnder(code: Code, at: Instance, from: Instance, net: Net): Value | string | undefined {
  const seen = new Set([from.id]);
  let now: readonly Instance[] = [at];
  for (let step = 0; step <= MOST_DOWN && now.length > 0; step++) {
    const next: Instance[] = [];
    for (const instance of now) {
      heed(1);
      if (seen.has(instance.id) || isUnit(instance) || isItem(instance) || isDefinition(instance)) continue;
      seen.add(instance.id);
      // A word on the way says what a thing is, and is no value: only what holds values has one.
      const value = readValue(
        code,
        instance.parts.flatMap((p) => p.params),
        net,
        instance,
        from,
      );
      if (value !== undefined) return value;
      next.push(...net.namedBy(instance));
    }
    now = next;
  }
  return undefined;
}

/** What has a value in words; others on the way have words that say what they are. */
const HOLDER = /DESCRIPTIVE|(?:VALUE|MEASURE)(?!.*(?:REPRESENTATION$|ASSOCIATION))/;

/** A value with limits beside it is what it names; of several numbers the one with a point is the measure. */
function readValue(
  code: Code,
  params: readonly Param[],
  net: Net,
  instance: Instance,
  definition?: Instance,
): Value | string | undefined {
  const holds = definition === undefined || instance.parts.some(({ type }) => HOLDER.test(type));
  const bounds = instance.parts.some(({ type }) => /RANGE|LIMITS|TOLERANCE/.test(type));
  if (quantityOf(code) === 'words') {
    const said = (holds ? stringsIn(params) : []).filter((s) => s.trim() !== '' && !isCode(s));
    return said.length > 0 ? { text: said.at(-1)!.trim() } : undefined;
  }
  const numbers = numbersIn(params);
  const reals = numbers.filter(({ real }) => real);
  if (bounds) return reals.length > 1 && refsIn(params).length === 0 ? 'is a range' : undefined;
  const number = (reals.length > 0 ? reals : numbers).at(-1);
  if (number) return inUnit(code, number.n, unitFor(params, net, definition));
  const written = (holds ? stringsIn(params) : [])
    .map((s) => readMeasured(s, false))
    .find((r) => typeof r !== 'string');
  if (!written || typeof written === 'string') return undefined;
  return written.unit
    ? valueIn(code, written.n, written.unit)
    : inUnit(code, written.n, unitFor(params, net, definition));
}

/** Of the value itself, else of its definition. */
function unitFor(params: readonly Param[], net: Net, definition: Instance | undefined) {
  const named = refsIn(params).flatMap((id) => net.instances.get(id) ?? []);
  const unit = named.find(isUnit) ?? (definition && net.namedBy(definition).find(isUnit));
  return unit && unitIn(unit);
}

function inUnit(code: Code, n: number, unit: ReturnType<typeof unitIn> | undefined): Value | string {
  // A count of edges may be said to be in pieces.
  const is = quantityOf(code);
  if (unit === undefined || is === 'count' || is === 'speed') return valueIn(code, n, undefined);
  if (typeof unit === 'string')
    return unit === '' ? valueIn(code, n, undefined) : `has the unit ${cited(unit)}, which is not known`;
  const [word, many] = unit;
  return Number.isFinite(many) ? valueIn(code, tidy(n * many), word) : 'has a unit that is not known';
}

function numbersIn(params: readonly Param[]): readonly { readonly n: number; readonly real: boolean }[] {
  return params.flatMap((p) => {
    if (p === null || typeof p !== 'object') return [];
    if ('n' in p) return [p];
    if ('params' in p) return numbersIn(p.params);
    return isList(p) ? numbersIn(p) : [];
  });
}
