/** corner/inside-radius – no cutter of the shop that fits the corner reaches its foot. */

import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import type { Choice } from '../../process/choice';
import { isSameCorner } from '../../process/corners';
import { cutFromBothSides } from '../../process/operations/asked';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { memberPhrase, roundDown, spanOf } from '../kit/message';
import type { Rule, RuleContext, Severity } from '../kit/rule';
import { saysOfCorners } from '../kit/verdicts';
import {
  choiceOf,
  cornersByFeature,
  isEndOfGap,
  type Judged,
  kindsOf,
  millsThatReach,
  namesOf,
  radiusSpan,
  rollingRadius,
  setRadius,
  widerAtMouthMm,
  writtenIn,
} from './inside-corners';

const BAD = `part: deep-window
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 25 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 36, y: 20 }
    corner-radius: 1
    depth: 18
`;

interface Bad {
  readonly feature: Feature;
  /** The worst off first. */
  readonly judged: readonly Judged[];
  readonly choice: Choice;
  /** Mills that would reach, smallest first. */
  readonly mills: readonly Mill[];
  readonly depthMm: number;
  readonly ratio: number;
}

/** For each feature every corner that no cutter reaches, the worst off first. */
function* badCorners(context: RuleContext): Generator<Bad> {
  for (const [feature, all] of cornersByFeature(context)) {
    const bad: Omit<Bad, 'feature'>[] = [];
    for (const judged of kindsOf(all)) {
      const { corner } = judged[0]!;
      if (corner.radiusMm === 0 || isEndOfGap(judged[0]!)) continue;
      const choice = choiceOf(judged[0]!, context);
      if (choice.reaching || reachedOnFinished(judged[0]!, context)) continue;
      const mills = millsThatReach(judged[0]!, context);
      if (mills.length === 0) continue;
      const depthMm = choice.neededMm();
      bad.push({ judged, choice, mills, depthMm, ratio: depthMm / (2 * corner.radiusMm) });
    }
    bad.sort((x, y) => y.ratio - x.ratio);
    const [worst] = bad;
    if (worst) yield { ...worst, feature, judged: bad.flatMap((x) => x.judged) };
  }
}

/** What is in the way only when it is cut, `access/reach` tells, with where else it could be cut. */
function reachedOnFinished({ cut, finished, corner }: Judged, context: RuleContext): boolean {
  if (!cut) return false;
  const same = finished.corners.find((c) => isSameCorner(c, corner));
  const there = { milled: finished, finished, place: context.solid };
  return same !== undefined && choiceOf({ ...there, corner: same }, context).reaching !== undefined;
}

function tell({ feature, judged, choice, mills, depthMm, ratio }: Bad, context: RuleContext): Told {
  const { shop, length, about } = context;
  const { corner, milled, cut } = judged[0]!;
  const { largest, longest } = choice;
  const halves = cutFromBothSides(feature.name, context.part);
  const fromBoth = milled.bothSides && !halves && longest !== undefined && longest.reachMm >= depthMm / 2 + 1;
  const had = longest ? `${longest.name} reaches ${length(longest.reachMm)}` : 'the shop has none so thin';
  const smallest = mills[0]!;
  const would = rollingRadius(smallest, context, feature);
  const where = widerAtMouthMm(feature) > 0 ? ' at the floor' : '';
  const shallower = longest && depthAllowed(feature, depthMm, longest.reachMm, context);
  const cure = [
    `the radius ${length(would)} (${smallest.name})`,
    ...(shallower ? [`the depth ${length(shallower)}`] : []),
    ...(fromBoth ? ['cut half from each side'] : []),
  ].join(', or ');
  // Set-ups that are written cut what they cut: half from each side is then a change to them.
  const severity = severityOf(ratio, fromBoth && !context.part.setups, context);
  const when = cut ? ` in ${context.part.setups![cut.setup]!.name}` : '';
  return {
    severity,
    message: `A corner radius of ${about(corner.radiusMm)}${where} in ${memberPhrase(context.part, feature.name)} allows an end mill of ${about(2 * corner.radiusMm)} at most. The corner is ${about(depthMm)} deep${when}; ${had}${shop.builtIn ? ' (built-in shop)' : ''}. Make ${cure}.`,
    has: about(corner.radiusMm),
    needs: about(would),
    of: namesOf(feature, judged),
    span: radiusSpan(feature, corner),
    related: [
      { span: spanOf(feature, 'depth'), message: 'its depth' },
      cut && { span: cut.span, message: 'where it is cut' },
    ],
    says: [saysOfCorners(feature.name, severity)],
    facts: {
      radius_mm: corner.radiusMm,
      depth_mm: depthMm,
      ratio,
      gap_mm: 2 * corner.radiusMm,
      cutter_mm: largest?.diameterMm,
      reach_mm: longest?.reachMm,
      tool: longest?.name,
      needed_radius_mm: would,
      needed_tool: smallest.name,
      allowed_depth_mm: shallower,
      corners: judged.length,
    },
    at: judged.map((j) => j.corner.at),
  };
}

