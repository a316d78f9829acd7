/** joint/length – a screw or pin that meets the bottom, does not fill its nut, or cannot be had so long. */
import type { Pinned, Screwed } from '../../model/joint-model';
import { columnOf } from '../../process/joints/layers';
import { askedHead, type Gripped, lengthHalfMm, reachOf } from '../../process/joints/lengths';
import { lengthsOf, screwText } from '../../tables/fasteners';
import { PIN_LENGTHS_MM, pinText } from '../../tables/pins';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { leastThreadMm, lengthThatDoes } from './engagement';
import { pattern } from './pattern';
import { type Assembled, assembled, gripsOf } from './screwed';

export const lengthRule: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/length',
  severity: 'error',
  summary: 'A screw or pin of this length meets the bottom, does not fill its nut, or cannot be had.',
  why: 'A screw that meets the bottom of its thread is tight and clamps nothing. Screws and pins are sold in steps of length, and what falls between two steps is cut off by hand.',
  formula:
    'The screw’s length, less what lies between head and thread, less the depth of full thread. In a blind hole it is an error where that is over 0. A warning where it is over 0 only at worst, by the limits of parts and screw. Screws are js15 long, ISO 4759-1. In a nut the screw ends at least a pitch behind it. Lengths: ISO 888, as far as each standard has them; ASME B18.3; ISO 8734. A pin is no longer than its holes are deep together, and reaches its own diameter into the last part.',
  bounds: 'The lengths of ISO 888, ASME B18.3 and ISO 8734, with the limits of ISO 4759-1.',
  limits: [],
  bad: example('  left: { screw: M5x25, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  good: example('  left: { screw: M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Use the standard length that is named; where there is none, change the depth of the thread.',
});

export function* lengthFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const all = found && gripsOf(joint, found);
  if (!found || !all || all.length === 0) return;
  const told =
    joint.screw.lengthMm === undefined ? noLength(joint, found, all, context) : ofLength(joint, found, all, context);
  if (!told) return;
  const last = found.layers.at(-1)!;
  const related = [context.there(last.piece, last.holes[0]!.hole.depth.span, `joint ${joint.name}: how deep it is`)];
  yield said(lengthRule, {
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: joint.screwSpan,
    ...(joint.nut ? {} : { related }),
    ...told,
  });
}

type Part = Pick<Told, 'message' | 'severity' | 'has' | 'needs' | 'facts'>;

function ofLength(joint: Screwed, found: Assembled, all: readonly Gripped[], context: JointContext): Part | undefined {
  const lengthMm = joint.screw.lengthMm!;
  const { length } = context;
  const round = (mm: number) => length(Number(trimmed(mm, 2)));
  const least = leastThreadMm(joint, found, context) ?? joint.screw.diameterMm;
  const does = lengthThatDoes(joint, found, least);
  const change = does ? `Use ${does.text}.` : joint.nut ? '' : 'Make the thread deeper.';
  const [deepest] = all.map((grip) => ({ grip, ...reachOf(lengthMm, grip) })).sort((a, b) => b.pastMm - a.pastMm);
  const { grip, tipMm, pastMm } = deepest!;
  const facts = {
    grip_mm: grip.gripMm,
    length_mm: lengthMm,
    past_mm: Number.isFinite(pastMm) ? pastMm : undefined,
    does_mm: does?.mm,
  };
  const text = found.layers.at(-1)!.holes[0]!.meeting.text;
  if (pastMm > HAIR)
    return {
      message: `The screw reaches ${round(tipMm)} into ${text}, which has ${round(grip.stopMm)} of thread: it is stopped ${round(pastMm)} before the parts are tight. ${change}`,
      has: round(tipMm),
      needs: round(grip.stopMm),
      facts,
    };
  const shortest = Math.min(...all.map((g) => reachOf(lengthMm, g).tipMm));
  if (joint.nut && shortest < least - HAIR)
    return {
      severity: 'warning',
      message: `The screw stands ${round(Math.max(0, shortest))} out of the parts; the nut and one pitch behind it need ${round(least)}. ${change}`,
      has: round(Math.max(0, shortest)),
      needs: round(least),
      facts: { ...facts, needs_mm: least },
    };
  return byLimits(grip, pastMm, { lengthMm, text, change }, context, facts) ?? noStandard(joint, found, change, facts);
}

interface Said {
  readonly lengthMm: number;
  readonly text: string;
  readonly change: string;
}

