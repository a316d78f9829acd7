/** access/holder – the holder comes down on the work beside the cut before the tool is down. */

import type { Feature } from '../../model/model';
import type { HolderMeets, Verdict } from '../../process/access';
import { bestOnFinished } from '../../process/access/finished';
import { milledVoids } from '../../process/milling';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { capital, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { cutOf, isJudgedInSetup, movesFor, placesTold, setupOf, verdictAt, verdictsIn } from '../kit/verdicts';

interface Meets {
  readonly h: HolderMeets;
  /** In its set-up, or on the finished part. */
  readonly v?: Verdict;
  readonly feature: Feature | undefined;
}

function* onFinished(context: RuleContext): Generator<Meets> {
  const { part, solid, shop } = context;
  for (const feature of part.features) {
    // Of a hole it is `hole/out-of-reach` that tells.
    if (feature.kind === 'hole' || isJudgedInSetup(feature, context)) continue;
    if (milledVoids(feature, part, solid).length === 0) continue;
    const h = bestOnFinished(feature, { part, solid, shop })?.holder;
    if (h) yield { h, feature };
  }
}

const SPARED = 'Use a longer spot drill, or start the drill without a spot.';

const BAD = `part: corner
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 50 }
features:
  ledge: { kind: step, face: top, along: [left, back], width: 40, depth: 25 }
  seat: { kind: pocket, face: top, from: ledge, at: { x: 16, y: 42 }, size: { x: 20, y: 24 }, corner-radius: 4.5, depth: 10 }
  lip: { kind: step, face: top, along: front, width: 20, depth: 25 }
setups:
  first:
    up: top
    hold: { vise: vise-100, jaws: [back, front], grip: 12 }
    zero: { x: left, y: back, z: parallels }
    cuts: [ledge, seat, lip]
`;

export const holder: Rule = defineRule({
  name: 'access/holder',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The holder of the tool hits the workpiece beside the cut.',
  why: 'A cutter may be long and thin enough, but its chuck is several times as wide. It hits a wall beside the pocket first. More stick-out bends the tool with its cube. A slimmer holder helps, or another order of cuts.',
  formula:
    'The stick-out needed is from the tip at its deepest up to the highest material within the holder’s radius. It is taken along the walls that the cutter follows. The workpiece is as it is before that cut. Without set-ups it is the finished part, from the best side: a warning. The tool has the stick-out that the shop file says, else the most that the tool allows. That is reach plus three shank diameters for a mill, two diameters for a drill or tap (rule of thumb). Every tool that fits and reaches is tried. Tools without a holder are not checked. With the built-in shop it is a warning.',
  bounds: 'The stick-out and the holder of each tool in the shop file; a rule of thumb where it gives none.',
  limits: [],
  shop: `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }
vises: { vise-100: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [10, 16, 20, 26]
holders: { er20: { diameter: 34, length: 50 } }
tools:
  em-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 22, reach: 26, shank: 8, material: carbide, holder: er20, stickout: 30 }
`,
  bad: BAD,
  good: edited(BAD, ['seat, lip', 'lip, seat']),
  mends: 'Move the cut to the end of its set-up, or to another set-up, where the holder hits nothing.',
  *find(context): Generator<Meets> {
    for (const v of verdictsIn(context)) if (v.holder) yield { h: v.holder, v, feature: v.cut.feature };
    yield* onFinished(context);
  },
  tell({ h, v, feature }, context) {
    const { length, about } = context;
    const hits = `holder ${h.holder.name} (${length(2 * h.holder.radiusMm)} wide) hits the workpiece beside ${feature?.name ?? v!.cut.name}. Tool ${h.tool.name} needs a stick-out of ${about(h.neededMm, h.outMm)} and ${h.tool.stickoutMm === undefined ? 'can have' : 'has'} ${about(h.outMm)}.`;
    const more = 'Use a slimmer holder, or a longer tool.';
    const shown = {
      facts: {
        needed_mm: h.neededMm,
        out_mm: h.outMm,
        missing_mm: h.neededMm - h.outMm,
        holder_mm: 2 * h.holder.radiusMm,
        tool: h.tool.name,
      },
      at: h.at && [h.at],
    };
    if (!v)
      return {
        ...shown,
        severity: 'warning',
        message: `${capital(hits)} ${more}`,
        of: [feature!.name],
        span: spanOf(feature!, 'depth'),
      };
    const { setup, up } = setupOf(v, context);
    return {
      ...shown,
      ...(h.spared && { severity: 'warning' as const }),
      message: `Set-up ${setup.name} (${up} up): ${hits} ${h.spared ? SPARED : more}${placesTold(v, context)}`,
      of: [v.cut.name],
      span: v.cut.span,
      related: [feature && { span: feature.nameSpan, message: 'what is cut' }],
    };
  },
  keep: ({ v }) => v && cutOf(v),
  *mend(cut, context) {
    const v = verdictAt(cut, context);
    if (v) yield* movesFor(v, context);
  },
});
