/** corner/square – a sharp inside corner, which no rotating cutter makes. */

import { FACE_AXIS, FACE_PLANE, type Feature, type Step } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { cornerReach } from '../../process/choice';
import { leftInSharpMm, UNNOTICED_MM } from '../../process/corners';
import { endMills } from '../../process/cutters';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { renameField, setField, together } from '../kit/fields';
import { count, subjectOf } from '../kit/message';
import type { Rule, RuleContext, SpanEdit } from '../kit/rule';
import {
  cornersByFeature,
  type Judged,
  millsThatReach,
  namesOf,
  radiusSpan,
  rollingRadius,
  setRadius,
  writtenIn,
} from './inside-corners';
import { alongBoth, cornerWords, isCornerStep } from './two-steps';

const BAD = `part: nest
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  nest:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 20 }
    depth: 6
`;

/** Beyond this a larger cutter saves little. */
const ROOMY_MM = 6;

interface Square {
  readonly feature: Feature;
  readonly judged: readonly Judged[];
  /** Mills that reach, smallest first. */
  readonly mills: readonly Mill[];
  readonly leftMm: number;
}

function* squares(context: RuleContext): Generator<Square> {
  for (const [feature, all] of cornersByFeature(context)) {
    if (feature.kind === 'pocket' && feature.relief) continue;
    const sharp = all.filter((j) => j.corner.radiusMm === 0);
    if (sharp.length === 0) continue;
    const mills = millsThatReach(sharp[0]!, context);
    const mill = mills[0] ?? endMills(context.shop).at(-1);
    const radius = (mill?.diameterMm ?? 1) / 2;
    const judged = sharp.filter((j) => leftInSharpMm(j.corner, radius) > context.limit('left'));
    if (judged.length === 0) continue;
    yield { feature, judged, mills, leftMm: Math.max(...judged.map((j) => leftInSharpMm(j.corner, radius))) };
  }
}

/** The smallest that reaches and the largest that leaves most of the outline straight. */
function suggested({ mills, judged }: Square, context: RuleContext): readonly Mill[] {
  const neck = Math.min(...judged.map((j) => j.milled.neckMm));
  const roomy = mills.filter((m) => rollingRadius(m, context) <= Math.min(neck / 4, ROOMY_MM));
  const best = roomy[roomy.length - 1] ?? mills[0];
  return best ? [...new Set([best, mills[0]!])] : [];
}

/** A corner step as a pocket open to the same two sides, whose one inside corner has a radius. */
function asPocket(step: Step, radiusMm: number, context: RuleContext): readonly SpanEdit[] | undefined {
  const { part, tree, write } = context;
  if (step.along.length !== 2 || step.from) return undefined;
  const past = 2 * radiusMm;
  const at: string[] = [];
  const size: string[] = [];
  for (const axis of FACE_PLANE[step.face]) {
    const i = step.along.findIndex((a) => FACE_AXIS[a.name].axis === axis);
    const side = step.along[i];
    const widthMm = step.widths[i]?.mm;
    if (!side || widthMm === undefined) return undefined;
    const whole = part.size['xyz'.indexOf(axis)]!;
    const centre = (widthMm - past) / 2;
    at.push(`${axis}: ${write(FACE_AXIS[side.name].sign < 0 ? centre : whole - centre)}`);
    size.push(`${axis}: ${write(widthMm + past)}`);
  }
  return together(
    { span: step.kindSpan, newText: 'pocket' },
    renameField(tree, step.name, 'along', 'at'),
    setField(tree, step.name, 'along', `{ ${at.join(', ')} }`),
    renameField(tree, step.name, 'width', 'size'),
    setField(tree, step.name, 'width', `{ ${size.join(', ')} }`),
    setField(tree, step.name, 'corner-radius', write(radiusMm)),
  );
}

function tell(square: Square, context: RuleContext): Told {
  const { feature, judged, mills, leftMm } = square;
  const { length, about } = context;
  const { corner, milled, place } = judged[0]!;
  const depthMm = cornerReach(milled, corner, place, 0.5, 0.5);
  const [best] = suggested(square, context);
  const radius = best && rollingRadius(best, context);
  const cure = best
    ? ` Make the radius ${length(radius!)} (${best.name})`
    : ` No end mill in the shop reaches ${about(depthMm)} here. Give the corners a radius`;
  const relief =
    feature.kind === 'pocket' && feature.shape.type !== 'circle' ? ', or write `relief: corner` for a square mate' : '';
  const leaves = `${mills[0]?.name ?? 'the smallest end mill'} leaves ${about(leftMm)} standing`;
  const message = isCornerStep(feature)
    ? `${cornerWords(feature, leaves)}.${cure}, or write two steps for a shoulder along both sides.`
    : `${subjectOf(context.part, feature.name)} has ${count(judged.length, 'square inside corner')}. A rotating cutter cannot make one: ${leaves}.${cure}${relief}.`;
  return {
    message,
    of: namesOf(feature, judged),
    span: radiusSpan(feature, corner),
    facts: {
      corners: judged.length,
      radius_mm: 0,
      depth_mm: depthMm,
      left_mm: leftMm,
      smallest_tool: mills[0]?.name,
      smallest_mm: mills[0]?.diameterMm,
      needed_radius_mm: radius,
      needed_tool: best?.name,
    },
    at: judged.map((j) => j.corner.at),
  };
}

export const square: Rule = defineRule({
  name: 'corner/square',
  severity: 'error',
  summary: 'An inside corner is square; a round cutter leaves its own radius.',
  why: 'A mill turns, so an inside corner is at least as round as the cutter. A square corner needs another process: wire or sinker erosion, broaching, filing. A relief hole in the corner lets a square mate seat.',
  formula:
    'An inside corner of radius 0 with material of the finished part on both walls. The smallest cutter that reaches, of radius R, leaves R (1 / cos(turn / 2) − 1) standing.',
  limits: [
    {
      name: 'left',
      value: UNNOTICED_MM,
      unit: 'mm',
      what: 'Material left in a wide open corner that does not matter.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: 20 }', 'y: 20 }\n    corner-radius: 3.5']),
  mends:
    'Round every square corner for a cutter in the shop, or cut relief into the corners of a pocket. Or write two steps, one along each side.',
  find: squares,
  tell,
  keep: (found, context) => ({
    written: writtenIn(found.feature, found.judged),
    cutters: suggested(found, context).map((m) => ({ tool: m.name, radiusMm: rollingRadius(m, context) })),
  }),
  *mend({ written, cutters }, context) {
    const feature = context.part.featureByName.get(written.feature);
    for (const { tool, radiusMm } of cutters) {
      const edits = setRadius(context, written, radiusMm);
      yield change(`Round the corners to ${context.length(radiusMm)}, for ${tool}`, edits);
    }
    if (feature?.kind === 'step') {
      for (const { radiusMm } of cutters) {
        const title = `Write it as a pocket that runs out of the body, corner ${context.length(radiusMm)}`;
        yield change(title, asPocket(feature, radiusMm, context));
      }
      if (isCornerStep(feature)) yield* alongBoth(feature, context);
    }
    if (feature?.kind !== 'pocket') return;
    const edits = setField(context.tree, feature.name, 'relief', 'corner');
    yield change('Cut relief into the corners, for a square mate', edits);
  },
});
