/** hole/marked-out – a hole made beside the mill, closer in place or squareness than that holds. */
import { FACE_PLANE, type Hole } from '../../model/model';
import { isAtBench, pressOf } from '../../process/made-on';
import { dimensioned } from '../../process/stackup/drawn';
import type { Span } from '../../text/tree';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField } from '../kit/fields';
import { subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

interface Hit {
  readonly hole: Hole;
  readonly span: Span;
  readonly what: 'position' | 'place' | 'squareness' | 'seat';
  readonly needsMm: number;
  readonly hasMm: number;
}

const BAD = `part: foot
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 80, y: 40, z: 12 }
features:
  screw: { kind: hole, face: top, at: { x: 12, y: 12 }, diameter: 5.5, depth: through, made-on: pillar-drill }
datums: { A: bottom, B: left, C: front }
tolerances:
  - { position: 0.2, of: screw, datums: [A, B, C] }
`;
const SHOP = `shop: bench
machines:
  mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [60, 5000], power: 1 kW } }
vises:
  vise-100: { jaw: { width: 100, height: 32 }, opens: 110 }
parallels: [8, 12, 16]
drill-presses:
  pillar-drill: { largest: 13, throat: 150, opening: 350, stroke: 80, rpm: [500, 850, 1400, 2000, 2600], place-error: 0.2 }
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
  dr-5.5: { kind: drill, diameter: 5.5 }
`;

function* find(context: RuleContext): Generator<Hit> {
  for (const feature of context.part.features) {
    if (feature.kind !== 'hole' || !feature.madeOn) continue;
    yield* leaning(feature, context);
    yield* misplaced(feature, context);
  }
}

/** By how much it leans over its length: of a thread at the bench the thread's. */
function* leaning(hole: Hole, { part, shop }: RuleContext): Generator<Hit> {
  const leanDeg = isAtBench(hole) ? shop.bench?.leanDeg : pressOf(hole, shop)?.leanDeg;
  if (leanDeg === undefined) return;
  const deepMm = isAtBench(hole) ? (hole.threadDepth?.mm ?? hole.depth.mm) : hole.depth.mm;
  const hasMm = deepMm * Math.tan((leanDeg * Math.PI) / 180);
  for (const t of part.tolerances)
    if (t.characteristic === 'perpendicularity' && t.of.some((n) => named(n.name, hole)) && t.value.mm < hasMm - SAME)
      yield { hole, span: t.value.span, what: 'squareness', needsMm: t.value.mm, hasMm };
}

/** What is drilled in a set-up stays where it is; a press drills where the punch was. */
function* misplaced(hole: Hole, { part, shop }: RuleContext): Generator<Hit> {
  const hasMm = pressOf(hole, shop)?.placeMm;
  if (hasMm === undefined) return;
  const own = { hole, hasMm };
  let told = false;
  for (const t of part.tolerances)
    if (t.characteristic === 'position' && t.of.some((n) => named(n.name, hole)) && t.value.mm / 2 < hasMm - SAME) {
      yield { ...own, span: t.value.span, what: 'position', needsMm: t.value.mm / 2 };
      told = true;
    }
  if (told) return;
  if (hole.seat) {
    yield { ...own, span: hole.madeOn!.span, what: 'seat', needsMm: 0 };
    return;
  }
  const drawn = FACE_PLANE[hole.face].flatMap((axis) => {
    const d = dimensioned(hole.name, axis, part);
    return d?.link && d.from !== 'middle' ? [d.link.halfMm] : [];
  });
  const least = Math.min(...drawn);
  if (Number.isFinite(least) && least < hasMm - SAME)
    yield { ...own, span: hole.madeOn!.span, what: 'place', needsMm: least };
}

function named(name: string, hole: Hole): boolean {
  return name.replace(/\[\d+\]$/, '') === hole.name;
}

export const markedOut: Rule = defineRule({
  name: 'hole/marked-out',
  severity: 'warning',
  summary: 'A hole on a drill press or at the bench is closer in place, or squarer, than that holds.',
  why: 'A hole that is marked out and punched lies where the punch was and the drill ran. A tap that is started by eye leans. What must fit others is drilled on the mill, through a jig, or together with its mate.',
  formula:
    'The `place-error` of the press against half of a position tolerance, and against what the drawing allows to each side, its general tolerance too. The tangent of `lean` times the depth against a perpendicularity. Holes for pins and bearings are always told. Toleranced distances are in tol/as-set-up.',
  bounds: '`place-error` and `lean` of the shop file; rules of thumb where it gives none.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['position: 0.2', 'position: 0.5'], ['tolerance: ISO 2768-m', 'tolerance: ISO 2768-c']),
  shop: SHOP,
  mends: 'Make it on the mill, or allow more.',
  find,
  tell({ hole, span, what, needsMm, hasMm }, { part, about }) {
    const { name: on } = hole.madeOn!;
    const [needs, has] = [about(needsMm, hasMm), about(hasMm, needsMm)];
    const lean = isAtBench(hole) ? 'A tap or reamer started by hand' : `A hole drilled on ${on}`;
    const said = {
      position: `may be ${needs} off its place. Marked out on ${on} it may be ${has} off. Make it on the mill, through a drill jig, or allow more.`,
      place: `may be ${needs} off by the drawing. Marked out on ${on} it may be ${has} off. Make it on the mill, through a drill jig, or allow more.`,
      squareness: `must be square within ${needs}. ${lean} leans by ${has} over its length. Make it on the mill, or allow more.`,
      seat: `is a seat, and marked out on ${on} it may be ${has} off. Drill and ream it together with its mate, or make it on the mill.`,
    }[what];
    return {
      message: `${subjectOf(part, hole.name)} ${said}`,
      ...(what !== 'seat' && { needs }),
      has,
      of: [hole.name],
      span,
      related: span === hole.madeOn!.span ? [] : [{ span: hole.madeOn!.span, message: `made on ${on}` }],
      facts: { what, ...(what !== 'seat' && { needed_mm: needsMm }), off_mm: hasMm },
    };
  },
  keep: ({ hole }) => hole.name,
  mend: (name, { tree }) => [change('Make it on the mill', removeField(tree, name, 'made-on'))],
});
