/** The features that a part takes from other parts' files, as entries beside its own: each told at the entry that brings it. */
import { linesOf } from '../../text/lines';
import {
  at,
  type FoundText,
  type MapEntry,
  type MapNode,
  mapAt,
  type Others,
  type OtherText,
  type Span,
  scalarAt,
  seatOf,
  type TextTree,
} from '../../text/tree';
import { FACE_PLANE, type Face, type Included } from '../base';
import { FEATURE_KINDS, type Feature } from '../feature-kinds';
import { sharedText } from '../job-parameters';
import type { Part } from '../model';
import type { CellDatabase } from '../resolve/database';
import { type Evaluation, itemsOf, textOf } from '../resolve/evaluation';
import { lackingIn } from '../resolve/lacking';
import { faceOf, positionOf } from '../resolve/places';
import { code, fewOf, nearest, quote, replace } from '../resolve/problem';
import { faultsOf } from '../resolve/validate';
import { NAME } from '../schema/common';
import { include as includeSchema } from '../schema/include';
import { type Shape, shapeOf } from '../schema/shape';
import { textWith } from '../variants';
import { type Lay, layOf, type Point, stillOn } from './lay';
import { faceThere, NoMeaning, WrittenOut } from './written-out';

/** Another part as read: its features with the entries that they were read from, its own and those that it includes. */
export interface OtherPart {
  readonly tree: TextTree;
  readonly part: Part;
  readonly entries: ReadonlyMap<string, MapEntry>;
}
type ReadOther = (other: FoundText, text: string) => OtherPart;

interface Taken {
  readonly entry: MapEntry;
  readonly included: Included;
}

const INCLUDE = shapeOf(includeSchema);

interface AllTaken {
  /** By their names here. What the part has by the same name itself goes before. */
  readonly byName: ReadonlyMap<string, Taken>;
  /** Something could not be taken: a name that nobody knows may be one of those. */
  readonly lacks: boolean;
}
export const NOTHING_TAKEN: AllTaken = { byName: new Map(), lacks: false };

export function includedIn(
  doc: CellDatabase,
  root: MapNode | undefined,
  own: ReadonlyMap<string, unknown>,
  { others, read }: { readonly others: Others; readonly read: ReadOther },
): AllTaken {
  const found = new Map<string, Taken>();
  let lacks = false;
  for (const entry of mapAt(root, 'include')?.entries ?? []) {
    const from = scalarAt(entry.value, 'from');
    const other = from ? others.get(String(from.value)) : undefined;
    const taken = doc.cell(`include/${entry.key.value}`, [entry, other], (work) => groupOf(work, entry, other, read));
    if (!taken || taken === 'circle') {
      lacks = true;
      continue;
    }
    const clash = taken.map((t) => String(t.entry.key.value)).filter((name) => own.has(name) || found.has(name));
    if (clash.length > 0)
      doc.cell(`include/${entry.key.value}/names`, [entry, clash.join()], (work) =>
        work.fail(
          `${quote(clash[0])} is in this part already. Write another \`prefix\`, or its name under \`rename\`.`,
          entry.key.span,
        ),
      );
    for (const one of taken) {
      const name = String(one.entry.key.value);
      if (!own.has(name) && !found.has(name)) found.set(name, one);
    }
  }
  return { byName: found, lacks };
}

function groupOf(
  work: Evaluation,
  entry: MapEntry,
  other: OtherText | undefined,
  read: ReadOther,
): readonly Taken[] | undefined {
  const name = String(entry.key.value);
  const map = entry.value;
  if (map?.type !== 'map')
    return work.fail(
      `${quote(name)} needs the file of a part. Write it like \`${name}: { from: motor-face.part.yaml }\`.`,
      map?.span ?? entry.key.span,
    );
  for (const f of faultsOf(INCLUDE, map, 'An include', entry.key.span))
    if (f.breaks) work.fail(f.message, f.span, f.fixes ? { fixes: f.fixes } : {});
    else work.remark(f.message, f.span, f.fixes ? { fixes: f.fixes } : {});
  if (work.broken) return undefined;
  const from = scalarAt(map, 'from')!;
  if (!other) return work.fail(`${quote(from.source)} was not read here. Check this file with its folder.`, from.span);
  if ('why' in other) return work.fail(other.why, from.span, {}, 'form/unknown-name');
  return new Including(work, map, { name, file: textOf(from), from: from.span, path: other.path }).taken(other, read);
}

