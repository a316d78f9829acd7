/** access/no-setup – no set-up turns a face up from which the feature can be cut. */

import { breaksEdges } from '../../model/feature-kinds';
import { FACES, type Face, type Feature, OPPOSITE, type Setup } from '../../model/model';
import { approachesOf } from '../../process/approach';
import { mayBeByHand } from '../../process/by-hand';
import { isOffMill } from '../../process/made-on';
import { timelineOf } from '../../process/stock';
import { isCutFrom } from '../../process/stock/extend-to-stock';
import { addedSetups } from '../kit/add-setup';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { together } from '../kit/fields';
import { capital, list } from '../kit/message';
import { append, moveCut, takeOff } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';

/** What no face that is up lets a tool get to: `by` what it is told, and what mending needs of it. */
interface Unseen {
  readonly report: Told;
  readonly cure: Cure;
}
type Cure =
  /** Listed in set-ups that cannot cut it, or in none. */
  | { readonly to: 'move'; readonly name: string; readonly faces: readonly Face[]; readonly listed: readonly string[] }
  /** Some of its edges look away: another set-up cuts those as well. */
  | { readonly to: 'add'; readonly name: string; readonly faces: readonly Face[] }
  /** A face that lies on what holds it. */
  | { readonly to: 'face'; readonly name: Face; readonly setup: string };

function* stranded({ part, solid, shop }: RuleContext): Generator<Unseen> {
  const setups = part.setups ?? [];
  for (const feature of part.features) {
    const listed = setups.filter((s) => s.cuts.some((c) => c.name === feature.name));
    // Without a known face up nothing can be said; work held at an angle is the angle's matter.
    if (listed.some((s) => !s.up || s.hold?.type === 'angle')) continue;
    const faces = approachesOf(feature, part, solid);
    if (faces.length === 0 || solid.voidsOf(feature.name).length === 0) continue;
    const able = setups.filter((s) => s.up !== undefined && faces.includes(s.up.name));
    // Small edges are broken with a file then; a drill press has no set-ups.
    if (listed.length === 0 && isOffMill(feature)) continue;
    if (listed.length === 0 && mayBeByHand(feature, shop)) continue;
    // One that no set-up lists is unassigned; only where none could take it does it lack a set-up.
    if (listed.length > 0 ? listed.some((s) => able.includes(s)) : able.length > 0) continue;
    const told = tellStranded(feature, faces, { listed, able, setups });
    yield { report: told, cure: { to: 'move', name: feature.name, faces, listed: listed.map((s) => s.name) } };
  }
}

/** What no set-up lists, and could be cut with that face up. */
function nowhere(up: Face, context: RuleContext): readonly string[] {
  return [...stranded(context)].flatMap(({ cure }) =>
    cure.to === 'move' && cure.listed.length === 0 && cure.faces.includes(up) ? [cure.name] : [],
  );
}

interface Setups {
  readonly listed: readonly Setup[];
  readonly able: readonly Setup[];
  readonly setups: readonly Setup[];
}

function tellStranded(feature: Feature, faces: readonly Face[], { listed, able, setups }: Setups): Told {
  const { name, nameSpan, faceSpan, face } = feature;
  const from = list(faces, 'or');
  const cut = listed[0]?.cuts.find((c) => c.name === name);
  const would = able.map((s) => s.name);
  const cure = would.length > 0 ? `Cut it in ${list(would, 'or')}` : `Add a set-up with ${from} up`;
  const ups = list([...new Set(listed.map((s) => s.up!.name))]);
  return {
    message:
      listed.length > 0
        ? `${capital(feature.kind)} ${name} is cut with ${ups} up. A straight tool reaches it only from ${from}. ${cure}.`
        : `${capital(feature.kind)} ${name} can be reached only from ${from}. No set-up has ${from} up. Add one with ${from} up.`,
    of: [name],
    span: cut?.span ?? nameSpan,
    related: cut
      ? [{ span: faceSpan, message: `${name} is on ${face}` }]
      : setups.map((s) => s.up && { span: s.up.span, message: `${s.name} has ${s.up.name} up` }),
    facts: { from: faces.join(' '), set_ups: setups.length, up: listed.length > 0 ? ups : undefined },
  };
}

/** Faces to be cut off while they look down. */
function* facedFromBelow({ part, solid }: RuleContext): Generator<Unseen> {
  for (const { up, setup, cuts } of timelineOf(part, solid).setups) {
    for (const { face, span, removes } of cuts) {
      if (!face || !up || setup.hold?.type === 'angle' || face !== OPPOSITE[up] || removes.length === 0) continue;
      const told = {
        message: `Set-up ${setup.name} faces ${face} with ${up} up. The face is then down on the parallels or the bed. Face it in a set-up with ${face} up, or a face beside it.`,
        of: [face],
        span,
        related: [{ span: setup.up!.span, message: `${setup.name} has ${up} up` }],
        facts: { up, set_ups: part.setups!.length },
      };
      yield { report: told, cure: { to: 'face', name: face, setup: setup.name } };
    }
  }
}

