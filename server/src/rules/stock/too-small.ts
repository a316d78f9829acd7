import type { Solid, Vec3 } from '../../geometry/types';
import { type Axis, type Face, OPPOSITE, type Part } from '../../model/model';
import { at, entry } from '../../text/tree';
import { setLength } from '../kit/edits';
import { fact } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { setExtra } from './extra';

export const tooSmall: Rule = {
  name: 'stock/too-small',
  severity: 'error',
  summary: 'The finished part does not fit into its stock.',
  why: 'What is not in the bar cannot be cut from it: the corners come out rounded, or the saw has already cut into the part.',
  formula:
    'A round bar must hold the farthest material of the finished part from its axis: for a full body a × b across the bar, sqrt(a² + b²) (`needed_mm`). No face may have less than nothing outside the body. A square bar must be square: both sizes across it, extras included, the same.',
  limits: [],
  bad: `part: hub
units: mm
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 20 }
stock:
  form: round-bar
  diameter: 40
  axis: z
  sawn: [bottom, top]
  extra: { bottom: 3, top: 3 }
features:
  bore:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 10
    depth: through
`,
  good: `part: hub
units: mm
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 20 }
stock:
  form: round-bar
  diameter: 45
  axis: z
  sawn: [bottom, top]
  extra: { bottom: 3, top: 3 }
features:
  bore:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 10
    depth: through
`,
  *find(context): Iterable<Finding> {
    if (!context.part.stock.written) return;
    yield* negative(context);
    if (context.part.stock.form === 'round-bar') yield* roundBar(context);
    if (context.part.stock.form === 'square-bar') yield* squareBar(context);
  },
  mends: 'The next whole diameter that holds the part; no negative extra; `flat-bar` for a bar that is not square.',
  *mend(finding, context): Iterable<Fix> {
    const { part, tree, length } = context;
    const { needed_mm: needed, extra_mm: less } = finding.facts;
    if (typeof less === 'number') {
      const edit = setExtra(finding.of[0] as Face, 0, context);
      if (edit) yield { title: `Leave nothing outside the ${finding.of[0]} face`, safe: false, edits: [edit] };
    } else if (typeof needed === 'number') {
      const grid = part.units === 'in' ? 25.4 / 8 : 5;
      for (const to of [Math.ceil(needed / grid) * grid, Math.ceil(needed)]) {
        const edit = setLength(part.stock.diameter, to, part);
        if (edit) yield { title: `Take a bar of ${length(to)}`, safe: false, edits: [edit] };
      }
    } else {
      const form = entry(at(tree.root, 'stock'), 'form')?.value;
      if (form)
        yield { title: 'Write `form: flat-bar`', safe: false, edits: [{ span: form.span, newText: 'flat-bar' }] };
    }
  },
};

const RULE = 'stock/too-small' as const;

function* negative({ part, length }: RuleContext): Iterable<Finding> {
  for (const [face, extra] of Object.entries(part.stock.extra)) {
    if (!extra || extra.mm >= 0) continue;
    yield {
      rule: RULE,
      severity: 'error',
      message: `The stock ends ${length(-extra.mm)} inside the ${face} face of the finished body: that much of the part is not there. Nothing, or some to clean up, would do.`,
      of: [face],
      span: extra.span,
      related: part.body ? [{ span: part.body.span, message: 'the finished body' }] : [],
      facts: { extra_mm: fact(extra.mm) },
    };
  }
}

function* roundBar({ part, solid, length }: RuleContext): Iterable<Finding> {
  const diameter = part.stock.diameter;
  const body = part.body;
  if (!diameter || !body) return;
  const axis = part.stock.axis ?? (body.form === 'round' ? body.axis : longest(part));
  const needed =
    body.form === 'round' && body.axis === axis ? body.diameter.mm : neededMm(part, solid, axis, diameter.mm);
  if (needed <= diameter.mm + 1e-6) return;
  const [a, b] = acrossOf(part, axis);
  yield {
    rule: RULE,
    severity: 'error',
    message: `A bar of ${length(diameter.mm)} does not hold the part, which is ${length(a)} × ${length(b)} across it: its farthest material needs ${length(needed)}, ${length(needed - diameter.mm)} more.`,
    of: [],
    span: diameter.from ? part.stock.span : diameter.span,
    related: [{ span: body.span, message: 'the finished body' }],
    facts: {
      diameter_mm: fact(diameter.mm),
      needed_mm: fact(needed),
      missing_mm: fact(needed - diameter.mm),
      a_mm: fact(a),
      b_mm: fact(b),
    },
  };
}