interface Source {
  readonly name: string;
  readonly file: string;
  readonly from: Span;
  readonly path: string;
}

class Including {
  constructor(
    private readonly work: Evaluation,
    private readonly map: MapNode,
    private readonly source: Source,
  ) {}

  taken(other: FoundText, read: ReadOther): readonly Taken[] | undefined {
    const { work, source } = this;
    const plain = read(other, other.text);
    if (plain.tree.problems.length > 0)
      return work.fail(`${quote(source.file)} cannot be read: ${plain.tree.problems[0]!.message}`, source.from);
    const values = this.values(plain.part);
    if (!values) return undefined;
    const there = values.size > 0 ? read(other, textWith(plain.tree, values)) : plain;
    const wanted = this.wanted(there);
    const lay = wanted && this.lay(there.part, wanted);
    if (!wanted || lay === undefined) return undefined;
    return this.written(there, wanted, lay ?? undefined);
  }

  /** Values that parameters of the other part have here. */
  private values(part: Part): ReadonlyMap<string, string> | undefined {
    const { work } = this;
    const values = new Map<string, string>();
    for (const { key, value: node } of mapAt(this.map, 'parameters')?.entries ?? []) {
      const name = String(key.value);
      if (!part.parameters.has(name)) work.unknown('parameter', name, key.span, part.parameters.keys());
      const value = node?.type === 'scalar' ? work.any(node) : undefined;
      const text = value && sharedText(value, { job: work.doc.units, part: part.units });
      if (value && text === undefined)
        work.fail(
          `\`${name}\` has no unit, and ${this.source.file} is written in \`${part.units}\`. Write its unit.`,
          node!.span,
        );
      if (text !== undefined) values.set(name, text);
    }
    return work.broken ? undefined : values;
  }

  /** The features that are taken, each understood there. */
  private wanted(there: OtherPart): readonly Feature[] | undefined {
    const { work, source } = this;
    const { part, entries } = there;
    const list = at(this.map, 'features');
    const named = list ? itemsOf(list) : undefined;
    const names = named ? named.map((n) => (n.type === 'scalar' ? textOf(n) : '')) : [...entries.keys()];
    const deeper = lackingIn(there);
    if (deeper !== undefined && (!list || names.some((name) => !entries.has(name))))
      return work.fail(`${quote(source.file)} lacks something itself. ${deeper}`, source.from);
    if (names.length === 0)
      return work.fail(`${quote(source.file)} has no features to include.`, list?.span ?? source.from);
    for (const [i, name] of names.entries()) {
      const span = named?.[i]?.span ?? source.from;
      if (names.indexOf(name) !== i) work.fail(`${quote(name)} is named twice. Delete one of them.`, span);
      if (entries.has(name)) continue;
      const like = nearest(name, [...entries.keys()]);
      const rest = like ? `Did you mean \`${like}\`?` : `It has ${fewOf(code(entries.keys()), 'and')}.`;
      const message = `${quote(source.file)} has no feature ${quote(name)}. ${rest}`;
      work.fail(message, span, like ? { fixes: [replace(span, like)] } : {}, 'form/unknown-name');
    }
    const broken = names.filter((name) => part.broken.has(name));
    if (broken.length > 0) {
      const told = part.problems.find((p) => p.of === broken[0])?.message;
      work.fail(
        `${quote(broken[0])} of ${quote(source.file)} is not understood. ${told ?? 'Open that file.'}`,
        source.from,
      );
    }
    return work.broken ? undefined : names.map((name) => part.featureByName.get(name)!);
  }

