/** One setup: what is up, how the work is held, where zero is, what is cut with what. */
import {
  at,
  entry,
  type MapEntry,
  type MapNode,
  mapAt,
  type ScalarNode,
  scalarAt,
  type TextNode,
} from '../../text/tree';
import {
  type Axis,
  type CutEntry,
  FACE_AXIS,
  FACES,
  type Face,
  type Hold,
  type Named,
  OPPOSITE,
  type Place,
  type SawCut,
  type Setup,
} from '../model';
import { setup as setupSchema } from '../schema/part';
import { shapeOf } from '../schema/shape';
import { sound } from './body';
import { cutNamed } from './cut-named';
import { type Evaluation, itemsOf, namedOf, textOf } from './evaluation';
import { checkName } from './names';
import { faceNamed, positionOf } from './places';
import { code, listed, quote } from './problem';

const SETUP = shapeOf(setupSchema);

const ALL = /^(?:all|alle|alles|everything|every|rest|the rest|\*)$/i;

/** `cuts: all` names nothing: each feature is written, so that one that is added later is missed where it is not cut. */
function cutsAll(work: Evaluation, node: ScalarNode | undefined): boolean {
  if (!node || !ALL.test(node.source)) return false;
  const names = work.names('features');
  if (names.length === 0 || names.includes(node.source)) return false;
  const text = `[${names.join(', ')}]`;
  const shown = text.length > 60 ? `[${names[0]}, …]` : text;
  work.fail(`\`cuts\` names what is cut. Write \`cuts: ${shown}\`, and leave out what other set-ups cut.`, node.span, {
    fixes: [{ title: `Write \`cuts: ${shown}\``, edits: [{ span: node.span, newText: text }] }],
  });
  return true;
}

export function setupOf(work: Evaluation, e: MapEntry): Setup | undefined {
  checkName(work, e.key, 'setup');
  if (cutsAll(work, scalarAt(e.value, 'cuts')) || !sound(work, SETUP, e, 'A setup')) return undefined;
  const map = e.value as MapNode;
  const upNode = scalarAt(map, 'up');
  const up = upNode && faceNamed(upNode);
  const hold = holdOf(work, mapAt(map, 'hold'), up?.name);
  const zeroMap = mapAt(map, 'zero');
  const zero: Partial<Record<Axis, Named>> = {};
  for (const axis of ['x', 'y', 'z'] as const) {
    const node = scalarAt(zeroMap, axis);
    const named = node && cutNamed(work, node, 'parallels');
    if (named) zero[axis] = named;
  }
  const methodNode = scalarAt(map, 'method') ?? scalarAt(zeroMap, 'method');
  const cutsNode = at(map, 'cuts');
  const entries = itemsOf(cutsNode);
  const isSaw = (node: TextNode) => scalarAt(node, 'by') !== undefined;
  const cuts = entries.filter((node) => !isSaw(node)).flatMap((node) => cutEntryOf(work, node) ?? []);
  const sawnOff = sawnOffOf(work, entries, isSaw);
  const tools = (mapAt(map, 'tools')?.entries ?? []).flatMap((t) => {
    const of = cutNamed(work, t.key);
    return of ? [{ of, tool: namedOf(t.value as ScalarNode) }] : [];
  });
  const machine = scalarAt(map, 'machine');
  const note = scalarAt(map, 'note');
  // Unknown names are told; the rest of the setup stands.
  return {
    name: String(e.key.value),
    span: e.key.span,
    ...(up && { up }),
    ...(hold && { hold }),
    zero,
    ...(methodNode && { method: namedOf(methodNode) }),
    ...clockOf(work, mapAt(map, 'clock')),
    cuts,
    ...(sawnOff && { sawnOff }),
    ...(cutsNode && { cutsSpan: cutsNode.span }),
    ...(machine && { machine: namedOf(machine) }),
    ...(note && { note: textOf(note) }),
    tools,
    whole: e.span,
  };
}

/** The first way that is written: more than one is told by the schema. */
function clockOf(work: Evaluation, map: MapNode | undefined): Pick<Setup, 'clock'> {
  const by = (['indicator', 'pin', 'square'] as const).find((way) => scalarAt(map, way));
  const node = by && scalarAt(map, by);
  const of = node && cutNamed(work, node);
  return by && of && map ? { clock: { by, of, span: map.span } } : {};
}

