/** hold/screws – screws go through holes that are not there then, or that no screw can go through. */

import { featureNameOf } from '../../model/member-name';
import { FACE_AXIS, type Feature, type Named, type Part } from '../../model/model';
import { timelineOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setHold } from '../kit/holds';
import { moveCut } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

interface BadScrew {
  readonly s: SetupInTime;
  readonly screw: Named;
  readonly trouble: 'no-hole' | 'crosswise' | 'blind' | 'not-yet' | 'alone';
  readonly why: string;
}

function* badScrews({ part, solid }: RuleContext): Generator<BadScrew> {
  if (!part.setups?.some((s) => s.hold?.screws)) return;
  const { setups } = timelineOf(part, solid);
  for (const s of setups) {
    for (const screw of s.setup.hold?.screws ?? []) {
      const hole = part.featureByName.get(featureNameOf(screw.name));
      const say = (trouble: BadScrew['trouble'], why: string) => ({ s, screw, trouble, why });
      if (!hole) continue;
      if (hole.kind !== 'hole') yield say('no-hole', `It is a ${hole.kind}; a screw needs a hole`);
      else if (s.up && FACE_AXIS[hole.face].axis !== FACE_AXIS[s.up].axis)
        yield say('crosswise', `This hole is on ${hole.face}, but ${s.up} is up`);
      else if (!hole.depth.through && !hole.thread)
        yield say('blind', `This hole does not go through, and has no thread for a screw from below`);
      else if (
        solid.voidsOf(hole.name).length > 0 &&
        !setups.some((o) => o.index < s.index && o.cuts.some((c) => c.feature === hole))
      )
        yield say('not-yet', `This hole is not there yet: no earlier set-up cuts it`);
    }
    const only = theOnly(s, part);
    if (only) yield { s, screw: only, trouble: 'alone', why: '' };
  }
}

/** One screw through one place, and no stop: the work turns about it. */
function theOnly({ setup }: SetupInTime, { featureByName }: Part): Named | undefined {
  const [only, other] = setup.hold?.screws ?? [];
  const hole = only && !other && !setup.hold?.stop ? featureByName.get(featureNameOf(only.name)) : undefined;
  if (hole?.kind !== 'hole') return undefined;
  return hole.places.length === 1 || hole.name !== only!.name ? only : undefined;
}

/** Holes that are there by then, upright, right through, and not yet screwed through. */
function otherHoles(
  { up, index }: SetupInTime,
  taken: readonly string[],
  { part, solid }: RuleContext,
): readonly string[] {
  const before = timelineOf(part, solid).setups.slice(0, index);
  const there = (f: Feature) => before.some((o) => o.cuts.some((c) => c.feature === f));
  return part.features
    .filter((f) => f.kind === 'hole' && f.depth.through && up && FACE_AXIS[f.face].axis === FACE_AXIS[up].axis)
    .filter((f) => !taken.includes(f.name) && there(f))
    .map((f) => f.name);
}

const sample = (first: string, second: string) => `${held({
  body: '{ x: 60, y: 40, z: 16 }',
  features: `  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 6, depth: through }
  pin: { kind: hole, face: top, at: { x: 52, y: 10 }, diameter: 6, depth: through }
  stud: { kind: hole, face: top, at: { x: 52, y: 30 }, diameter: 6, depth: through }
  seat: { kind: pocket, face: top, at: { x: 31, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
`,
  hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }',
  cuts: first,
})}  second:
    up: top
    hold: { screws: [tie, pin, stud], to: plate }
    cuts: ${second}
`;

export const screws: Rule = defineRule({
  name: 'hold/screws',
  severity: 'error',
  summary: 'Screws go through holes that are not there yet, or one screw holds the part alone.',
  why: 'On a plate the workpiece is held by its own holes. They must be drilled before, go down through it, and be upright. About one screw alone a cut turns the workpiece.',
  formula:
    'Each screw of a set-up is compared with the cuts before it. Its hole must be there, go through, and point up. One screw alone, without clamp or stop, is reported.',
  bounds: 'The set-ups as written: a screw needs a through hole that an earlier set-up cut.',
  limits: [],
  bad: sample('[pin, stud, seat]', '[tie]'),
  good: sample('[tie, pin, stud]', '[seat]'),
  mends: 'Cut the hole in an earlier set-up, delete the screw where others hold, or use another hole.',
  find: badScrews,
  tell: ({ s, screw, trouble, why }) => ({
    severity: trouble === 'alone' ? 'warning' : undefined,
    message:
      trouble === 'alone'
        ? `Set-up ${s.setup.name} has one screw: a cut turns the workpiece about it. Screw it through a second hole, clamp it too, or add a stop against the turn.`
        : `Set-up ${s.setup.name} has a screw through ${screw.name}. ${why}. Use another hole, or cut it before.`,
    of: [screw.name],
    span: screw.span,
    facts: { set_up: s.setup.name, trouble },
  }),
  keep: ({ s, screw, trouble }) => ({ setup: s.index, screw: screw.name, trouble }),
  *mend({ setup, screw, trouble }, context) {
    const { setups } = timelineOf(context.part, context.solid);
    const s = setups[setup];
    if (!s?.setup.hold?.screws || !s.up) return;
    const own = setups.find((o) => o.cuts.some((c) => c.name === screw));
    for (const o of own && trouble === 'not-yet' ? setups.slice(0, setup) : [])
      yield change(`Cut it in ${o.setup.name}`, moveCut(context, own!.setup, o.setup, screw));
    if (trouble === 'alone') {
      for (const name of otherHoles(s, [screw], context))
        yield change(`Screw it down through ${name} too`, setHold(context, s.setup, 'screws', `[${screw}, ${name}]`));
      return;
    }
    const good = s.setup.hold.screws.map((n) => n.name).filter((n) => n !== screw);
    const through = (names: readonly string[]) => setHold(context, s.setup, 'screws', `[${names.join(', ')}]`);
    for (const name of otherHoles(s, good, context))
      yield change(`Screw it down through ${name} instead`, through([...good, name]));
    if (good.length > 1) yield change(`Screw it down only through ${good.join(', ')}`, through(good));
  },
});