  /** Null where it lies as it lies there; undefined where that could not be understood. */
  private lay(part: Part, wanted: readonly Feature[]): Lay | null | undefined {
    const { work } = this;
    const place = mapAt(this.map, 'place');
    if (!place) return null;
    const byNode = scalarAt(place, 'by');
    const by = byNode && part.featureByName.get(textOf(byNode));
    if (byNode && !by) return work.unknown('feature', textOf(byNode), byNode.span, part.featureByName.keys());
    const from = [by, ...wanted].map((f) => f && faceThere(f)).find((f) => f !== undefined);
    if (!from) return work.fail('None of these features lies on a face. Leave `place` out.', place.span);
    const to = faceOf(scalarAt(place, 'face')) ?? from;
    const point = positionOf(work, mapAt(place, 'at')!, to);
    const turn = at(place, 'rotate') ? work.angle(place, 'rotate', -360.001, 360.001) : { deg: 0 };
    const middle = by ? centreOf(by) : middleOf(part, from);
    if (!middle)
      return work.fail(
        `${quote(textOf(byNode!))} has no centre: it is drawn by its corners. Name another in \`by\`.`,
        byNode!.span,
      );
    return point && turn && layOf(from, to, middle, [point.u, point.v], turn.deg);
  }

  private written(other: OtherPart, wanted: readonly Feature[], lay: Lay | undefined): readonly Taken[] | undefined {
    const { work, source } = this;
    const names = this.names(wanted);
    if (!names) return undefined;
    const lines = linesOf(other.tree.text);
    const seat: Span = { block: seatOf(source.name), from: 0, to: source.name.length };
    const taken = wanted.flatMap((feature): Taken[] => {
      const face = faceThere(feature);
      try {
        if (lay && face && face !== lay.from)
          throw new NoMeaning(`lies on ${face}, and the group on ${lay.from}. Include it by an entry of its own.`);
        const group = { there: other.part, units: work.doc.units, seat, lay, called: (n: string) => names.get(n) };
        const shape: Shape = shapeOf(FEATURE_KINDS[feature.kind].schema);
        const out = new WrittenOut(group, feature, stillOn(feature.face));
        const { start, end } = other.tree.locate(feature.nameSpan);
        const range = { start: lines.position(start), end: lines.position(end) };
        const included = { by: source.name, file: source.file, path: source.path, name: feature.name, range };
        return [{ entry: out.entry(other.entries.get(feature.name)!, shape), included }];
      } catch (reason) {
        if (!(reason instanceof NoMeaning)) throw reason;
        work.fail(`${quote(feature.name)} ${reason.message}`, this.spanOf(feature.name));
        return [];
      }
    });
    return work.broken ? undefined : taken;
  }

  /** What each is called here. */
  private names(wanted: readonly Feature[]): ReadonlyMap<string, string> | undefined {
    const { work } = this;
    const prefix = scalarAt(this.map, 'prefix');
    const renamed = mapAt(this.map, 'rename');
    for (const { key } of renamed?.entries ?? [])
      if (!wanted.some((f) => f.name === String(key.value)))
        work.unknown(
          'feature',
          String(key.value),
          key.span,
          wanted.map((f) => f.name),
        );
    const names = new Map<string, string>();
    for (const { name } of wanted) {
      const own = scalarAt(renamed, name);
      const here = own ? textOf(own) : `${prefix ? textOf(prefix) : ''}${name}`;
      const span = (own ?? prefix)?.span ?? this.source.from;
      if (!NAME.test(here))
        return work.fail(`${quote(here)} is no name. Use small letters, digits and \`-\`, a letter first.`, span);
      if ([...names.values()].includes(here))
        work.fail(`Two features would be called ${quote(here)}. Rename one.`, span);
      names.set(name, here);
    }
    return work.broken ? undefined : names;
  }

  private spanOf(name: string): Span {
    const list = at(this.map, 'features');
    return itemsOf(list).find((n) => n.type === 'scalar' && textOf(n) === name)?.span ?? this.source.from;
  }
}

/** The middle of what the body shows on a face. */
function middleOf({ size }: Part, face: Face): Point {
  const [u, v] = FACE_PLANE[face].map((axis) => size[axis === 'x' ? 0 : axis === 'y' ? 1 : 2] / 2);
  return [u!, v!];
}

/** Where a feature is, or the middle of a pattern; undefined of one that is drawn in part axes. */
function centreOf(feature: Feature): Point | undefined {
  const { places } = feature;
  if (places.some((p) => !p.written && !feature.pattern)) return undefined;
  const [u, v] = places.reduce(([a, b], p): [number, number] => [a + p.u, b + p.v], [0, 0] as [number, number]);
  return [u / places.length, v / places.length];
}
