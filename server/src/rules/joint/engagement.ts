/** joint/engagement – too little thread is met for the screw to hold. */
import type { Screwed } from '../../model/joint-model';
import { askedHead, lengthsThatDo, reachOf } from '../../process/joints/lengths';
import { boreOf } from '../../process/tapping';
import { screwText } from '../../tables/fasteners';
import { HAIR } from '../../tolerance';
import { defineRule, said } from '../kit/define';
import { ENGAGEMENT_LIMITS, holding, neededMm } from '../kit/engagement';
import { figure, trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { pattern } from './pattern';
import { type Assembled, assembled, gripsOf } from './screwed';

export const engagement: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/engagement',
  severity: 'warning',
  summary: 'The screw meets too little thread to hold as well as it could.',
  why: 'A screw that reaches a few turns only strips the softer thread before it holds. How many turns it meets follows from its length and from what lies under its head.',
  formula:
    'Engaged is the screw’s length less what lies between head and thread, at most the thread there is. Of a flat head its height lies between. Needed is the rule of thumb for the material, or less. Less is `margin` × the length at which thread and screw are equally strong (see thread/too-short). The screw’s strength is that of its class, 8.8 where none is written.',
  limits: [...ENGAGEMENT_LIMITS],
  bad: example('  left: { screw: M5x16, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  good: example('  left: { screw: M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Use the next longer screw that does not meet the bottom; where there is none, thread deeper.',
});

/** Thread that each screw needs: turns in the part; of a nut, all of it and a pitch beyond. Undefined where the material is not known. */
export function leastThreadMm(joint: Screwed, { layers }: Assembled, context: JointContext): number | undefined {
  const { thread, tensileMPa } = joint.screw;
  if (joint.nut) return joint.nut.heightMm + thread.pitchMm;
  const last = layers.at(-1);
  const hole = last?.holes[0]?.hole;
  const material = last && holding(last.piece.part);
  if (!last || !hole || !material) return undefined;
  const { part, shop } = last.piece;
  const asked = { thread, boreMm: boreOf(hole, shop), lengthMm: thread.diameterMm, part, screwMPa: tensileMPa };
  return neededMm(asked, material, (name) => context.limit(engagement, name));
}

/** The shortest standard length that does, as one asks for it. */
export function lengthThatDoes(
  joint: Screwed,
  found: Assembled,
  leastMm: number,
): { readonly text: string; readonly mm: number } | undefined {
  const asked = askedHead(found.layers[0]!);
  const [mm] = lengthsThatDo(joint, asked, gripsOf(joint, found), leastMm);
  return mm === undefined ? undefined : { text: screwText(joint.screw, asked, mm), mm };
}

export function* engagementFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const { screw } = joint;
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  if (!found || joint.nut || screw.lengthMm === undefined) return;
  const leastMm = leastThreadMm(joint, found, context);
  if (leastMm === undefined) return;
  const [worst] = gripsOf(joint, found)
    .map((grip) => ({ grip, ...reachOf(screw.lengthMm!, grip) }))
    .sort((a, b) => a.engagedMm - b.engagedMm);
  if (!worst || worst.engagedMm >= leastMm - HAIR) return;
  const last = found.layers.at(-1)!;
  const { hole, meeting } = last.holes[0]!;
  const { length } = context;
  const does = lengthThatDoes(joint, found, leastMm);
  const turns = worst.engagedMm / screw.thread.pitchMm;
  const needed = Math.ceil(leastMm * 10 - HAIR) / 10;
  const meets =
    worst.tipMm <= 0
      ? `does not reach the thread of ${meeting.text}`
      : `meets ${length(Number(trimmed(worst.engagedMm, 2)))} of thread in ${meeting.text}, ${figure(turns)} turns`;
  const change = does ? `Use ${does.text}.` : `Make the thread deeper; no standard length does.`;
  yield said(engagement, {
    message: `The screw ${meets}; ${length(needed)} hold as well as it does. ${change}`,
    has: length(Number(trimmed(worst.engagedMm, 2))),
    needs: length(needed),
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: joint.screwSpan,
    related: [context.there(last.piece, hole.nameSpan, `joint ${joint.name}: the thread`)],
    facts: {
      engaged_mm: worst.engagedMm,
      needed_mm: needed,
      grip_mm: worst.grip.gripMm,
      length_mm: screw.lengthMm,
      does_mm: does?.mm,
    },
  });
}