/** Broken edges of which some look away from every face that is up where they are cut. */
function* unseenEdges({ part, solid, shop }: RuleContext): Generator<Unseen> {
  for (const feature of part.features) {
    if (!breaksEdges(feature) || mayBeByHand(feature, shop)) continue;
    const listed = part.setups!.filter((s) => s.cuts.some((c) => c.name === feature.name));
    if (listed.length === 0 || listed.some((s) => !s.up || s.hold?.type === 'angle')) continue;
    const voids = solid.voidsOf(feature.name);
    const unseen = voids.filter((v) => !listed.some((s) => isCutFrom(v, s.up!.name)));
    if (unseen.length === 0 || unseen.length === voids.length) continue;
    const ups = list([...new Set(listed.map((s) => s.up!.name))]);
    const faces = FACES.filter((face) => unseen.every((v) => isCutFrom(v, face)));
    const cut = listed[0]!.cuts.find((c) => c.name === feature.name)!;
    const told = {
      message: `${unseen.length} of the ${voids.length} edges of ${feature.name} cannot be reached with ${ups} up. ${faces.length > 0 ? `Add it to a set-up with ${list(faces, 'or')} up too.` : 'Add it to more than one other set-up.'}`,
      of: [feature.name],
      span: cut.span,
      related: [{ span: feature.nameSpan, message: 'the edges' }],
      facts: {
        unseen: unseen.length,
        edges: voids.length,
        up: ups,
        from: faces.length > 0 ? faces.join(' ') : undefined,
      },
    };
    yield { report: told, cure: { to: 'add', name: feature.name, faces } };
  }
}

const BAD = `part: angle
material: aluminium-6061-t6
body: { x: 50, y: 30, z: 30 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 5 }
  tie: { kind: hole, face: front, at: { x: center, z: 10 }, diameter: 5, depth: 12 }
setups:
  first: { up: top, cuts: [seat, tie] }
  second: { up: front, cuts: [front] }
`;

export const noSetup: Rule = defineRule({
  name: 'access/no-setup',
  severity: 'error',
  summary: 'No set-up has a face up from which a straight tool reaches the feature.',
  why: 'A three-axis mill cuts only what it sees from above. With the top up it cannot cut a pocket in the front face, however the part is held.',
  formula:
    'A blind pocket or hole is cut from its own face, a through one also from the opposite face. A step is cut from every face that it opens to, a chamfer from either face of its edge. Small edges that no set-up sees are broken with a file (`setup/unassigned`). One of them must be `up` in a set-up that cuts the feature.',
  bounds: 'Geometry: a straight tool cuts a feature from a face that it is open to.',
  limits: [],
  bad: BAD,
  good: edited(
    BAD,
    ['seat, tie', 'seat'],
    ['second: { up: front, cuts: [front] }', 'second: { up: front, cuts: [front, tie] }'],
  ),
  mends: 'Move the feature to a set-up that can cut it, or add one that does.',
  when: 'setups',
  *find(context) {
    yield* stranded(context);
    yield* facedFromBelow(context);
    yield* unseenEdges(context);
  },
  tell: ({ report: told }) => told,
  keep: ({ cure }) => cure,
  *mend(cure, context) {
    const setups = context.part.setups ?? [];
    const { name } = cure;
    if (cure.to === 'face') {
      const from = setups.find((s) => s.name === cure.setup);
      const others = setups.filter((to) => from && to !== from && to.up?.name !== from.up?.name);
      for (const to of others) yield change(`Face it in ${to.name}`, moveCut(context, from!, to, name));
      const taken = from && takeOff(context, from, name);
      for (const { up, edits } of addedSetups(context, name, [cure.name]))
        yield change(`Add a set-up with ${up} up`, together(edits, taken));
      return;
    }
    const able = setups.filter((s) => s.up && cure.faces.includes(s.up.name));
    if (cure.to === 'add') {
      for (const s of able) yield change(`Add it to ${s.name} too`, append(context, s.name, name));
      for (const { up, edits } of addedSetups(context, name, cure.faces))
        yield change(`Add a set-up with ${up} up`, edits);
      return;
    }
    const listed = setups.filter((s) => cure.listed.includes(s.name));
    for (const s of able) {
      const taken = listed.map((from) => takeOff(context, from, name));
      yield change(`Cut it in ${s.name} (${s.up!.name} up)`, together(append(context, s.name, name), ...taken));
    }
    const [only] = listed;
    const [face] = cure.faces;
    if (only?.up && only.cuts.length === 1 && face)
      yield change(`Turn ${face} up in ${only.name}`, { span: only.up.span, newText: face });
    if (able.length > 0) return;
    const taken = listed.map((from) => takeOff(context, from, name));
    for (const { up, edits } of addedSetups(context, name, cure.faces, (face) => nowhere(face, context)))
      yield change(`Add a set-up with ${up} up`, together(edits, ...taken));
  },
});
