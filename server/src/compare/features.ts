/**
 * The features of two texts put side by side: by name, then by what they are in metal, so that one that was only renamed,
 * moved, or written as members of a pattern is known again.
 */

import { FACE_PLANE, type Feature, type Part, type PathCorner, type Place } from '../model/model';
import { type Difference, differences, type Fact, type Facts, factsOf, keyOf, placeFact, type Reader } from './meaning';
import { pairedBy } from './pairs';

type ChangeKind = 'added' | 'gone' | 'moved' | 'resized' | 'tolerance' | 'changed' | 'renamed' | 'rewritten';

export interface FeatureChange {
  /** What became of it; `renamed` alone where nothing else did. More than one where more did. */
  readonly kinds: readonly ChangeKind[];
  readonly kind: string;
  /** The name in the new text; of what is gone, in the old one. */
  readonly name: string;
  readonly wasName?: string;
  /** What it is, where it came or went: `⌀ 5.5 mm, through`. */
  readonly is?: string;
  readonly differences: readonly Difference[];
}

interface Known {
  readonly feature: Feature;
  /** All but places. */
  readonly facts: Facts;
  readonly what: string;
  /** Each member's place, sorted. */
  readonly places: readonly Fact[];
  readonly where: string;
}

export function featureChanges(before: Part, after: Part): readonly FeatureChange[] {
  const blind: Reader = {
    units: after.units,
    nameOf: (name) => (before.featureByName.has(name) || after.featureByName.has(name) ? '*' : name),
  };
  const first = paired(before, after, { before: blind, after: blind });
  // Names of the old text as the new one has them: what only follows a renamed feature has not changed.
  const renamed = new Map(first.pairs.map(([a, b]) => [a.feature.name, b.feature.name]));
  const readers = {
    before: { units: after.units, nameOf: (name: string) => renamed.get(name) ?? name },
    after: { units: after.units, nameOf: (name: string) => name },
  };
  const { pairs, gone, added } = paired(before, after, readers);
  const { left, came, rewritten } = regrouped(gone, added);
  return [
    ...pairs.flatMap(([a, b]) => changeOf(a, b) ?? []),
    ...rewritten,
    ...came.map((k) => whole('added', k)),
    ...left.map((k) => whole('gone', k)),
  ];
}

interface Readers {
  readonly before: Reader;
  readonly after: Reader;
}

function paired(before: Part, after: Part, readers: Readers) {
  const olds = before.features.map((f) => known(f, readers.before));
  const news = after.features.map((f) => known(f, readers.after));
  const sameKind = (a: Known, b: Known) => a.feature.kind === b.feature.kind;
  const others = [new Set(after.features.map((f) => f.name)), new Set(before.features.map((f) => f.name))] as const;
  const isFree = (a: Known, b: Known) => !others[0].has(a.feature.name) && !others[1].has(b.feature.name);
  return pairedBy(
    olds,
    news,
    (a, b) => a.feature.name === b.feature.name && sameKind(a, b),
    // Under another name: the same in metal, then the same at another place, then another size at the same place.
    (a, b) => a.what === b.what && a.where === b.where,
    (a, b) => sameKind(a, b) && isFree(a, b) && a.what === b.what && a.places.length === b.places.length,
    (a, b) => sameKind(a, b) && isFree(a, b) && a.where === b.where && a.feature.face === b.feature.face,
  );
}

function known(feature: Feature, reader: Reader): Known {
  const { inner, origin } = fromItsFirstCorner(feature);
  const facts = new Map(factsOf(inner, reader));
  if (feature.from)
    facts.set('from', { key: reader.nameOf(feature.from.name), shown: reader.nameOf(feature.from.name) });
  const places = feature.places
    .map((p) => placeFact({ u: p.u + origin.u, v: p.v + origin.v }, reader))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  return {
    feature,
    facts,
    what: `${feature.kind} ${keyOf(facts)}`,
    places,
    where: places.map((p) => p.key).join(' '),
  };
}

/** All that one feature is, its places among it. */
export function featureFacts(feature: Feature, reader: Reader): Facts {
  const { facts, places } = known(feature, reader);
  const at = { key: '', shown: places.map((p) => p.shown).join('; ') };
  return new Map([['face', { key: feature.face, shown: feature.face }], ...facts, ['at', at]]);
}

