/**
 * Cutters from an exchange file of ISO 13399. Its properties are found by their codes as strings, wherever a schema puts them: in
 * the value itself, in a definition that a value names, or in a reference to the dictionary that the definition names. A value
 * belongs to the item that is nearest on the way: up to what names it, and down again.
 */
import { heed } from '../effort';
import { type Instance, readExchange } from './exchange';
import { isClass, isItem, isUnit, Net, stringsIn } from './exchange-graph';
import { type Fact, factsOf } from './exchange-values';
import type { Code } from './properties';
import type { Listing, Row, Value } from './row';

/** So many steps up or down lie between a value and its item at most. */
const MOST_STEPS = 5;
/** Items beyond this many are no cutters of a workshop. */
const MOST_ITEMS = 20_000;
const MOST_WORDS = 40;

interface Item {
  readonly instance?: Instance;
  readonly facts: Fact[];
}

export function rowsOfExchange(text: string): Listing {
  const { instances, told } = readExchange(text);
  const net = new Net(instances);
  const items = new Map<number, Item>();
  for (const fact of factsOf(net)) {
    const owners = ownersOf(fact.at, net);
    for (const owner of owners.length > 0 ? owners : [undefined]) {
      const id = owner?.id ?? 0;
      const item = items.get(id) ?? { facts: [], ...(owner && { instance: owner }) };
      item.facts.push(fact);
      if (items.size < MOST_ITEMS) items.set(id, item);
    }
  }
  const rows = [...items.values()].map((item) => rowOf(item, net)).sort((a, b) => a.line - b.line);
  if (rows.length > 0 || instances.size === 0) return { rows, told };
  const none = `None of its ${instances.size} instances names a property by its code of ISO 13399, like DC.`;
  const number = numbered(instances.values());
  return {
    rows,
    told: [
      ...told,
      number === undefined
        ? none
        : `${none} Numbers of a dictionary (ISO 13584) stand there instead, like ${number}: no table here says what they mean. Ask for the list with codes, or as a table.`,
    ],
  };
}

/** The first property that is referred to by its number in a dictionary: `71D084653E57F`, `0112-1---13399_…`, not `DC`. */
function numbered(instances: Iterable<Instance>): string | undefined {
  for (const { parts } of instances)
    for (const { type, params } of parts) {
      const [name] = params;
      if (type === 'PLIB_PROPERTY_REFERENCE' && typeof name === 'string' && /\d{2}/.test(name))
        return name.slice(0, 40);
    }
  return undefined;
}

/** The items at the fewest steps from where a value stands, each as the last of the items that it leads on to. */
function ownersOf(from: Instance, net: Net): readonly Instance[] {
  let up: readonly Instance[] = [from];
  let down: readonly Instance[] = [];
  const seen = new Set([from.id]);
  for (let step = 0; step <= MOST_STEPS; step++) {
    heed(up.length + down.length);
    const found = [...up, ...down].filter(isItem);
    if (found.length > 0) return [...new Set(found.map((item) => leadsTo(item, net)))];
    const fresh = (some: readonly Instance[]) =>
      some.filter((i) => {
        if (seen.has(i.id) || isUnit(i) || isClass(i)) return false;
        seen.add(i.id);
        return true;
      });
    const above = up.flatMap((i) => net.namesIt(i));
    const below = [...up, ...down].flatMap((i) => net.namedBy(i));
    [up, down] = [fresh(above), fresh(below)];
  }
  return [];
}

/** A definition leads to a version, that to the item itself. */
function leadsTo(item: Instance, net: Net): Instance {
  const seen = new Set([item.id]);
  for (let at = item; ; ) {
    const next = net.namedBy(at).find((i) => isItem(i) && !seen.has(i.id));
    if (!next || seen.size > MOST_STEPS) return at;
    seen.add(next.id);
    at = next;
  }
}

function rowOf({ instance, facts }: Item, net: Net): Row {
  const values = new Map<Code, Value>();
  const odd: string[] = [];
  const twice = new Set<Code>();
  for (const { code, value } of facts) {
    if (typeof value === 'string') {
      odd.push(`${code} ${value}`);
      continue;
    }
    const before = values.get(code);
    if (!before || same(before, value)) values.set(code, value);
    else if (!twice.has(code)) {
      twice.add(code);
      odd.push(`${code} has several values, and which holds is not known`);
    }
  }
  for (const code of twice) values.delete(code);
  const strings = instance ? wordsOf(instance, net) : [];
  const line = instance?.line ?? Math.min(...facts.map(({ at }) => at.line));
  const id = strings[0];
  return { line, ...(id !== undefined && { id }), words: strings.slice(0, MOST_WORDS), values, odd };
}

function same(a: Value, b: Value): boolean {
  return 'n' in a && 'n' in b ? a.n === b.n && a.unit === b.unit : 'text' in a && 'text' in b && a.text === b.text;
}

/** Its own strings first, then those of the classes and texts that it or what classifies it names. */
function wordsOf(item: Instance, net: Net): readonly string[] {
  const own = strings(item);
  const around = [
    item,
    ...net.namesIt(item).filter((i) => i.parts.some(({ type }) => /CLASSIF|DESCRI|VERSION/.test(type))),
  ];
  const beside = around.flatMap((i) => (i === item ? net.namedBy(i) : [i, ...net.namedBy(i)]));
  return [...new Set([...own, ...beside.filter((i) => i !== item && !isUnit(i)).flatMap(strings)])];
}

function strings({ parts }: Instance): readonly string[] {
  return parts.flatMap(({ params }) => stringsIn(params)).filter((s) => s.trim() !== '');
}
