/**
 * From a part's text to the part. What can be understood is, whatever else is wrong; every fault is told once, where it
 * stands. It is worked out in cells (`resolve/database.ts`), so that an edit costs what depends on it.
 */

import { atOnce, type Steps } from '../effort';
import { memo } from '../memo';
import type { Quantity } from '../text/expression';
import { readText } from '../text/read';
import { entry, type FoundText, type MapEntry, type MapNode, type Span, scalarAt, type TextTree } from '../text/tree';
import { homeOf } from './feature-kinds';
import { includedIn, NOTHING_TAKEN, type OtherPart } from './include/entries';
import type { Body, Feature, Parameter, Part, SpecProblem, Stock, Units } from './model';
import { bodyAsStock, bodyLength, bodyOf, extentKey, ROUND, roundAxis, stockOf } from './resolve/body';
import { CellDatabase } from './resolve/database';
import type { Found } from './resolve/dependencies';
import { restOf } from './resolve/document-rest';
import { featureOf } from './resolve/feature';
import { headerOf } from './resolve/header';
import { checkName } from './resolve/names';
import { requirementsOf } from './resolve/requirements';

/** No memory of work: the cells that a part was put together from, for whoever resolves the text after it. */
const docs = new WeakMap<Part, CellDatabase>();

/** Works out a part from its text. Never throws. Features that did not change are the same objects as in `before`. */
export function resolvePart(tree: TextTree, before?: Part): Part {
  return atOnce(resolvingPart(tree, before));
}

/** The same, a step for each feature. */
export function resolvingPart(tree: TextTree, before?: Part): Steps<Part> {
  return new Resolving(tree, before && docs.get(before)).part();
}

/** Another part that this one includes features of, as it stands or with other values of its parameters. */
const readOther = memo(
  (other: FoundText, text: string): OtherPart => {
    const tree = readText(text, undefined, other.others);
    const resolving = new Resolving(tree, undefined);
    const part = atOnce(resolving.part());
    return { tree, part, entries: resolving.entries };
  },
  { size: 4 },
);

/** A part that is included, as it stands in its own file. */
export function partThere(other: FoundText): OtherPart {
  return readOther(other, other.text);
}

class Resolving {
  private readonly root: MapNode | undefined;
  private readonly doc: CellDatabase;
  private readonly parameters: ReadonlyMap<string, MapEntry>;
  private readonly features: ReadonlyMap<string, MapEntry>;
  /** Worked out when the first feature is asked for: where they lie may turn on parameters. */
  private included: ReturnType<typeof includedIn> | undefined;

  constructor(
    private readonly tree: TextTree,
    before: CellDatabase | undefined,
  ) {
    this.root = tree.root;
    this.doc = new CellDatabase(unitsOf(tree.root), before);
    this.parameters = entriesOf(tree.root, 'parameters');
    this.features = entriesOf(tree.root, 'features');
    this.doc.answers = {
      parameter: (name) => this.parameterValue(name),
      size: (axis) => this.size(axis),
      feature: (name) => this.feature(name),
      stands: (feature) => homeOf(feature as Feature).stands(feature as Feature),
      parameterNames: () => this.parameters.keys(),
      featureNames: () => this.entries.keys(),
      extentKey: (axis) => extentKey(entry(this.root, 'body'), axis),
    };
  }

  *part(): Steps<Part> {
    const { doc, root } = this;
    const whole: Span = root?.span ?? { block: '', from: 0, to: 0 };
    const header = headerOf(doc, root, whole, this.tree.problems.length > 0);
    for (const name of this.parameters.keys()) this.parameterValue(name);
    const body = this.body();
    const stock = this.stock(body, whole);
    const features: Feature[] = [];
    const featureByName = new Map<string, Feature>();
    const broken = new Set<string>();
    for (const name of this.entries.keys()) {
      yield;
      const found = this.feature(name);
      if (typeof found === 'object') {
        features.push(found);
        featureByName.set(name, found);
      } else broken.add(name);
    }
    const rest = restOf(doc, root);
    const extent = (axis: string) => {
      const found = this.size(axis);
      return body && typeof found === 'object' ? found.value : 0;
    };
    const part: Part = {
      ...header,
      ...requirementsOf(doc, root),
      units: doc.units,
      parameters: this.parameterList(broken),
      ...(body && { body }),
      size: [extent('x'), extent('y'), extent('z')],
      stock,
      features,
      featureByName,
      broken,
      ...rest,
      problems: this.problems(),
      root: whole,
    };
    doc.close();
    docs.set(part, doc);
    return part;
  }

  private problems(): readonly SpecProblem[] {
    const found = [...this.doc.problems()];
    // Where the text itself could not be read, what is missing for that reason is no second fault.
    const lost = this.tree.problems.filter((p) => p.code === 'swallowed-comment');
    if (lost.length === 0) return found;
    return found.filter((p) => !lost.some((t) => t.span.block === p.span.block && near(p.span.to, t.span.from)));
  }

  private body(): Body | undefined {
    const written = entry(this.root, 'body');
    if (!written) return undefined;
    const found = this.doc.cell('body', [written], (work) => {
      for (const axis of ['x', 'y', 'z']) work.look('size', axis);
      return bodyOf(work, written);
    });
    return found === 'circle' ? undefined : found;
  }

