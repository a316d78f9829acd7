/** From the text of a job's `joints` to the joints. Names of parts are looked up in the job; those of features where their files are known. */

import { BEARING_SOURCE, bearingNames, findBearing, ringLimits, widthLimits } from '../tables/bearings';
import {
  type NUTS,
  nutHeightMm,
  readScrew,
  SCREW_STANDARDS,
  type Screw,
  type WASHERS,
  washerOf,
} from '../tables/fasteners';
import { readPin } from '../tables/pins';
import {
  at,
  entry,
  type MapEntry,
  type MapNode,
  mapAt,
  type ScalarNode,
  type Span,
  scalarAt,
  type TextNode,
  within,
} from '../text/tree';
import type { Length, Named } from './base';
import { isSound } from './header';
import type { Bearing, Bought, FitKind, Joint, Located, Meeting, Pinned, Screwed, Shaft, Stacked } from './joint-model';
import { listed, nearest, quote, replace } from './resolve/problem';
import { JOINTS } from './schema/joints';
import type { Fields } from './shop-fields';
import { tolerancedLength } from './toleranced-length';

type Kind = keyof typeof JOINTS;
const KINDS = Object.keys(JOINTS) as readonly Kind[];

/** Reads one joint after the other; what was said of it first is told, and it is left out. */
export function readJoints(fields: Fields, root: MapNode | undefined, pieces: readonly string[]): readonly Joint[] {
  const section = entry(root, 'joints');
  if (!section) return [];
  if (section.value === undefined) return [];
  if (section.value.type !== 'map') {
    const message =
      '`joints` needs a name for each, and what meets. Write it like `left: { screw: M5, through: …, into: … }`.';
    fields.problem('form/schema', message, section.value.span);
    return [];
  }
  const reader = new JointReader(fields, pieces);
  const read = section.value.entries.flatMap((one) => reader.joint(one) ?? []);
  const names = read.map((j) => j.name);
  for (const joint of read) {
    const other = 'with' in joint ? joint.with : undefined;
    if (other && (other.name === joint.name || !names.includes(other.name)))
      fields.unknownName(
        'other joint',
        other.name,
        names.filter((n) => n !== joint.name),
        other.span,
      );
  }
  return read;
}

class JointReader {
  constructor(
    private readonly fields: Fields,
    private readonly pieces: readonly string[],
  ) {}

