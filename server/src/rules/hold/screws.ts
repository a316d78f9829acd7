/** hold/screws – screws go through holes that are not there then, or that no screw can go through. */

import { FACE_AXIS, type Named } from '../../model/model';
import { timelineOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { setHold } from '../kit/holds';
import { base } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { held } from './samples';

const NAME = 'hold/screws';

function* badScrews({
  part,
  solid,
}: RuleContext): Generator<{ s: SetupInTime; screw: Named; why: string; kind: string }> {
  if (!part.setups?.some((s) => s.hold?.screws)) return;
  const { setups } = timelineOf(part, solid);
  for (const s of setups) {
    for (const screw of s.setup.hold?.screws ?? []) {
      const hole = part.featureByName.get(base(screw.name));
      const say = (kind: string, why: string) => ({ s, screw, why, kind });
      if (!hole) continue;
      if (hole.kind !== 'hole') yield say('no-hole', `${hole.name} is a ${hole.kind}; a screw needs a hole`);
      else if (s.up && FACE_AXIS[hole.face].axis !== FACE_AXIS[s.up].axis)
        yield say('crosswise', `${hole.name} is on ${hole.face} and lies across, with ${s.up} up`);
      else if (!hole.depth.through && !hole.thread)
        yield say('blind', `${hole.name} does not go through, and has no thread for a screw from below`);
      else if (
        solid.voidsOf(hole.name).length > 0 &&
        !setups.some((o) => o.index < s.index && o.cuts.some((c) => c.feature === hole))
      )
        yield say('not-yet', `${hole.name} is not there yet when the work is put on: no earlier set-up cuts it`);
    }
  }
}

function findingOf({ s, screw, why, kind }: { s: SetupInTime; screw: Named; why: string; kind: string }): Finding {
  return {
    rule: NAME,
    severity: 'error',
    message: `In ${s.setup.name} the work is to be screwed down through ${screw.name}, but ${why}.`,
    of: [screw.name],
    span: screw.span,
    related: [],
    facts: { set_up: s.setup.name, trouble: kind },
  };
}

const sample = (first: string, second: string) => `${held({
  body: '{ x: 60, y: 40, z: 16 }',
  features: `  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 6, depth: through }
  pin: { kind: hole, face: top, at: { x: 52, y: center }, diameter: 6, depth: through }
  seat: { kind: pocket, face: top, at: { x: 31, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
`,
  hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }',
  cuts: first,
})}  second:
    up: top
    hold: { screws: [tie, pin], to: plate }
    cuts: ${second}
`;

export const screws: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'Screws are to go through holes that are not there by then.',
  why: 'Screwed to a plate, work is held by its own holes. They must have been drilled before, go down through it, and lie upright.',
  limits: [],
  bad: sample('[pin, seat]', '[tie]'),
  good: sample('[tie, pin]', '[seat]'),
  mends:
    'The hole cut in an earlier set-up; the screw left out, where others hold; another hole of the part that is there by then.',
  *find(context) {
    for (const bad of badScrews(context)) yield findingOf(bad);
  },
  *mend(finding, context): Generator<Fix> {
    const { part, solid } = context;
    const setups = timelineOf(part, solid).setups;
    const s = setups.find((x) => x.setup.name === finding.facts.set_up);
    if (!s?.setup.hold?.screws || !s.up) return;
    const own = setups.find((o) => o.cuts.some((c) => c.name === finding.of[0]));
    for (const o of own && finding.facts.trouble === 'not-yet' ? setups : []) {
      const edits = o.index < s.index && own && moveCut(context, own.setup, o.setup, finding.of[0]!);
      if (edits) yield { title: `Cut it in ${o.setup.name}`, safe: false, edits };
    }
    const good = s.setup.hold.screws.map((n) => n.name).filter((n) => n !== finding.of[0]);
    const through = part.features.filter(
      (f) =>
        f.kind === 'hole' &&
        f.depth.through &&
        FACE_AXIS[f.face].axis === FACE_AXIS[s.up!].axis &&
        !good.includes(f.name) &&
        setups.some((o) => o.index < s.index && o.cuts.some((c) => c.feature === f)),
    );
    for (const f of through) {
      const edits = setHold(context, s.setup, 'screws', `[${[...good, f.name].join(', ')}]`);
      if (edits) yield { title: `Screw it down through ${f.name} instead`, safe: false, edits };
    }
    if (good.length > 0) {
      const edits = setHold(context, s.setup, 'screws', `[${good.join(', ')}]`);
      if (edits) yield { title: `Only through ${good.join(', ')}`, safe: false, edits };
    }
  },
};