  private size(axis: string): Found<Quantity> {
    const written = entry(this.root, 'body');
    if (axis === ROUND) return roundAxis(written);
    if (axis !== 'x' && axis !== 'y' && axis !== 'z') return 'unknown';
    const length = bodyLength(this.doc, written, extentKey(written, axis));
    if (length === 'circle') return 'circle';
    return length ? { dimension: 'length', value: length.mm } : 'broken';
  }

  private stock(body: Body | undefined, whole: Span): Stock {
    const written = entry(this.root, 'stock');
    const from = scalarAt(written?.value, 'from');
    const other = from ? this.tree.others.get(String(from.value)) : undefined;
    const found =
      written &&
      this.doc.cell('stock', [written, body, other], (work) => {
        return (
          stockOf(work, written, body, { text: other, read: readOther }) ?? {
            ...bodyAsStock(body, written.span),
            written: true,
          }
        );
      });
    if (found && found !== 'circle') return found;
    const made = this.doc.cell('stock/none', [body, body ? undefined : whole], () =>
      bodyAsStock(body, body?.span ?? whole),
    );
    return made as Stock;
  }

  /** Every feature's entry by its name: its own, then those that it includes. */
  get entries(): ReadonlyMap<string, MapEntry> {
    const { byName } = this.taken();
    if (byName.size === 0) return this.features;
    return new Map([...this.features, ...[...byName].map(([name, { entry: e }]) => [name, e] as const)]);
  }

  private taken(): ReturnType<typeof includedIn> {
    if (!this.included) {
      this.included = NOTHING_TAKEN;
      this.included = includedIn(this.doc, this.root, this.features, { others: this.tree.others, read: readOther });
    }
    return this.included;
  }

  private feature(name: string): Found<Feature> {
    const taken = this.features.has(name) ? undefined : this.taken().byName.get(name);
    const written = taken?.entry ?? this.features.get(name);
    if (!written) return this.taken().lacks ? 'broken' : 'unknown';
    const compute = (work: Parameters<typeof featureOf>[0]) => {
      checkName(work, written.key, 'feature');
      const feature = featureOf(work, written);
      return feature && taken ? { ...feature, included: taken.included } : feature;
    };
    return this.doc.cell(`features/${name}`, [written], compute, name) ?? 'broken';
  }

  private parameterValue(name: string): Found<Quantity> {
    const written = this.parameters.get(name);
    if (!written) return 'unknown';
    const found = this.doc.cell(`parameters/${name}`, [written], (work) => {
      checkName(work, written.key, 'parameter');
      const node = written.value;
      if (node?.type !== 'scalar' || node.value === null) {
        const message = `The parameter needs a value: a length, an angle or a number. Write it like \`${name}: 36\`.`;
        return work.fail(message, node && node.type !== 'scalar' ? node.span : written.key.span);
      }
      const value = work.any(node);
      if (!value && work.circle !== undefined) {
        work.fail(
          `Parameters go in a circle: ${work.doc.circle(`parameters/${work.circle}`)}. Make one of them a number, like \`12\`.`,
          node.span,
        );
      }
      return value;
    });
    return found ?? 'broken';
  }

  private parameterList(broken: ReadonlySet<string>): ReadonlyMap<string, Parameter> {
    const used = new Set(this.doc.usedParameters());
    // What a broken feature would have looked at is not unused.
    for (const name of broken) for (const word of wordsOf(this.entries.get(name)?.value)) used.add(word);
    const list = new Map<string, Parameter>();
    for (const [name, { key, value: node }] of this.parameters) {
      const value = this.parameterValue(name);
      list.set(name, {
        name,
        span: key.span,
        ...(typeof value === 'object' && { value }),
        text: node?.type === 'scalar' ? node.source : '',
        valueSpan: node?.span ?? key.span,
        used: used.has(name),
      });
    }
    return list;
  }
}

/** A key, a colon and a little space before what was lost. */
function near(to: number, from: number): boolean {
  return from >= to && from - to < 40;
}

function unitsOf(root: MapNode | undefined): Units {
  const units = entry(root, 'units')?.value;
  return units?.type === 'scalar' && units.value === 'in' ? 'in' : 'mm';
}

/** Entries of a top-level map by name; the first of duplicates. */
function entriesOf(root: MapNode | undefined, key: string): ReadonlyMap<string, MapEntry> {
  const found = new Map<string, MapEntry>();
  const map = entry(root, key)?.value;
  if (map?.type === 'map') {
    for (const e of map.entries) if (!found.has(String(e.key.value))) found.set(String(e.key.value), e);
  }
  return found;
}

/** Every word in the scalars under a node. */
function* wordsOf(node: MapEntry['value']): Generator<string> {
  if (node?.type === 'scalar') yield* String(node.value).match(/[a-z][a-z0-9-]*/g) ?? [];
  if (node?.type === 'list') for (const item of node.items) yield* wordsOf(item);
  if (node?.type === 'map') for (const e of node.entries) yield* wordsOf(e.value);
}