/** What a saw cuts is a face, and the last of its set-up: then the work is off its bar, and no jaws hold it. */
function sawnOffOf(
  work: Evaluation,
  entries: readonly TextNode[],
  isSaw: (node: TextNode) => boolean,
): SawCut | undefined {
  const at = entries.findIndex(isSaw);
  const node = entries[at];
  if (!node) return undefined;
  const next = entries[at + 1];
  if (next)
    work.remark('After the saw nothing holds the workpiece. Move the sawn face to the end of `cuts`.', next.span);
  const named = scalarAt(node, 'cut');
  const of = named && cutNamed(work, named);
  if (!named || !of) return undefined;
  const face = FACES.find((f) => f === of.name);
  if (!face) {
    work.remark(`A saw cuts off a face, not ${quote(of.name)}. Write ${listed(code(FACES))}.`, named.span);
    return undefined;
  }
  const leave = work.length(node as MapNode, 'leave', 'from-zero');
  return { name: face, span: of.span, ...(leave && { leave }), whole: node.span };
}

/** A name, or a map that says how far down. A depth that cannot be read is told, and all of it is taken to be cut. */
function cutEntryOf(work: Evaluation, node: TextNode): CutEntry | undefined {
  if (node.type === 'scalar') return cutNamed(work, node);
  const named = scalarAt(node, 'cut');
  const of = named && cutNamed(work, named);
  const left = scalarAt(node, 'leave');
  if (left) work.remark('`leave` is what a saw leaves. Write `by: saw` beside it, or delete it.', left.span);
  const deep = scalarAt(node, 'depth');
  const depth = deep?.value === 'half' ? 'half' : deep && work.lengthOf(deep, 'depth');
  return of && { ...of, ...(depth && { depth }), whole: node.span };
}

function typeOf(hold: MapNode): Hold['type'] {
  return (
    (['angle', 'soft-jaws', 'vise', 'angle-plate', 'v-block', 'clamps', 'screws'] as const).find((key) =>
      at(hold, key),
    ) ?? 'tabs'
  );
}

function holdOf(work: Evaluation, hold: MapNode | undefined, up: Face | undefined): Hold | undefined {
  if (!hold) return undefined;
  const type = typeOf(hold);
  const vise = scalarAt(hold, 'vise') ?? scalarAt(hold, 'soft-jaws');
  const jaws = jawsOf(work, hold, up);
  const grip = work.length(hold, 'grip');
  const parallels = work.length(hold, 'parallels', 'from-zero');
  const stopNode = scalarAt(hold, 'stop');
  const stop = stopNode && cutNamed(work, stopNode);
  const overhang = overhangOf(work, mapAt(hold, 'overhang'), [up, jaws?.[0]?.name]);
  const plate = scalarAt(hold, 'angle-plate');
  const against = againstOf(work, hold, up);
  const pressed = plate ? against && OPPOSITE[against.name] : up;
  const clamps = pressed && itemsOf(at(hold, 'clamps')).map((node) => positionOf(work, node as MapNode, pressed));
  const screws = itemsOf(at(hold, 'screws')).map((node) => cutNamed(work, node as ScalarNode));
  const on = scalarAt(hold, 'on') ?? scalarAt(hold, 'to');
  const tabs = tabsOf(work, mapAt(hold, 'tabs'));
  const angle = work.angle(hold, 'angle');
  const about = scalarAt(hold, 'about')?.value as Axis | undefined;
  return {
    type,
    ...(vise && typeof vise.value !== 'boolean' && { vise: namedOf(vise) }),
    ...(jaws && { jaws }),
    ...(grip && { grip }),
    ...(parallels && { parallels }),
    ...(stop && { stop }),
    ...(overhang && { overhang }),
    ...fixturesOf(work, hold),
    ...piecesOf(work, hold),
    ...(plate && { anglePlate: namedOf(plate) }),
    ...(against && { against }),
    ...(clamps?.length && { clamps: clamps.filter((c): c is Place => c !== undefined) }),
    ...(screws.length > 0 && { screws: screws.filter((s): s is Named => s !== undefined) }),
    ...(on && { on: on.value === 'plate' ? 'plate' : 'table' }),
    ...(tabs && { tabs }),
    ...(angle && { tilt: { angle, ...(about && { about }) } }),
    span: hold.span,
  };
}

