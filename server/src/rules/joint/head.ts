/** joint/head – the head or its washer does not fit where it sits. */
import { featureFrame, fromFrame } from '../../geometry/frame';
import type { Screwed } from '../../model/joint-model';
import { materialAlong, materialOn } from '../../process/column';
import { columnOf, leans, type MetHole, type Piece } from '../../process/joints/layers';
import { headMeant } from '../../process/joints/lengths';
import { limitsOf } from '../../process/tolerances/limits';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { pattern } from './pattern';
import { assembled } from './screwed';

export const head: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/head',
  severity: 'error',
  summary: 'The head of the screw, or its washer, does not fit where it sits.',
  why: 'A head that does not go into its counterbore, or stands on a wall beside it, clamps nothing. A flat head needs its cone, every other head a flat seat.',
  formula:
    'Head sizes are those of ISO 4762, ISO 10642, ISO 7380-1, ISO 4017 and ASME B18.3. Washers are those of ISO 7089, ISO 7092 and ISO 7093-1. The counterbore at its smallest is wider than head or washer. A flat head stands proud by (head − countersink) / 2 / tan(half the angle), over `proud`: a warning. A cap head above the rim of its counterbore is a hint. Walls: sixteen lines round the head, from its seat up, meet no metal. Of a tilted hole without a counterbore they do where the face is sloped to it: a warning.',
  limits: [
    {
      name: 'proud',
      value: 0.2,
      unit: 'mm',
      what: 'A flat head is above the rim of its countersink by no more.',
      source: 'common practice, no source: the sharp edge of ISO 10642 is theoretical',
    },
  ],
  bad: example('  left: { screw: ISO 4762 M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  good: example('  left: { screw: ISO 10642 M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Name a screw with the head that the hole is for, or change the recess.',
});

export function* headFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const first = found?.layers[0];
  if (!first) return;
  const seen = new Set<object>();
  for (const at of first.holes) {
    // Places of one leaning hole lean alike.
    if (seen.has(at.hole) && leans(at.hole)) continue;
    const told =
      (seen.has(at.hole) ? undefined : seatTold(joint, at, first.piece, context)) ??
      wallTold(joint, at, first.piece, context);
    seen.add(at.hole);
    if (!told) continue;
    const related = [context.there(first.piece, told.where, `joint ${joint.name}: where the head sits`)];
    yield said(head, { of: [joint.name], thing: `joint ${joint.name}`, span: at.meeting.span, related, ...told });
    if (told.severity === undefined) return;
  }
}

type Part = Pick<Told, 'message' | 'severity' | 'has' | 'needs' | 'facts'> & { readonly where: Told['span'] };
const round = (mm: number) => Number(trimmed(mm, 2));

function seatTold(joint: Screwed, { hole, meeting }: MetHole, piece: Piece, context: JointContext): Part | undefined {
  const { screw, washer } = joint;
  const meant = headMeant(joint, { piece, holes: [{ hole, meeting, index: 0, name: hole.name }] });
  if (!meant) return undefined;
  const { length } = context;
  const { counterbore, countersink } = hole;
  if (meant.type === 'flat') {
    if (!countersink)
      return {
        where: hole.nameSpan,
        message: `The flat head of ${screw.standard ?? 'the screw'} needs a cone in ${meeting.text}. Write \`countersink: ${screw.size}\` there, or use a cap screw.`,
        facts: { head_mm: meant.diameterMm },
      };
    return coneTold(meant, countersink, meeting.text, context);
  }
  if (countersink && !counterbore)
    return {
      where: countersink.span,
      message: `${meeting.text} is countersunk, and the head of ${screw.standard} is flat underneath: it sits on an edge. Use ISO 10642 ${screw.size}, or a counterbore.`,
      facts: { countersink_mm: countersink.diameter.mm },
    };
  if (!counterbore) return undefined;
  const wide = Math.max(meant.diameterMm, washer?.outsideMm ?? 0);
  const least =
    limitsOf(counterbore.diameter, counterbore.screw ? undefined : piece.part)?.leastMm ?? counterbore.diameter.mm;
  const what = wide > meant.diameterMm ? 'washer' : 'head';
  const facts = { recess_mm: least, head_mm: wide, depth_mm: counterbore.depth.mm };
  if (least < wide + HAIR)
    return {
      where: counterbore.span,
      message: `The ${what} has a diameter of ${length(round(wide))}, the counterbore of ${meeting.text} ${length(round(least))} at its smallest. Make it wider${what === 'washer' ? ', or leave the washer out' : ''}.`,
      has: length(round(least)),
      needs: length(round(wide)),
      facts,
    };
  const proudMm = meant.heightMm + (washer?.thicknessMm ?? 0) - counterbore.depth.mm;
  if (proudMm <= HAIR) return undefined;
  return {
    where: counterbore.depth.span,
    severity: 'hint',
    message: `The head stands ${length(round(proudMm))} out of the counterbore of ${meeting.text}. Make it ${length(round(counterbore.depth.mm + proudMm))} deep where it is to be flush.`,
    has: length(counterbore.depth.mm),
    needs: length(round(counterbore.depth.mm + proudMm)),
    facts: { ...facts, proud_mm: proudMm },
  };
}

