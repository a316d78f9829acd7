/** corner/inside-radius – no cutter of the shop that fits the corner reaches its foot. */
import type { Feature } from '../../model/model';
import { setLength } from '../kit/edits';
import { subjectOf } from '../kit/fields';
import { fact, roundDown, spanOf, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext, Severity } from '../kit/rule';
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
} from './judge';

const NAME = 'corner/inside-radius';

interface Bad {
  readonly feature: Feature;
  readonly judged: readonly Judged[];
  readonly depthMm: number;
  readonly ratio: number;
}

/** For each feature every corner that no cutter reaches, the worst off first. */
function* badCorners(context: RuleContext): Generator<Bad> {
  for (const [feature, all] of cornersByFeature(context)) {
    const bad: { judged: readonly Judged[]; depthMm: number; ratio: number }[] = [];
    for (const judged of kindsOf(all)) {
      const { corner } = judged[0]!;
      if (corner.radiusMm === 0 || isEndOfGap(judged[0]!)) continue;
      const choice = choiceOf(judged[0]!, context);
      if (choice.reaching || millsThatReach(judged[0]!, context).length === 0) continue;
      const depthMm = choice.neededMm();
      bad.push({ judged, depthMm, ratio: depthMm / (2 * corner.radiusMm) });
    }
    bad.sort((x, y) => y.ratio - x.ratio);
    const [worst] = bad;
    if (worst) yield { ...worst, feature, judged: bad.flatMap((x) => x.judged) };
  }
}

function findingOf({ feature, judged, depthMm, ratio }: Bad, context: RuleContext): Finding {
  const { shop, length } = context;
  const { corner, milled } = judged[0]!;
  const { largest, longest } = choiceOf(judged[0]!, context);
  const fromBoth = milled.bothSides && longest !== undefined && longest.reachMm >= depthMm / 2 + 1;
  const most = `at most ${length(2 * corner.radiusMm)} across`;
  const had = longest
    ? `none ${most} reaches that far: ${longest.name}, the longest, reaches ${length(longest.reachMm)}`
    : `none in the shop is ${most}`;
  const smallest = millsThatReach(judged[0]!, context)[0]!;
  const would = rollingRadius(smallest, context);
  const shallower = longest && depthAllowed(feature, depthMm, longest.reachMm, context);
  const cure = [
    `a radius of ${length(would)} (${smallest.name})`,
    ...(shallower ? [`a depth of ${length(shallower)}`] : []),
    ...(fromBoth ? ['cutting half from each side'] : []),
  ].join(', or ');
  return {
    rule: NAME,
    severity: severityOf(ratio, fromBoth, context),
    message:
      `An inside corner of radius ${length(corner.radiusMm)} is ${length(depthMm)} deep, ${trimmed(ratio, 1)} times the cutter ` +
      `that fits it; of the end mills ${had}${shop.builtIn ? ' (built-in shop)' : ''}. ${cure[0]!.toUpperCase()}${cure.slice(1)} would do.`,
    of: namesOf(feature, judged),
    span: radiusSpan(feature, corner),
    related: [{ span: spanOf(feature, 'depth'), message: `its depth` }],
    facts: {
      radius_mm: fact(corner.radiusMm),
      depth_mm: fact(depthMm),
      ratio: fact(ratio),
      gap_mm: fact(2 * corner.radiusMm),
      ...(largest && { cutter_mm: fact(largest.diameterMm) }),
      ...(longest && { reach_mm: fact(longest.reachMm), tool: longest.name }),
      needed_radius_mm: fact(would),
      needed_tool: smallest.name,
      ...(shallower && { allowed_depth_mm: fact(shallower) }),
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

export const insideRadius: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'An inside corner is too small and too deep for every cutter on hand.',
  why: 'A round cutter leaves its own radius in an inside corner, so the corner sets the largest cutter, and a thin cutter that reaches deep bends, chatters and breaks: bending grows with the cube of its length and the fourth power of its thinness.',
  formula:
    'The cutter is at most 2 × `radius_mm` thick and no wider than the narrowest place. It must reach `depth_mm`, from the highest material of the finished part beside it down to the foot of the corner. `cutter_mm` is the largest on hand that fits, `reach_mm` the reach of the longest that fits, `ratio` = depth / (2 × radius).',
  limits: [
    {
      name: 'impossible',
      value: 8,
      unit: 'ratio',
      what: 'depth / (2 × radius) above which it is an error where only the built-in shop is known; a warning below',
      source: 'common practice, no source',
    },
  ],
  bad: `part: deep-window
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
`,
  good: `part: deep-window
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 25 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 36, y: 20 }
    corner-radius: 4.5
    depth: 18
`,
  mends: 'The smallest radius that a cutter on hand reaches with, or a depth that the present cutter reaches.',
  *find(context) {
    for (const bad of badCorners(context)) yield findingOf(bad, context);
  },
  *mend(finding, context): Generator<Fix> {
    const bad = [...badCorners(context)].find((b) => b.feature === subjectOf(finding, context.part));
    if (!bad) return;
    const { feature, judged, depthMm } = bad;
    for (const mill of millsThatReach(judged[0]!, context).slice(0, 3)) {
      const radius = rollingRadius(mill, context);
      const edits = setRadius(
        context,
        feature,
        judged.map((j) => j.corner),
        radius,
      );
      if (edits)
        yield { title: `Make the corners ${context.length(radius)} round, for ${mill.name}`, safe: false, edits };
    }
    const { longest } = choiceOf(judged[0]!, context);
    const shallower = longest && depthAllowed(feature, depthMm, longest.reachMm, context);
    const edit =
      shallower && 'depth' in feature ? setLength(feature.depth?.length, shallower, context.part) : undefined;
    if (edit && shallower)
      yield {
        title: `Make it ${context.length(shallower)} deep, within reach of ${longest.name}`,
        safe: false,
        edits: [edit],
      };
  },
};