/** V-blocks, two vises in line, and how far work stands out above an angle plate. */
function fixturesOf(work: Evaluation, hold: MapNode): Pick<Hold, 'vBlock' | 'out' | 'apart'> {
  const vBlock = scalarAt(hold, 'v-block');
  const out = work.length(hold, 'out', 'from-zero');
  const apart = work.length(hold, 'apart');
  return { ...(vBlock && { vBlock: namedOf(vBlock) }), ...(out && { out }), ...(apart && { apart }) };
}

/** A moving jaw bears on two things: of three the middle one may be loose. */
function piecesOf(work: Evaluation, hold: MapNode): Pick<Hold, 'pieces'> {
  const node = scalarAt(hold, 'pieces');
  const beside = (['gap', 'pad'] as const).map((key) => [key, scalarAt(hold, key)] as const);
  const count = node ? Number(node.value) : 1;
  if (count === 1) {
    for (const [key, written] of beside)
      if (written)
        work.remark(
          `\`${key}\` is for two pieces in the jaws. Write \`pieces: 2\` beside it, or delete it.`,
          written.span,
        );
    return {};
  }
  if (!node || count !== 2) {
    if (node)
      work.remark(
        'A moving jaw grips two pieces, and of three the middle one may be loose. Write `pieces: 2`.',
        node.span,
      );
    return {};
  }
  const [gap, pad] = [work.length(hold, 'gap', 'from-zero'), work.length(hold, 'pad')];
  return { pieces: { gapMm: gap?.mm ?? 0, padMm: pad?.mm ?? 0, span: entry(hold, 'pieces')!.span } };
}

/** The side that lies against an angle plate: upright in the set-up. */
function againstOf(work: Evaluation, hold: MapNode, up: Face | undefined): Hold['against'] {
  const node = scalarAt(hold, 'against');
  const face = node && faceNamed(node);
  if (face && up && FACE_AXIS[face.name].axis === FACE_AXIS[up].axis)
    return work.fail(
      `${up} is up, so ${face.name} cannot be against the plate. Name a side of the part in \`against\`.`,
      node.span,
    );
  return face;
}

function jawsOf(work: Evaluation, hold: MapNode, up: Face | undefined): Hold['jaws'] {
  const node = at(hold, 'jaws');
  if (!node) return undefined;
  const jaws = itemsOf(node).map(faceNamed);
  const [a, b] = jaws;
  const fail = (message: string, span = node.span) => work.fail(message, span);
  if (jaws.length !== 2) {
    return fail(
      `A vise has two jaws, fixed and moving; this names ${jaws.length}. Write two opposite faces, like \`jaws: [front, back]\`.`,
    );
  }
  if (OPPOSITE[a!.name] !== b!.name) {
    return fail(
      `Jaws grip two opposite faces; opposite ${a!.name} is not ${b!.name}. Write \`${OPPOSITE[a!.name]}\`.`,
      b!.span,
    );
  }
  if (up && (a!.name === up || b!.name === up)) {
    return fail(
      `${up} is up, so no jaw can be on it or on the face below. Name two other faces in \`jaws\`.`,
      entry(hold, 'jaws')!.key.span,
    );
  }
  return jaws;
}

/** At one end along the jaws: not up or down, not at a jaw. */
function overhangOf(
  work: Evaluation,
  map: MapNode | undefined,
  taken: readonly (Face | undefined)[],
): Hold['overhang'] {
  if (!map || map.entries.length === 0) return undefined;
  const [first, second] = map.entries;
  if (second)
    return work.fail(
      'Both ends are given, and one is enough: the jaws have their width. Delete one of them.',
      second.key.span,
    );
  const face = String(first!.key.value) as Face;
  if (taken.some((t) => t === face || (t && OPPOSITE[t] === face)))
    return work.fail(
      `The workpiece overhangs at an end of the jaws, and ${face} is neither of them. Write one of the two.`,
      first!.key.span,
    );
  const by = work.length(map, face, 'from-zero');
  return by && { face, by };
}

function tabsOf(work: Evaluation, map: MapNode | undefined): Hold['tabs'] {
  const count = work.count(map, 'count', 100);
  const width = work.length(map, 'width');
  const height = work.length(map, 'height');
  if (!map || count === undefined || !width || !height) return undefined;
  return { count, width, height, span: map.span };
}