/** The built-in shop is only a guess at what there is, so it alone does not make an error until trade practice does. */
function severityOf(ratio: number, fromBoth: boolean, { shop, limit }: RuleContext): Severity {
  if (fromBoth) return 'warning';
  if (!shop.builtIn) return 'error';
  return ratio > limit('impossible') ? 'error' : 'warning';
}

function depthAllowed(feature: Feature, depthMm: number, reachMm: number, { part }: RuleContext): number | undefined {
  const depth = 'depth' in feature ? feature.depth : undefined;
  if (!depth?.length || depth.through) return undefined;
  const allowed = roundDown(depth.mm - (depthMm - reachMm), part.units);
  return allowed >= depth.mm / 4 ? allowed : undefined;
}

export const insideRadius: Rule = defineRule({
  name: 'corner/inside-radius',
  severity: 'error',
  summary: 'An inside corner is too small and too deep for every cutter in the shop.',
  why: 'A round cutter leaves its own radius in an inside corner, so the corner limits the cutter. A thin cutter that reaches deep bends, chatters and breaks. Twice as long bends eight times as much; half as thick, sixteen times.',
  formula:
    'The cutter has at most twice the radius in diameter and fits the narrowest place. It must reach from the highest material beside the corner down to its foot. With set-ups that is the workpiece just before the cut, without them the finished part. Where only material that is cut later is in the way, `access/reach` reports it.',
  limits: [
    {
      name: 'impossible',
      value: 8,
      unit: 'ratio',
      what: 'depth / (2 × radius) above which it is an error where only the built-in shop is known; a warning below',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['corner-radius: 1', 'corner-radius: 4.5']),
  mends:
    'Use the smallest radius that a cutter in the shop reaches with. Or use the depth that the present cutter reaches.',
  find: badCorners,
  tell,
  keep({ feature, judged, choice: { longest }, mills, depthMm }, context) {
    const depth = longest && depthAllowed(feature, depthMm, longest.reachMm, context);
    return {
      written: writtenIn(feature, judged),
      radii: mills.slice(0, 3).map((m) => ({ mm: rollingRadius(m, context, feature), tool: m.name })),
      depth: depth ? { mm: depth, tool: longest.name } : undefined,
    };
  },
  *mend({ written, radii, depth }, context) {
    const { part, length } = context;
    for (const { mm, tool } of radii)
      yield change(`Make the corner radius ${length(mm)}, for ${tool}`, setRadius(context, written, mm));
    const feature = part.featureByName.get(written.feature);
    if (!depth || !feature || !('depth' in feature)) return;
    const edit = setLength(feature.depth?.length, depth.mm, part);
    yield change(`Make it ${length(depth.mm)} deep, within reach of ${depth.tool}`, edit);
  },
});
