/** corner/outside-round – a rounded outside edge where a chamfer would cost one pass. */

import { type EdgeRound, FACE_AXIS } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { endsOf } from '../../process/approach';
import { endMills } from '../../process/cutters';
import { facesToJudge } from '../../process/milling';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { renameField, setField, together } from '../kit/fields';
import { trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

const BAD = `part: cover
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 10 }
features:
  soft-edge: { kind: edge-round, edges: top, radius: 2.4 }
`;

export const outsideRound: Rule = defineRule({
  name: 'corner/outside-round',
  severity: 'hint',
  summary: 'A rounded outside edge needs a form cutter or many fine passes. A chamfer needs one pass.',
  why: 'A corner-rounding cutter makes one radius, and the shop must have it. Otherwise a ball cutter steps along the edge in dozens of passes. A chamfer of any size is one pass with the cutter that breaks the edges.',
  formula:
    'Reported where the shop has no corner-rounding cutter of this radius. A ball cutter needs quarter circle / step-over passes, with a step-over of a tenth of the radius, at least 0.1 mm. Not reported for an edge between two side faces that the side of an end mill can follow.',
  limits: [
    {
      name: 'same',
      value: 0.05,
      unit: 'mm',
      what: 'Difference from a corner-rounding cutter’s radius at which it still fits.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['kind: edge-round', 'kind: chamfer'], ['radius:', 'size:']),
  mends: 'Use a chamfer of the same size.',
  *find(context) {
    const { part, shop, limit } = context;
    const rounders = shop.tools.filter((t): t is Mill => t.kind === 'corner-rounder');
    for (const feature of part.features) {
      if (feature.kind !== 'edge-round') continue;
      const off = (t: Mill) => Math.abs(t.cornerRadiusMm - feature.radius.mm);
      if (rounders.some((t) => off(t) <= limit('same')) || isProfile(feature, context)) continue;
      yield { feature, had: [...rounders].sort((a, b) => off(a) - off(b))[0] };
    }
  },
  tell({ feature, had }, { length }) {
    const radius = feature.radius.mm;
    const passes = Math.ceil(((Math.PI / 2) * radius) / Math.max(0.1 * radius, 0.1));
    return {
      message: `The edge ${feature.name} has a radius of ${length(radius)}; no corner-rounding cutter in the shop makes it${had ? ` (nearest: ${had.name}, ${length(had.cornerRadiusMm)})` : ''}. A ball cutter needs about ${trimmed(passes, 0)} passes along each edge. Use a chamfer of ${length(radius)}: one pass.`,
      has: length(radius),
      needs: had ? length(had.cornerRadiusMm) : undefined,
      of: [feature.name],
      span: feature.kindSpan,
      related: [{ span: feature.radius.span, message: 'its radius' }],
      facts: { radius_mm: radius, passes, nearest_mm: had?.cornerRadiusMm, nearest_tool: had?.name },
    };
  },
  keep: ({ feature }) => ({ of: feature.name, kindSpan: feature.kindSpan, radius: feature.radius.mm }),
  *mend({ of, kindSpan, radius: was }, { tree, shop, length, write }) {
    const chamfer = together({ span: kindSpan, newText: 'chamfer' }, renameField(tree, of, 'radius', 'size'));
    yield change(`Make it a chamfer of ${length(was)}`, chamfer);
    for (const tool of shop.tools) {
      if (tool.kind !== 'corner-rounder') continue;
      const radius = setField(tree, of, 'radius', write(tool.cornerRadiusMm));
      yield change(`Round it to ${length(tool.cornerRadiusMm)}, with ${tool.name}`, radius);
    }
  },
});

/** Every edge is one that the side of an end mill follows: the corner of an outline, seen along the edge. */
function isProfile(round: EdgeRound, { part, solid, shop }: RuleContext): boolean {
  const ups = facesToJudge(round, part, solid);
  const longest = Math.max(0, ...endMills(shop).map((m) => m.reachMm));
  return round.edges.every((edge) => {
    if (edge.type !== 'edge') return false;
    const ends = endsOf(edge.faces).filter((f) => ups.includes(f));
    if (ends.length === 0) return false;
    const longMm = part.size['xyz'.indexOf(FACE_AXIS[ends[0]!].axis)]!;
    return longMm / ends.length <= longest + SAME;
  });
}