function coneTold(
  meant: { readonly diameterMm: number; readonly angleDeg?: number },
  countersink: NonNullable<MetHole['hole']['countersink']>,
  text: string,
  { length, limit }: JointContext,
): Part | undefined {
  const angle = meant.angleDeg ?? 90;
  const facts = { recess_mm: countersink.diameter.mm, head_mm: meant.diameterMm, angle_deg: countersink.angle.deg };
  if (Math.abs(countersink.angle.deg - angle) > 1)
    return {
      where: countersink.span,
      severity: 'warning',
      message: `The countersink of ${text} is ${countersink.angle.deg}°, the head ${angle}°: they touch along one edge. Make both ${angle}°.`,
      has: `${countersink.angle.deg}°`,
      needs: `${angle}°`,
      facts,
    };
  const proudMm = (meant.diameterMm - countersink.diameter.mm) / 2 / Math.tan((angle * Math.PI) / 360);
  if (proudMm <= limit(head, 'proud') + HAIR) return undefined;
  return {
    where: countersink.diameter.span,
    severity: 'warning',
    message: `The head has a diameter of ${length(round(meant.diameterMm))}, the countersink of ${text} ${length(round(countersink.diameter.mm))}: it stands ${length(round(proudMm))} proud. Make it ${length(round(meant.diameterMm))}.`,
    has: length(round(countersink.diameter.mm)),
    needs: length(round(meant.diameterMm)),
    facts: { ...facts, proud_mm: proudMm },
  };
}

/** So many lines round the head. */
const LINES = 16;

/** Metal above the seat, within the head's circle. */
function wallTold(joint: Screwed, at: MetHole, piece: Piece, { length }: JointContext): Part | undefined {
  const { hole, index, name } = at;
  const meant = headMeant(joint, { piece, holes: [at] });
  const column = columnOf(at, piece);
  if (!meant || !column || meant.type === 'flat') return undefined;
  const seatMm = hole.counterbore ? Math.max(column.topMm, hole.startMm + hole.counterbore.depth.mm) : column.topMm;
  const radius = Math.max(meant.diameterMm, joint.washer?.outsideMm ?? 0) / 2 - HAIR;
  const frame = featureFrame(hole, piece.part.size, hole.places[index]!);
  for (let i = 0; i < LINES; i++) {
    const turn = (2 * Math.PI * i) / LINES;
    const p = fromFrame(frame, radius * Math.cos(turn), radius * Math.sin(turn), 0);
    const along = leans(hole) ? materialOn(piece.solid, p, frame.w) : materialAlong(piece.solid, hole.face, p);
    const above = along.find((s) => s.from < seatMm - HAIR);
    if (!above) continue;
    const high = Math.min(above.to, seatMm) - above.from;
    if (leans(hole) && !hole.counterbore)
      return {
        where: hole.nameSpan,
        severity: 'warning',
        message: `The head in ${name} of ${piece.name} sits on a face that is sloped ${hole.tilt!.angle.deg}° to it, on one edge. Counterbore the hole, or mill a flat.`,
        facts: { head_mm: 2 * radius, lean_deg: hole.tilt!.angle.deg },
      };
    return {
      where: hole.nameSpan,
      message: `The head in ${name} of ${piece.name} has a diameter of ${length(round(2 * radius))} and meets a wall beside it, ${length(round(high))} high. Move the hole away from it, or sink the head.`,
      facts: { head_mm: 2 * radius, wall_mm: high },
    };
  }
  return undefined;
}
