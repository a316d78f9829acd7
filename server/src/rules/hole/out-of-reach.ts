/** hole/out-of-reach – the chuck meets a wall beside the hole before the drill is down. */

import type { Shop } from '../../model/shop-model';
import { isDrill } from '../../model/tool-kinds';
import { boreSize } from '../../process/bore-size';
import { type Maker, makersOf, pointBelowMm, reachOf, SAME_REACH_MM } from '../../process/cutters';
import { type Bored, endsFlat } from '../../process/drilling';
import { PLAIN_MM } from '../../process/operations/hole-makers';
import { highestBeside } from '../../process/reach';
import { SAME } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { memberOf, memberPhrase, roundUp, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { isJudgedInSetup } from '../kit/verdicts';
import { holes, sizeSpan } from './bores';

interface Blocked {
  readonly tool: Maker;
  readonly holder: Shop['holders'][number];
  readonly neededMm: number;
  readonly outMm: number;
  /** How much higher than the hole's mouth the wall stands. */
  readonly wallMm: number;
}

/** How far a tool can stand out of its holder: as the shop says, else all of a drill but what the chuck takes. */
function standsOut(tool: Maker): number {
  if (tool.stickoutMm !== undefined) return tool.stickoutMm;
  return isDrill(tool) ? tool.fluteLengthMm + 2 * tool.diameterMm : reachOf(tool);
}

/** The tool that would come nearest to reaching; undefined where one reaches. */
function blocked(b: Bored, context: RuleContext): Blocked | undefined {
  const { shop, part, solid } = context;
  const mouth = b.core[0]?.from ?? b.startMm;
  let best: Blocked | undefined;
  for (const tool of makersOf(shop, boreSize(b.hole, part, context.limit('plain')))) {
    const holder = shop.holders.find((h) => h.name === tool.holder);
    const point = pointBelowMm(tool, endsFlat(b));
    const reaches = reachOf(tool) >= b.spanMm + point - SAME_REACH_MM;
    if (!reaches) continue;
    if (!holder) return undefined;
    const tip = b.endMm + point;
    const highest = highestBeside(solid, b.face, b.axis, holder.diameterMm / 2, { floorMm: mouth });
    const neededMm = tip - highest;
    const outMm = standsOut(tool);
    if (highest >= mouth - 0.05 || outMm >= neededMm - SAME) return undefined;
    const found = { tool, holder, neededMm, outMm, wallMm: mouth - highest };
    if (!best || outMm - neededMm > best.outMm - best.neededMm) best = found;
  }
  return best;
}

const BAD = `part: corner-post
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 60 }
features:
  ledge: { kind: step, face: top, along: front, width: 40, depth: 45 }
  fix:
    kind: hole
    face: top
    from: ledge
    at: { x: center, y: 33 }
    diameter: 3
    depth: 10
`;

export const outOfReach: Rule = defineRule({
  name: 'hole/out-of-reach',
  severity: 'warning',
  summary: 'The holder hits a wall beside the hole before the drill is deep enough.',
  why: 'Beside a wall the chuck hits the part before the drill reaches its depth. Use a long-series drill, a slim extension, or another order of cuts.',
  formula:
    'The stick-out needed is from the tip at full depth up to the highest finished material within the holder’s radius. The tool has the stick-out that the shop file says, else flutes + 2 D.',
  limits: [
    {
      name: 'plain',
      value: PLAIN_MM,
      unit: 'mm',
      what: '± of a hole for which neither it nor the part says a tolerance',
      source: 'ISO 2768-1 class m for sizes to 6 mm',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: 33', 'y: 10']),
  *find(context) {
    for (const [hole, bores] of holes(context)) {
      // In a set-up the work as it is then decides: `access/holder`.
      if (isJudgedInSetup(hole, context)) continue;
      for (const b of bores) {
        const found = b.faces.length > 1 ? undefined : blocked(b, context);
        if (found) yield { ...found, hole, b };
      }
    }
  },
  tell: ({ hole, b, tool, holder, neededMm, outMm, wallMm }, { length, part, about }) => ({
    message: `The wall beside ${memberPhrase(part, hole.name)} is ${about(wallMm)} higher than the hole and within the radius of ${holder.name}. Drill ${tool.name} needs a stick-out of ${about(neededMm, outMm)} and has ${about(outMm)}. Use a drill ${length(roundUp(neededMm - outMm, part.units))} longer, or a slimmer holder.`,
    has: about(outMm),
    needs: about(neededMm, outMm),
    of: [memberOf(b.of)],
    span: spanOf(hole, 'at', 'depth'),
    related: [{ span: sizeSpan(hole), message: `made by ${tool.name}` }],
    facts: {
      wall_mm: wallMm,
      holder_mm: holder.diameterMm,
      needed_mm: neededMm,
      out_mm: outMm,
      missing_mm: neededMm - outMm,
      tool: tool.name,
    },
    at: [b.axis],
  }),
});
