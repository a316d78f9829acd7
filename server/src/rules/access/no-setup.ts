/** access/no-setup – no set-up turns a face up from which the feature can be cut. */

import { breaksEdges } from '../../model/feature-kinds';
import { FACES, type Face, type Feature, OPPOSITE, type Setup } from '../../model/model';
import { approachesOf } from '../../process/approach';
import { timelineOf } from '../../process/stock';
import { isCutFrom } from '../../process/stock/extend-to-stock';
import { samePlace } from '../../text/tree';
import { subjectOf } from '../kit/fields';
import { list } from '../kit/message';
import { append, moveCut, takeOff } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'access/no-setup';

interface Stranded {
  readonly feature: Feature;
  readonly faces: readonly Face[];
  /** Set-ups that list it, none of which can cut it. */
  readonly listed: readonly Setup[];
}

function* stranded({ part, solid }: RuleContext): Generator<Stranded> {
  const setups = part.setups;
  if (!setups) return;
  for (const feature of part.features) {
    const listed = setups.filter((s) => s.cuts.some((c) => c.name === feature.name));
    // Without a known face up nothing can be said; work held at an angle is the angle's matter.
    if (listed.some((s) => !s.up || s.hold?.type === 'angle')) continue;
    const faces = approachesOf(feature, part, solid);
    if (faces.length === 0 || solid.voidsOf(feature.name).length === 0) continue;
    const able = (s: Setup) => s.up !== undefined && faces.includes(s.up.name);
    // One that no set-up lists is unassigned; only where none could take it does it lack a set-up.
    if (listed.length > 0 ? !listed.some(able) : !setups.some(able)) yield { feature, faces, listed };
  }
}

function findingOf({ feature, faces, listed }: Stranded, { part }: RuleContext): Finding {
  const from = list(faces, 'or');
  const cut = listed[0]?.cuts.find((c) => c.name === feature.name);
  const would = part.setups!.filter((s) => s.up && faces.includes(s.up.name)).map((s) => s.name);
  const cure = would.length > 0 ? `Cut it in ${list(would, 'or')}` : `It takes a set-up with ${from} up`;
  const ups = list([...new Set(listed.map((s) => s.up!.name))]);
  return {
    rule: NAME,
    severity: 'error',
    message:
      listed.length > 0
        ? `${feature.name} is to be cut with ${ups} up, but a straight tool gets to it only from ${from}. ${cure}.`
        : `No set-up has ${from} up, and only from there does a straight tool get to ${feature.name}. Add one.`,
    of: [feature.name],
    span: cut?.span ?? feature.nameSpan,
    related: cut
      ? [{ span: feature.faceSpan, message: `${feature.name} is on ${feature.face}` }]
      : part.setups!.flatMap((s) => (s.up ? [{ span: s.up.span, message: `${s.name} has ${s.up.name} up` }] : [])),
    facts: { from: faces.join(' '), set_ups: part.setups!.length, ...(listed.length > 0 && { up: ups }) },
  };
}

/** Faces to be cut off while they look down. */
function* facedFromBelow({ part, solid }: RuleContext): Generator<Finding> {
  if (!part.setups) return;
  for (const { up, setup, cuts } of timelineOf(part, solid).setups) {
    for (const { face, span, removes } of cuts) {
      if (!face || !up || setup.hold?.type === 'angle' || face !== OPPOSITE[up] || removes.length === 0) continue;
      yield {
        rule: NAME,
        severity: 'error',
        message: `${face} is to be faced with ${up} up, but then it lies on the parallels or the bed. Face it in a set-up with ${face} up, or with a face up that stands beside it.`,
        of: [face],
        span,
        related: [{ span: setup.up!.span, message: `${setup.name} has ${up} up` }],
        facts: { up, set_ups: part.setups.length },
      };
    }
  }
}