/** A line or an outline by corners counts from its first one: whether `at` or the corners were moved is all the same. */
function fromItsFirstCorner(feature: Feature): { readonly inner: object; readonly origin: Pick<Place, 'u' | 'v'> } {
  const line = 'line' in feature ? feature.line : undefined;
  const shape = 'shape' in feature && feature.shape.type === 'path' ? feature.shape : undefined;
  const origin = (line ?? shape?.corners)?.[0];
  if (!origin) return { inner: feature, origin: { u: 0, v: 0 } };
  const moved = (corners: readonly PathCorner[]) =>
    corners.map((c) => ({
      ...c,
      u: c.u - origin.u,
      v: c.v - origin.v,
      ...(c.arc && { arc: { ...c.arc, u: c.arc.u - origin.u, v: c.arc.v - origin.v } }),
    }));
  const inner = {
    ...feature,
    ...(line && { line: moved(line) }),
    ...(shape && { shape: { ...shape, corners: moved(shape.corners) } }),
  };
  return { inner, origin };
}

function changeOf(a: Known, b: Known): FeatureChange | undefined {
  const axes = FACE_PLANE[b.feature.face];
  const found = [...differences(a.facts, b.facts).map((d) => ({ ...d, what: along(d.what, axes) })), ...moves(a, b)];
  const renamed = a.feature.name !== b.feature.name;
  if (found.length === 0 && !renamed) return undefined;
  const kinds = new Set<ChangeKind>(found.map(kindOf));
  return {
    kinds: [...(renamed ? (['renamed'] as const) : []), ...kinds],
    kind: b.feature.kind,
    name: b.feature.name,
    ...(renamed && { wasName: a.feature.name }),
    differences: found,
  };
}

/** `shape u` is the size along the first axis of the face's plane. */
export function along(what: string, [first, second]: readonly [string, string]): string {
  return what
    .replace(/^shape u\b/, `size ${first}`)
    .replace(/^shape v\b/, `size ${second}`)
    .replace(/^shape /, '');
}

function kindOf({ what, before, after }: Difference): ChangeKind {
  if (what === 'at' || what === 'face' || what === 'from' || what === 'start') return 'moved';
  if (what.endsWith('tolerance')) return 'tolerance';
  return [before, after].every((s) => s === undefined || /^-?[\d.]+( mm| in|°|$)|^through$/.test(s))
    ? 'resized'
    : 'changed';
}

/** Places that went and came, told in pairs where as many came as went. */
function moves(a: Known, b: Known): readonly Difference[] {
  if (a.where === b.where) return [];
  const went = without(a.places, b.places);
  const came = without(b.places, a.places);
  const axes = FACE_PLANE[b.feature.face].join(', ');
  const shown = (facts: readonly Fact[]) => `${axes} ${facts.map((f) => f.shown).join('; ')}`;
  return [
    {
      what: 'at',
      ...(went.length > 0 && { before: shown(went) }),
      ...(came.length > 0 && { after: shown(came) }),
    },
  ];
}

function without(all: readonly Fact[], others: readonly Fact[]): readonly Fact[] {
  const left = others.map((f) => f.key);
  return all.filter(({ key }) => {
    const at = left.indexOf(key);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** The same members under other names: a pattern written out, or put together. No metal has changed. */
function regrouped(gone: readonly Known[], added: readonly Known[]) {
  const rewritten: FeatureChange[] = [];
  const [left, came] = [[...gone], [...added]];
  for (const what of new Set(gone.map((k) => k.what))) {
    const olds = gone.filter((k) => k.what === what);
    const news = added.filter((k) => k.what === what);
    const members = (all: readonly Known[]) => all.flatMap((k) => k.places.map((p) => p.key)).sort();
    if (news.length === 0 || members(olds).join(' ') !== members(news).join(' ')) continue;
    for (const k of olds) left.splice(left.indexOf(k), 1);
    for (const k of news) came.splice(came.indexOf(k), 1);
    rewritten.push({
      kinds: ['rewritten'],
      kind: news[0]!.feature.kind,
      name: news.map((k) => k.feature.name).join(', '),
      wasName: olds.map((k) => k.feature.name).join(', '),
      differences: [],
    });
  }
  return { left, came, rewritten };
}

function whole(kind: 'added' | 'gone', { feature, facts, places }: Known): FeatureChange {
  const said = ['diameter', 'size', 'width', 'thread designation', 'depth']
    .flatMap((path) => (facts.has(path) ? [`${path} ${facts.get(path)!.shown}`] : []))
    .join(', ');
  const many = places.length > 1 ? `${places.length} × ` : '';
  return {
    kinds: [kind],
    kind: feature.kind,
    name: feature.name,
    is: `${many}${feature.kind} on ${feature.face}${said ? `: ${said}` : ''}`,
    differences: [],
  };
}