const AXES: readonly Axis[] = ['x', 'y', 'z'];

function longest(part: Part): Axis {
  return AXES.reduce((best, a, i) => (part.size[i]! > part.size[AXES.indexOf(best)]! ? a : best), 'x' as Axis);
}
function acrossOf(part: Part, axis: Axis): readonly [number, number] {
  const [a, b] = AXES.filter((x) => x !== axis).map((x) => part.size[AXES.indexOf(x)]!);
  return [a!, b!];
}

/** Probes across a corner zone, and along the bar. */
const ACROSS = 25;
const ALONG = 15;

/**
 * Twice the distance from the bar's axis (the middle of the body) to the farthest material, mm. Corners that a contour
 * or a step takes away need no bar. Where a corner is there in full it is the corner's own distance; else the
 * farthest probe that hits material, plus what a probe may miss.
 */
function neededMm(part: Part, solid: Solid, axis: Axis, barMm: number): number {
  const [a, b] = acrossOf(part, axis);
  const corner = Math.hypot(a, b);
  if (corner <= barMm) return corner;
  const k = AXES.indexOf(axis);
  const [i, j] = [0, 1, 2].filter((n) => n !== k) as [number, number];
  const [du, dv] = [a / (2 * ACROSS), b / (2 * ACROSS)];
  let farthest = 0;
  for (let s = 0; s < ALONG; s++) {
    for (let u = 0; u < ACROSS; u++) {
      for (let v = 0; v < ACROSS; v++) {
        // From the corner inward: the first row stands a hair inside the skin.
        const [x, y] = [a / 2 - (u === 0 ? 1e-3 : u * du), b / 2 - (v === 0 ? 1e-3 : v * dv)];
        const reach = 2 * Math.hypot(x, y);
        if (reach <= Math.max(barMm, farthest)) continue;
        for (const [sx, sy] of [
          [1, 1],
          [1, -1],
          [-1, 1],
          [-1, -1],
        ] as const) {
          const p: [number, number, number] = [0, 0, 0];
          p[i] = a / 2 + sx * x;
          p[j] = b / 2 + sy * y;
          p[k] = ((s + 0.5) / ALONG) * part.size[k]!;
          if (solid.isMaterial(p as Vec3)) farthest = Math.max(farthest, reach);
        }
      }
    }
  }
  return farthest > corner - 0.01 ? corner : farthest;
}

function* squareBar({ part, length }: RuleContext): Iterable<Finding> {
  const sawn = part.stock.sawn.map((s) => s.name);
  const end = sawn.find((f) => sawn.includes(OPPOSITE[f]));
  const axis = end
    ? end === 'left' || end === 'right'
      ? 'x'
      : end === 'front' || end === 'back'
        ? 'y'
        : 'z'
    : longest(part);
  const extra = (f: Face) => part.stock.extra[f]?.mm ?? 0;
  const sides = { x: ['left', 'right'], y: ['front', 'back'], z: ['bottom', 'top'] } as const;
  const [a, b] = AXES.filter((x) => x !== axis).map(
    (x) => part.size[AXES.indexOf(x)]! + extra(sides[x][0]) + extra(sides[x][1]),
  );
  if (Math.abs(a! - b!) < 1e-6) return;
  yield {
    rule: RULE,
    severity: 'warning',
    message: `This stock is a square bar, but with what stands outside the body it is ${length(a!)} × ${length(b!)} across ${axis}. Name the extra that makes it square, or write \`form: flat-bar\`.`,
    of: [],
    span: part.stock.span,
    related: part.body ? [{ span: part.body.span, message: 'the finished body' }] : [],
    facts: { a_mm: fact(a!), b_mm: fact(b!) },
  };
}