/** Broken edges of which some look away from every face that is up where they are cut. */
function* unseenEdges({ part, solid }: RuleContext): Generator<Finding> {
  for (const feature of part.features) {
    if (!breaksEdges(feature)) continue;
    const listed = (part.setups ?? []).filter((s) => s.cuts.some((c) => c.name === feature.name));
    if (listed.length === 0 || listed.some((s) => !s.up || s.hold?.type === 'angle')) continue;
    const voids = solid.voidsOf(feature.name);
    const unseen = voids.filter((v) => !listed.some((s) => isCutFrom(v, s.up!.name)));
    if (unseen.length === 0 || unseen.length === voids.length) continue;
    const ups = list([...new Set(listed.map((s) => s.up!.name))]);
    const from = FACES.filter((face) => unseen.every((v) => isCutFrom(v, face)));
    const cut = listed[0]!.cuts.find((c) => c.name === feature.name)!;
    yield {
      rule: NAME,
      severity: 'error',
      message: `${unseen.length} of the ${voids.length} edges of ${feature.name} look away with ${ups} up. ${from.length > 0 ? `List it also in a set-up with ${list(from, 'or')} up.` : 'It takes more than one other set-up.'}`,
      of: [feature.name],
      span: cut.span,
      related: [{ span: feature.nameSpan, message: 'the edges' }],
      facts: { unseen: unseen.length, edges: voids.length, up: ups, ...(from.length > 0 && { from: from.join(' ') }) },
    };
  }
}

export const noSetup: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'No set-up has a face up from which a straight tool gets to the feature.',
  why: 'A three-axis mill cuts only what it sees from above. A pocket in the front face is not cut with the top up, however the part is held.',
  formula:
    'A blind pocket or hole can be cut from its own face, a through one also from the opposite, a step from every face it opens to, a chamfer from either face of its edge. One of them must be `up` in a set-up that cuts the feature.',
  limits: [],
  bad: `part: angle
material: aluminium-6061-t6
body: { x: 50, y: 30, z: 30 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 5 }
  tie: { kind: hole, face: front, at: { x: center, z: 10 }, diameter: 5, depth: 12 }
setups:
  first: { up: top, cuts: [seat, tie] }
  second: { up: front, cuts: [front] }
`,
  good: `part: angle
material: aluminium-6061-t6
body: { x: 50, y: 30, z: 30 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 5 }
  tie: { kind: hole, face: front, at: { x: center, z: 10 }, diameter: 5, depth: 12 }
setups:
  first: { up: top, cuts: [seat] }
  second: { up: front, cuts: [front, tie] }
`,
  mends: 'The feature moved to a set-up that can cut it.',
  *find(context) {
    for (const found of stranded(context)) yield findingOf(found, context);
    yield* facedFromBelow(context);
    yield* unseenEdges(context);
  },
  *mend(finding, context): Generator<Fix> {
    const found = [...stranded(context)].find((s) => s.feature === subjectOf(finding, context.part));
    const edges = subjectOf(finding, context.part);
    if (!found && edges) {
      const faces = String(finding.facts.from ?? '').split(' ');
      for (const { name, up } of context.part.setups ?? []) {
        const added = up && faces.includes(up.name) && append(context, name, edges.name);
        if (added) yield { title: `List it also in ${name}`, safe: false, edits: [added] };
      }
      return;
    }
    if (!found) {
      const from = context.part.setups?.find((x) => x.cuts.some((c) => samePlace(c.span, finding.span)));
      const name = finding.of[0]!;
      for (const to of context.part.setups ?? []) {
        const edits = from && to !== from && to.up?.name !== from.up?.name && moveCut(context, from, to, name);
        if (edits) yield { title: `Face it in ${to.name}`, safe: false, edits };
      }
      return;
    }
    const { feature, faces, listed } = found;
    for (const setup of context.part.setups ?? []) {
      if (!setup.up || !faces.includes(setup.up.name)) continue;
      const added = append(context, setup.name, feature.name);
      const taken = listed.map((s) => takeOff(context, s, feature.name));
      if (added && taken.every((t) => t !== undefined))
        yield { title: `Cut it in ${setup.name} (${setup.up.name} up)`, safe: false, edits: [added, ...taken.flat()] };
    }
    const [only] = listed;
    if (only?.up && only.cuts.length === 1 && faces[0])
      yield {
        title: `Turn ${faces[0]} up in ${only.name}`,
        safe: false,
        edits: [{ span: only.up.span, newText: faces[0] }],
      };
  },
};
