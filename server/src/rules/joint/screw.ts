/** joint/screw – hole and thread do not belong to the screw. */
import type { Screwed } from '../../model/joint-model';
import { columnOf, type Layer, type MetHole } from '../../process/joints/layers';
import { holeLimits } from '../../process/tolerances/fastener';
import { clearanceHole } from '../../tables/clearance';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { pattern } from './pattern';
import { assembled } from './screwed';

export const screw: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/screw',
  severity: 'error',
  summary: 'A hole or a thread does not belong to the screw of its joint.',
  why: 'A screw goes through holes that are larger than itself and into a thread of its own size and pitch. A hole for another size holds nothing, lets nothing through, or lets the parts shift.',
  formula:
    'The thread’s diameter and pitch are those of the screw. A hole that it goes through is not threaded, and comes out on the far side. Its least size is over the screw’s nominal diameter. The widest clearance hole is the coarse one of ISO 273, the loose one of ASME B18.2.8. A warning where it is wider.',
  bounds: 'The thread tables; clearance holes of ISO 273 and ASME B18.2.8.',
  limits: [],
  bad: example('  left: { screw: M5x0.5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  good: example('  left: { screw: M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Name the screw that the holes are for, or change the holes.',
});

export function* screwFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  if (!found) return;
  for (const layer of found.layers) {
    const seen = new Set<object>();
    for (const at of layer.holes) {
      if (seen.has(at.hole)) continue;
      seen.add(at.hole);
      const told = joint.into.includes(at.meeting)
        ? intoTold(joint, at, context)
        : throughTold(joint, at, layer, context);
      if (!told) continue;
      const related = [context.there(layer.piece, told.where, `joint ${joint.name}: the hole`)];
      yield said(screw, { of: [joint.name], thing: `joint ${joint.name}`, span: at.meeting.span, related, ...told });
    }
  }
}

type Part = Pick<Told, 'message' | 'facts' | 'severity' | 'has' | 'needs'> & { readonly where: Told['span'] };

function intoTold({ screw: meant }: Screwed, { hole, meeting }: MetHole, context: JointContext): Part | undefined {
  const at = hole.thread?.span ?? hole.nameSpan;
  if (!hole.thread)
    return {
      where: at,
      message: `${meeting.text} has no thread, and the screw goes into it. Write \`thread: ${meant.thread.designation}\` there, or hold it with a \`nut\`.`,
      needs: meant.thread.designation,
    };
  // In a wire thread insert the screw meets the insert's own thread.
  const spec = hole.thread.spec?.screw ?? hole.thread.spec;
  if (!spec || spec.designation === meant.thread.designation) return undefined;
  const same = Math.abs(spec.diameterMm - meant.diameterMm) < HAIR;
  const by = same
    ? `Its pitch is ${context.length(spec.pitchMm)}, the screw’s ${context.length(meant.thread.pitchMm)}.`
    : `The screw is ${meant.thread.designation}.`;
  return {
    where: at,
    message: `${meeting.text} is threaded ${spec.designation}. ${by} Use one thread for both.`,
    has: spec.designation,
    needs: meant.thread.designation,
    facts: { thread: spec.designation, screw: meant.thread.designation },
  };
}

function throughTold(
  joint: Screwed,
  { hole, meeting, index, name }: MetHole,
  { piece }: Layer,
  { length }: JointContext,
): Part | undefined {
  const { size, diameterMm } = joint.screw;
  const { slide } = hole;
  if (hole.thread)
    return {
      where: hole.thread.span,
      message: `${meeting.text} is threaded ${hole.thread.designation}; a screw that is threaded into both parts draws them together nowhere. Write \`clearance: ${size}\` there.`,
      facts: { thread: hole.thread.designation },
    };
  const least = holeLimits(hole, piece.part).leastMm;
  const at = hole.diameter.span;
  const facts = { hole_mm: least, screw_mm: diameterMm };
  const normalMm = clearanceHole(size)?.diameterMm ?? diameterMm;
  const write = slide ? `Make it ${length(normalMm)} wide` : `Write \`clearance: ${size}\``;
  if (least < diameterMm + HAIR)
    return {
      where: at,
      message: `${meeting.text} is ${length(least)} at its smallest, and the ${size} screw ${length(diameterMm)}: it does not go through. ${write}${slide ? '' : ' there'}.`,
      has: length(least),
      needs: length(normalMm),
      facts,
    };
  const column = columnOf({ hole, index }, piece);
  if (column && !column.comesOut)
    return {
      where: hole.depth.span,
      message: `${name} of ${piece.name} does not come out: it ends ${length(column.endMm)} below ${hole.face}, in metal. A screw cannot go through. Write \`depth: through\`, or make it deeper.`,
      facts: { ...facts, end_mm: column.endMm },
    };
  const widest = clearanceHole(size, 'coarse')?.diameterMm;
  if (widest === undefined || hole.diameter.mm <= widest + HAIR) return undefined;
  return {
    where: at,
    severity: 'warning',
    message: `${meeting.text} is ${length(hole.diameter.mm)} wide; the widest clearance hole for ${size} is ${length(widest)}. ${write}, or put a washer under the head.`,
    has: length(hole.diameter.mm),
    needs: length(widest),
    facts: { ...facts, hole_mm: hole.diameter.mm, widest_mm: widest },
  };
}
