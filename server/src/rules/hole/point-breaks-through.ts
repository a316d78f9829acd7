/** hole/point-breaks-through – a blind hole whose drill point comes out below. */
import { materialAlong } from '../../process/access/column';
import { type Bored, without } from '../../process/drilling';
import { setLength } from '../kit/edits';
import { setField, subjectOf, together } from '../kit/fields';
import { fact, list, memberOf, roundDown, spanOf } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { holes } from './judge';

const NAME = 'hole/point-breaks-through';

interface Through {
  readonly b: Bored;
  /** Material below the full diameter, on the axis. */
  readonly leftMm: number;
  /** Comes out in the open, not in another cavity. */
  readonly outside: boolean;
}

function* broken(context: RuleContext): Generator<Through> {
  const { solid } = context;
  for (const [hole, bores] of holes(context)) {
    for (const b of bores) {
      if (b.pointMm === 0) continue;
      const place = without(solid, hole.name, b.of);
      const under = materialAlong(place, b.face, b.axis).find((s) => s.from <= b.endMm + 1e-6 && s.to > b.endMm + 1e-3);
      if (!under) continue;
      const leftMm = under.to - b.endMm;
      if (leftMm > b.pointMm - 1e-6) continue;
      const body = materialAlong({ body: solid.body, voids: [] }, b.face, b.axis).at(-1);
      yield { b, leftMm, outside: body !== undefined && under.to >= body.to - 1e-6 };
    }
  }
}

function findingOf({ b, leftMm, outside }: Through, context: RuleContext): Finding {
  const { length, limit } = context;
  const { hole } = b;
  const shallower = depthWithFloor(hole.depth.mm, b.pointMm - leftMm, context);
  const cures = [
    ...(shallower > 0
      ? [
          `a depth of ${length(shallower)}, which leaves a floor of ${length(limit('floor'))} under the point (a rule of thumb)`,
        ]
      : []),
    'a flat bottom',
    'a through hole',
  ];
  return {
    rule: NAME,
    severity: outside ? 'error' : 'warning',
    message:
      `The drill's point goes ${length(b.pointMm)} below the stated depth, but only ${length(leftMm)} are left there: it breaks through by ${length(b.pointMm - leftMm)}${outside ? '' : ' into another cavity'}. ` +
      `${cap(cures)} would do.`,
    of: [memberOf(b.of)],
    span: spanOf(hole, 'depth'),
    related: [],
    facts: {
      point_mm: fact(b.pointMm),
      left_mm: fact(leftMm),
      through_mm: fact(b.pointMm - leftMm),
      ...(shallower > 0 && { allowed_depth_mm: fact(shallower), floor_mm: limit('floor') }),
      diameter_mm: fact(hole.diameter.mm),
      point_deg: fact(hole.point.deg),
    },
    at: [b.axis],
  };
}

/** The depth at which a floor stays under the point: `throughMm` less, and the floor. */
function depthWithFloor(depthMm: number, throughMm: number, { limit, part }: RuleContext): number {
  return roundDown(depthMm - throughMm - limit('floor'), part.units);
}

function cap(cures: readonly string[]): string {
  const text = list(cures, 'or');
  return text[0]!.toUpperCase() + text.slice(1);
}

export const pointBreaksThrough: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'The cone below a blind drilled hole comes out on the other side.',
  why: 'The depth of a drilled hole is that of its full diameter; the point goes deeper by about a third of the diameter. Where less than that is left, a blind hole ends in a small ragged hole.',
  formula:
    '`point_mm` = D / (2 tan(point / 2)), 0.300 D at 118°. `left_mm` is the material under the full diameter on the axis in the finished part; `through_mm` = point − left.',
  limits: [
    {
      name: 'floor',
      value: 0.8,
      unit: 'mm',
      what: 'material that the depth it proposes leaves under the point',
      source: 'common practice, no source (as `wall/thin` for metal)',
    },
  ],
  bad: `part: foot
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
features:
  dowel:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 8
    depth: 10
`,
  good: `part: foot
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
features:
  dowel:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 8
    depth: 8
`,
  mends: 'Less depth, a flat bottom, or a through hole.',
  *find(context) {
    for (const found of broken(context)) yield findingOf(found, context);
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    const mine = [...broken(context)].filter((x) => x.b.hole === hole);
    if (hole?.kind !== 'hole' || mine.length === 0) return;
    const { part, length, tree } = context;
    const by = Math.max(...mine.map((x) => x.b.pointMm - x.leftMm));
    const shallower = depthWithFloor(hole.depth.mm, by, context);
    const edit = shallower > 0 ? setLength(hole.depth.length, shallower, part) : undefined;
    if (edit) yield { title: `Make it ${length(shallower)} deep`, safe: false, edits: [edit] };
    const flat = setField(tree, hole.name, 'bottom', 'flat');
    if (flat) yield { title: 'Make its bottom flat, with an end mill', safe: false, edits: flat };
    if (hole.from) return;
    const through = together({ span: spanOf(hole, 'depth'), newText: 'through' });
    if (through) yield { title: 'Drill it through', safe: false, edits: through };
  },
};