  joint(one: MapEntry): Joint | undefined {
    const name = String(one.key.value);
    const what = `Joint ${quote(name)}`;
    const { value } = one;
    if (value?.type !== 'map') {
      const message = `${what} needs what it is made with. Write it like \`{ screw: M5, through: …, into: … }\`.`;
      this.fields.problem('form/schema', message, one.key.span);
      return undefined;
    }
    const kind = kindOf(value);
    if (!kind) {
      const words = value.entries.map((e) => String(e.key.value));
      const like = words.map((w) => ({ w, k: nearest(w, KINDS) })).find(({ k }) => k);
      const span = like ? entry(value, like.w)!.key.span : one.key.span;
      const message = `${what} has nothing that it is made with. ${like ? `Did you mean \`${like.k}\`?` : `Write ${listed(KINDS.map((k) => `\`${k}\``))}.`}`;
      this.fields.problem('form/schema', message, span, like ? { fixes: [replace(span, like.k!)] } : {});
      return undefined;
    }
    if (!isSound(this.fields, JOINTS[kind], value, what, one.key.span)) return undefined;
    const before = this.fields.problems.length;
    const times = this.fields.number(value, 'times', 1, true) ?? 1;
    const base = { name, span: one.key.span, times, whole: one.span };
    const made = READERS[kind](this, base, value);
    return this.fields.problems.length > before ? undefined : made;
  }

  fail(message: string, span: Span): undefined {
    this.fields.problem('form/schema', message, span);
    return undefined;
  }

  screw(node: ScalarNode): Screw | undefined {
    const read = readScrew(node.source);
    if (read.ok) return read.screw;
    if (read.wrong === 'standard') {
      const known = Object.keys(SCREW_STANDARDS);
      const like = nearest(read.text, known);
      return this.fail(
        `No screw of ${quote(read.text)} is in the tables. ${like ? `Did you mean \`${like}\`?` : `Write one of ${known.slice(0, 5).join(', ')}, or delete it.`}`,
        node.span,
      );
    }
    return this.fail(
      `${quote(read.text)} is not a screw. Write it like \`M5\`, \`M5x16\`, \`ISO 4762 M5x16\` or \`10-24 x 1/2\`.`,
      node.span,
    );
  }

  meetings(map: MapNode, key: string): readonly Meeting[] {
    const node = at(map, key);
    const nodes = node?.type === 'list' ? node.items : node ? [node] : [];
    const read = nodes.flatMap((n) => (n.type === 'scalar' ? (this.meeting(n) ?? []) : []));
    if (node?.type === 'list' && node.items.length === 0)
      this.fail(`\`${key}\` is empty. Write it like \`part.feature\`.`, node.span);
    return read;
  }

  meeting(node: ScalarNode): Meeting | undefined {
    const text = node.source.trim();
    const dot = text.indexOf('.');
    if (dot < 1 || dot === text.length - 1)
      return this.fail(
        `${quote(text)} names no feature of a part. Write \`part.feature\`, like \`${this.pieces[0] ?? 'yoke'}.mount\`.`,
        node.span,
      );
    const lead = node.source.indexOf(text);
    const piece = { name: text.slice(0, dot), span: within(node, lead, lead + dot) };
    const feature = { name: text.slice(dot + 1), span: within(node, lead + dot + 1, lead + text.length) };
    if (!this.pieces.includes(piece.name)) {
      this.fields.unknownName('part of this job', piece.name, this.pieces, piece.span);
      return undefined;
    }
    return { text, piece, feature, span: node.span };
  }

  length(map: TextNode | undefined, key: string): Length | undefined {
    const node = scalarAt(map, key);
    return node && tolerancedLength(this.fields, node, node.source);
  }

  /** `part.feature` begins with a name of the job; a size, with a figure. */
  shaft(node: ScalarNode, source = node.source): Shaft | undefined {
    if (/^\s*[a-z]/.test(source)) {
      const of = this.meeting(source === node.source ? node : { ...node, source, span: node.span });
      return of && { of };
    }
    const size = tolerancedLength(this.fields, node, source);
    return size && { size };
  }

  washer(map: MapNode, key: string, size: string) {
    const word = scalarAt(map, key);
    if (word) {
      const standard = word.source.trim() as keyof typeof WASHERS;
      const found = washerOf(standard, size);
      if (!found)
        return this.fail(
          `${standard} has no washer for ${size} in the tables. Give its sizes: \`{ diameter: 10, thickness: 1 }\`.`,
          word.span,
        );
      return { ...found, standard, span: word.span };
    }
    const own = mapAt(map, key);
    const [outside, thickness] = [this.fields.size(own, 'diameter'), this.fields.size(own, 'thickness')];
    return own && outside && thickness ? { outsideMm: outside, thicknessMm: thickness, span: own.span } : undefined;
  }

  fit(map: MapNode): { readonly fit?: { readonly kind: FitKind; readonly span: Span } } {
    const node = scalarAt(map, 'fit');
    return node ? { fit: { kind: node.source as FitKind, span: node.span } } : {};
  }

  other(map: MapNode): { readonly with?: Named } {
    const node = scalarAt(map, 'with');
    return node ? { with: { name: node.source, span: node.span } } : {};
  }

  get lengths(): Fields {
    return this.fields;
  }
}

/** What is written first of the keys that say which; a bearing may have a shaft. */
function kindOf(map: MapNode): Kind | undefined {
  const order: readonly Kind[] = ['screw', 'pin', 'bearing', 'bought', 'stack', 'shaft'];
  return order.find((kind) => entry(map, kind));
}

type Base = { readonly name: string; readonly span: Span; readonly times: number; readonly whole: Span };
type Reader = (reader: JointReader, base: Base, map: MapNode) => Joint | undefined;