function byLimits(
  { halfMm }: Gripped,
  pastMm: number,
  { lengthMm, text }: Said,
  { length }: JointContext,
  facts: Part['facts'],
): Part | undefined {
  if (halfMm === undefined || !Number.isFinite(pastMm)) return undefined;
  const worstMm = pastMm + halfMm + lengthHalfMm(lengthMm);
  if (worstMm <= HAIR) return undefined;
  return {
    severity: 'warning',
    message: `By the limits of parts and screw it may be stopped in ${text} ${length(Number(trimmed(worstMm, 2)))} before the parts are tight. Make the thread that much deeper, or use a shorter screw.`,
    facts: { ...facts, worst_mm: worstMm },
  };
}

function noStandard({ screw }: Screwed, { layers }: Assembled, change: string, facts: Part['facts']): Part | undefined {
  const asked = askedHead(layers[0]!);
  if (lengthsOf(screw, asked).some((mm) => Math.abs(mm - screw.lengthMm!) < HAIR)) return undefined;
  const near = lengthsOf(screw, asked).toSorted(
    (a, b) => Math.abs(a - screw.lengthMm!) - Math.abs(b - screw.lengthMm!),
  )[0];
  const use = change || (near === undefined ? '' : `Use ${screwText(screw, asked, near)}.`);
  return {
    severity: 'hint',
    message: `${screwText(screw, asked, screw.lengthMm)} is no standard length (ISO 888). ${use}`.trim(),
    facts,
  };
}

/** No standard length engages enough and is not stopped. */
function noLength(joint: Screwed, found: Assembled, all: readonly Gripped[], context: JointContext): Part | undefined {
  const least = leastThreadMm(joint, found, context);
  if (least === undefined || lengthThatDoes(joint, found, least)) return undefined;
  const from = Math.max(...all.map((g) => g.gripMm)) + least;
  const to = Math.min(...all.map((g) => g.gripMm + g.stopMm));
  const { length } = context;
  const round = (mm: number) => length(Number(trimmed(mm, 1)));
  const between =
    to < from
      ? `It needs ${round(from)}, and is stopped at ${round(to)}`
      : Number.isFinite(to)
        ? `From ${round(from)} to ${round(to)} is enough`
        : `It needs ${round(from)}`;
  return {
    severity: 'warning',
    message: `No standard length of ${screwText(joint.screw, askedHead(found.layers[0]!), undefined)} does. ${between}. Make the thread deeper, or put a washer under the head.`,
    facts: { from_mm: from, to_mm: Number.isFinite(to) ? to : undefined },
  };
}

/** Of a pin: no longer than its holes, and its own diameter into the last. */
export function* pinLengthFindings(joint: Pinned, context: JointContext): Generator<Finding> {
  const { pin } = joint;
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  if (!found || pin.lengthMm === undefined) return;
  const depths = found.layers.map(({ piece, holes }) => ({ column: columnOf(holes[0]!, piece), piece }));
  if (depths.some((d) => !d.column)) return;
  const columns = depths.map((d) => d.column!);
  const deep = columns.map((c) => c.bottomMm - c.topMm);
  const isClosed = columns.filter((c) => !c.comesOut).length >= 2;
  const allMm = deep.reduce((a, b) => a + b, 0);
  const leastMm = deep.slice(0, -1).reduce((a, b) => a + b, 0) + pin.diameterMm;
  const next = (ok: (mm: number) => boolean) => PIN_LENGTHS_MM.filter(ok);
  const base = {
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: joint.pinSpan,
    facts: { length_mm: pin.lengthMm, deep_mm: allMm },
  };
  const { length } = context;
  if (isClosed && pin.lengthMm > allMm + HAIR) {
    const fits = next((mm) => mm <= allMm).at(-1);
    yield said(lengthRule, {
      ...base,
      message: `The pin is ${length(pin.lengthMm)} long, its holes together ${length(Number(trimmed(allMm, 2)))} deep: the parts stay apart. ${fits === undefined ? 'Drill deeper.' : `Use ${pinText(pin, fits)}.`}`,
      has: length(pin.lengthMm),
      needs: length(allMm),
    });
  } else if (!isClosed && pin.lengthMm < leastMm - HAIR && columns[0]!.comesOut && !columns.at(-1)!.comesOut) {
    const fits = next((mm) => mm >= leastMm)[0];
    yield said(lengthRule, {
      ...base,
      severity: 'warning',
      message: `The pin reaches less than its own diameter into the last part. ${fits === undefined ? 'Use a longer one.' : `Use ${pinText(pin, fits)}.`}`,
      facts: { ...base.facts, needs_mm: leastMm },
    });
  } else if (!PIN_LENGTHS_MM.includes(pin.lengthMm)) {
    const fits = next((mm) => mm <= pin.lengthMm!).at(-1) ?? PIN_LENGTHS_MM[0]!;
    yield said(lengthRule, {
      ...base,
      severity: 'hint',
      message: `${pinText(pin, pin.lengthMm)} is no standard length. Use ${pinText(pin, fits)}.`,
    });
  }
}
