/** corner/outside-round – a rounded outside edge where a chamfer would cost one pass. */

import { FACE_AXIS, type Round } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { endsOf } from '../../process/approach';
import { endMills } from '../../process/cutters';
import { facesToJudge } from '../../process/milling';
import { renameField, setField, subjectOf, together } from '../kit/fields';
import { fact, trimmed } from '../kit/message';
import type { Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'corner/outside-round';

export const outsideRound: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'A rounded outside edge needs a form cutter or many fine passes; a chamfer is one pass.',
  why: 'A corner-rounding cutter makes one radius and must be on hand; otherwise a ball cutter steps along the edge in dozens of passes. A chamfer of any size is one pass with the cutter that breaks the edges anyway, and is kinder to anodising and to fingers alike.',
  formula:
    'Raised where the shop has no corner-rounding cutter of `radius_mm`. `passes` = quarter circle / step-over, with a step-over of a tenth of the radius, at least 0.1 mm. An edge between two side faces that an end mill follows with its side (one of the edge’s ends up, and long enough a cutter on hand) is as good as a straight one: not raised.',
  limits: [
    {
      name: 'same',
      value: 0.05,
      unit: 'mm',
      what: 'difference from a corner-rounding cutter’s radius at which it still is the one',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cover
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 10 }
features:
  soft-edge: { kind: round, edges: top, radius: 2.4 }
`,
  good: `part: cover
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 10 }
features:
  soft-edge: { kind: chamfer, edges: top, size: 2.4 }
`,
  mends: 'A chamfer of the same size.',
  *find(context) {
    const { part, shop, limit, length } = context;
    const rounders = shop.tools.filter((t): t is Mill => t.kind === 'corner-rounder');
    for (const feature of part.features) {
      if (feature.kind !== 'round') continue;
      const radius = feature.radius.mm;
      if (rounders.some((t) => Math.abs(t.cornerRadiusMm - radius) <= limit('same'))) continue;
      if (isProfile(feature, context)) continue;
      const passes = Math.ceil(((Math.PI / 2) * radius) / Math.max(0.1 * radius, 0.1));
      const had = [...rounders].sort(
        (a, b) => Math.abs(a.cornerRadiusMm - radius) - Math.abs(b.cornerRadiusMm - radius),
      )[0];
      yield {
        rule: NAME,
        severity: 'hint',
        message:
          `An edge rounded to ${length(radius)} has no form cutter on hand${had ? ` (the nearest, ${had.name}, makes ${length(had.cornerRadiusMm)})` : ''}: ` +
          `a ball cutter takes some ${trimmed(passes, 0)} passes along each edge. A chamfer of ${length(radius)} takes one.`,
        of: [feature.name],
        span: feature.kindSpan,
        related: [{ span: feature.radius.span, message: 'its radius' }],
        facts: {
          radius_mm: fact(radius),
          passes,
          ...(had && { nearest_mm: fact(had.cornerRadiusMm), nearest_tool: had.name }),
        },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const feature = subjectOf(finding, context.part) as Round | undefined;
    if (feature?.kind !== 'round') return;
    const edits = together(
      { span: feature.kindSpan, newText: 'chamfer' },
      renameField(context.tree, feature.name, 'radius', 'size'),
    );
    if (edits) yield { title: 'Make it a chamfer of the same size', safe: false, edits };
    for (const tool of context.shop.tools) {
      if (tool.kind !== 'corner-rounder') continue;
      const radius = setField(context.tree, feature.name, 'radius', context.write(tool.cornerRadiusMm));
      if (radius)
        yield {
          title: `Round it to ${context.length(tool.cornerRadiusMm)}, with ${tool.name}`,
          safe: false,
          edits: radius,
        };
    }
  },
};

/** Every edge is one that the side of an end mill follows: the corner of an outline, seen along the edge. */
function isProfile(round: Round, { part, solid, shop }: RuleContext): boolean {
  const ups = facesToJudge(round, part, solid);
  const longest = Math.max(0, ...endMills(shop).map((m) => m.reachMm));
  return round.edges.every((edge) => {
    if (edge.type !== 'edge') return false;
    const ends = endsOf(edge.faces).filter((f) => ups.includes(f));
    if (ends.length === 0) return false;
    const longMm = part.size['xyz'.indexOf(FACE_AXIS[ends[0]!].axis)]!;
    return longMm / ends.length <= longest + 1e-6;
  });
}