function readScrewed(reader: JointReader, base: Base, map: MapNode): Screwed | undefined {
  const node = scalarAt(map, 'screw')!;
  const screw = reader.screw(node);
  if (!screw) return undefined;
  const [through, into] = [reader.meetings(map, 'through'), reader.meetings(map, 'into')];
  const nutNode = scalarAt(map, 'nut');
  const nutMm = nutNode && nutHeightMm(nutNode.source as keyof typeof NUTS, screw.size);
  if (nutNode && nutMm === undefined)
    reader.fail(
      `${nutNode.source} has no nut for ${screw.size} in the tables. Choose another standard, like \`ISO 4032\`.`,
      nutNode.span,
    );
  const [washer, nutWasher] = [reader.washer(map, 'washer', screw.size), reader.washer(map, 'nut-washer', screw.size)];
  if (at(map, 'nut-washer') && !nutNode)
    reader.fail(
      'A `nut-washer` is under a `nut`, and there is none. Add `nut: ISO 4032`, or delete the washer.',
      at(map, 'nut-washer')!.span,
    );
  const inNode = scalarAt(map, 'nut-in');
  if (inNode && !nutNode)
    reader.fail('`nut-in` is where a `nut` sits, and there is none. Add `nut: ISO 4032`, or delete it.', inNode.span);
  const nutIn = inNode && reader.meeting(inNode);
  return {
    ...base,
    kind: 'screw',
    screw,
    screwSpan: node.span,
    through,
    into,
    ...(nutNode &&
      nutMm !== undefined && {
        nut: { standard: nutNode.source as keyof typeof NUTS, heightMm: nutMm, span: nutNode.span },
      }),
    ...(washer && { washer }),
    ...(nutWasher && { nutWasher }),
    ...(nutIn && { nutIn }),
    betweenMm: reader.lengths.lengthFrom0(map, 'between') ?? 0,
    ...reader.other(map),
  };
}

function readPinned(reader: JointReader, base: Base, map: MapNode): Pinned | undefined {
  const node = scalarAt(map, 'pin')!;
  const read = readPin(node.source);
  if (!read.ok) return reader.fail(`${quote(node.source)} ${read.why}.`, node.span);
  const sits = reader.meetings(map, 'in');
  if (sits.length === 1)
    reader.fail(
      'A pin sits in the holes of two parts or more. Write them like `in: [plate.dowels, yoke.dowels]`.',
      at(map, 'in')!.span,
    );
  return { ...base, kind: 'pin', pin: read.pin, pinSpan: node.span, in: sits, ...reader.other(map) };
}

function readLocated(reader: JointReader, base: Base, map: MapNode): Located | undefined {
  const [shaft, seat] = [reader.shaft(scalarAt(map, 'shaft')!), reader.meeting(scalarAt(map, 'seat')!)];
  return shaft && seat && { ...base, kind: 'shaft', shaft, seat, ...reader.fit(map) };
}

function readBearing(reader: JointReader, base: Base, map: MapNode): Bearing | undefined {
  const sizes = bearingSizes(reader, map);
  const [seatNode, shaftNode] = [scalarAt(map, 'seat'), scalarAt(map, 'shaft')];
  const seat = seatNode && reader.meeting(seatNode);
  const shaft = shaftNode && reader.shaft(shaftNode);
  return (
    sizes && { ...base, kind: 'bearing', ...sizes, ...(seat && { seat }), ...(shaft && { shaft }), ...reader.fit(map) }
  );
}

