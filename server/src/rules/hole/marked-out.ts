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
import { MARKED_PAGE } from './press-words';

interface Hit {
  readonly hole: Hole;
  readonly span: Span;
  readonly what: 'position' | 'place' | 'squareness' | 'seat';
  readonly needsMm: number;
  readonly hasMm: number;
}

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
  ...MARKED_PAGE,
  severity: 'warning',
  limits: [],
  good: edited(MARKED_PAGE.bad, ['position: 0.2', 'position: 0.5'], ['tolerance: ISO 2768-m', 'tolerance: ISO 2768-c']),
  find,
  tell({ hole, span, what, needsMm, hasMm }, { part, about }) {
    const { name: on } = hole.madeOn!;
    const [needs, has] = [about(needsMm, hasMm), about(hasMm, needsMm)];
    const lean = isAtBench(hole) ? 'A tap or reamer started by hand' : `A hole drilled on ${on}`;
    const said = {
      position: `may be ${needs} off its place. Marked out on ${on} it may be ${has} off. Make it on the mill, through a drill jig, or allow more.`,
      place: `may be ${needs} off by the drawing. Marked out on ${on} it may be ${has} off. Make it on the mill, through a drill jig, or allow more.`,
      squareness: `must be square within ${needs}. ${lean} is off by ${has} over its length. Make it on the mill, or allow more.`,
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