function bearingSizes(
  reader: JointReader,
  map: MapNode,
): Pick<Bearing, 'designation' | 'bore' | 'outside' | 'width'> | undefined {
  const node = scalarAt(map, 'bearing');
  if (!node) {
    const own = mapAt(map, 'bearing');
    const [bore, outside, width] = ['bore', 'outside', 'width'].map((key) => reader.length(own, key));
    if (!bore || !outside || !width) return undefined;
    if (bore.mm >= outside.mm)
      return reader.fail(
        'The bore of this bearing is not smaller than its outside. Correct one of the two.',
        bore.span,
      );
    const [ofBore, ofOutside] = [ringLimits('bore', bore.mm), ringLimits('outside', outside.mm)];
    return {
      bore: limited(bore, ofBore),
      outside: limited(outside, ofOutside),
      width: limited(width, widthLimits(bore.mm)),
    };
  }
  const found = findBearing(node.source);
  if (!found) {
    const like = nearest(node.source, bearingNames());
    return reader.fail(
      `No bearing ${quote(node.source)} is in the tables. ${like ? `Did you mean \`${like}\`?` : ''} Give its sizes: \`{ bore: 8, outside: 22, width: 7 }\`.`.replace(
        '  ',
        ' ',
      ),
      node.span,
    );
  }
  const size = (mm: number): Length => ({ mm, text: String(mm), span: node.span, from: BEARING_SOURCE });
  return {
    designation: node.source.trim(),
    bore: limited(size(found.boreMm), ringLimits('bore', found.boreMm)),
    outside: limited(size(found.outsideMm), ringLimits('outside', found.outsideMm)),
    width: limited(size(found.widthMm), widthLimits(found.boreMm)),
  };
}

/** With the limits of the normal class, where none are written. */
function limited(length: Length, limits: { lowerMm: number; upperMm: number } | undefined): Length {
  if (length.tolerance || !limits) return length;
  return { ...length, tolerance: { text: 'ISO 492 normal class', ...limits, span: length.span } };
}

function readBought(reader: JointReader, base: Base, map: MapNode): Bought | undefined {
  const size = mapAt(map, 'size');
  const seat = reader.meeting(scalarAt(map, 'seat')!);
  const [diameter, length, width, height] = ['diameter', 'length', 'width', 'height'].map((k) =>
    reader.length(size, k),
  );
  if (!seat) return undefined;
  return {
    ...base,
    kind: 'bought',
    what: scalarAt(map, 'bought')!.source,
    ...(diameter && { diameter }),
    ...(length && { length }),
    ...(width && { width }),
    ...(height && { height }),
    cornerMm: reader.lengths.lengthFrom0(size, 'corner-radius') ?? 0,
    seat,
    ...reader.fit(map),
  };
}

function readStacked(reader: JointReader, base: Base, map: MapNode): Stacked | undefined {
  const [stack, leaves] = [at(map, 'stack'), at(map, 'leaves')];
  const heights = (stack?.type === 'list' ? stack.items : []).flatMap((node) => {
    if (node.type !== 'scalar') return [];
    const less = /^\s*[-−]\s*/.exec(node.source);
    const plain = less ? node.source.slice(less[0].length) : node.source;
    const height = /^\s*[a-z]/.test(plain) ? named(reader, node, less?.[0].length ?? 0) : reader.shaft(node, plain);
    return height ? [{ sign: less ? (-1 as const) : (1 as const), height, text: plain.trim(), span: node.span }] : [];
  });
  const limits = (leaves?.type === 'list' ? leaves.items : []).flatMap((n) =>
    n.type === 'scalar' ? [tolerancedLength(reader.lengths, n, n.source, 'any sign')] : [],
  );
  const [least, most] = limits;
  if (limits.length !== 2 || !least || !most)
    return reader.fail('`leaves` needs two lengths, the least and the most. Write them like `[0, 0.3]`.', leaves!.span);
  if (least.mm > most.mm)
    return reader.fail(
      'The first of `leaves` is more than the second. Write the least first, like `[0, 0.3]`.',
      leaves!.span,
    );
  return { ...base, kind: 'stack', heights, leastMm: least.mm, mostMm: most.mm, leavesSpan: leaves!.span };
}

/** A name behind its sign, where it stands. */
function named(reader: JointReader, node: ScalarNode, from: number): Shaft | undefined {
  const source = node.source.slice(from);
  const of = reader.meeting({ ...node, source, span: within(node, from, node.source.length) });
  return of && { of };
}

const READERS: Readonly<Record<Kind, Reader>> = {
  screw: readScrewed,
  pin: readPinned,
  shaft: readLocated,
  bearing: readBearing,
  bought: readBought,
  stack: readStacked,
};
