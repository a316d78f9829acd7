import type { Solid, Vec3 } from '../../geometry/types';
import { type Axis, type Face, OPPOSITE, type Part } from '../../model/model';
import { at, entry } from '../../text/tree';
import { HAIR, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { fact } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { missingOfBlank } from './blank';
import { setExtra } from './extra';

const BAD = `part: hub
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
`;

export const tooSmall: Rule = defineRule({
  name: 'stock/too-small',
  severity: 'error',
  summary: 'The finished part does not fit into its stock.',
  why: 'What is not in the bar cannot be cut from it. The corners come out rounded, or the saw has already cut into the part.',
  formula:
    'A round bar must hold the farthest finished material from its axis. For a full body a × b that is sqrt(a² + b²). No face may have a negative extra. A square bar must be square: both sizes of its section are the same, extras included. What was cut from a blank may not be material of the part.',
  bounds: 'Geometry: the stock must hold the finished part.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['diameter: 40', 'diameter: 45']),
  *find(context): Generator<Short> {
    if (!context.part.stock.written) return;
    const { blank } = context.part.stock;
    if (blank) for (const report of missingOfBlank(context, blank)) yield { report };
    else yield* negative(context);
    if (context.part.stock.diameter) yield* roundBar(context);
    if (context.part.stock.form === 'square-bar') yield* squareBar(context);
  },
  tell({ report: told }, { part }) {
    return { related: [part.body && { span: part.body.span, message: 'the finished body' }], ...told };
  },
  mends: 'Use the next whole diameter that holds the part, no negative extra, or `flat-bar` where it is not square.',
  keep: ({ face, neededMm }) => ({ face, neededMm }),
  *mend({ face, neededMm }, context) {
    const { part, tree, length } = context;
    if (face) yield change(`Leave nothing outside the ${face} face`, setExtra(face, 0, context));
    else if (neededMm !== undefined) {
      const grid = part.units === 'in' ? 25.4 / 8 : 5;
      for (const to of [Math.ceil(neededMm / grid) * grid, Math.ceil(neededMm)])
        yield change(`Use a bar of ${length(to)}`, setLength(part.stock.diameter, to, part));
    } else {
      const form = entry(at(tree.root, 'stock'), 'form')?.value;
      yield change('Write `form: flat-bar`', form && { span: form.span, newText: 'flat-bar' });
    }
  },
});

/** A face that ends inside the body, a round bar that is too thin, a square bar that is none. */
interface Short {
  readonly report: Told;
  readonly face?: Face;
  readonly neededMm?: number;
}

function* negative({ part, length }: RuleContext): Generator<Short> {
  for (const [face, extra] of Object.entries(part.stock.extra)) {
    if (!extra || extra.mm >= 0) continue;
    const told = {
      message: `The stock ends ${length(-extra.mm)} inside the ${face} face of the body. That much of the part is missing. Leave nothing, or some stock to clean up.`,
      of: [face],
      span: extra.span,
      facts: { extra_mm: extra.mm },
    };
    yield { report: told, face: face as Face };
  }
}

function* roundBar({ part, solid, length, about }: RuleContext): Generator<Short> {
  const diameter = part.stock.diameter;
  const body = part.body;
  if (!diameter || !body) return;
  const axis = part.stock.axis ?? (body.form === 'round' ? body.axis : longest(part));
  const needed =
    body.form === 'round' && body.axis === axis ? body.diameter.mm : neededMm(part, solid, axis, diameter.mm);
  if (needed <= diameter.mm + SAME) return;
  const [a, b] = acrossOf(part, axis);
  const told = {
    message: `A bar of ${length(diameter.mm)} does not hold a part of ${length(a)} × ${length(b)}. Its farthest material needs a diameter of ${about(needed, diameter.mm)}. Use a bar of ${length(Math.ceil(needed - SAME))} or more.`,
    has: length(diameter.mm),
    needs: about(needed, diameter.mm),
    of: [],
    span: diameter.from ? part.stock.span : diameter.span,
    facts: {
      diameter_mm: diameter.mm,
      needed_mm: needed,
      missing_mm: needed - diameter.mm,
      a_mm: a,
      b_mm: b,
    },
  };
  yield { report: told, neededMm: fact(needed) };
}

const AXES: readonly Axis[] = ['x', 'y', 'z'];

function longest(part: Part): Axis {
  return AXES.reduce((best, a, i) => (part.size[i]! > part.size[AXES.indexOf(best)]! ? a : best), 'x' as Axis);
}
function acrossOf(part: Part, axis: Axis): readonly [number, number] {
  const [a, b] = AXES.filter((x) => x !== axis).map((x) => part.size[AXES.indexOf(x)]!);
  return [a!, b!];
}

const CORNERS = [
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
] as const;
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
        const [x, y] = [a / 2 - (u === 0 ? HAIR : u * du), b / 2 - (v === 0 ? HAIR : v * dv)];
        const reach = 2 * Math.hypot(x, y);
        if (reach <= Math.max(barMm, farthest)) continue;
        const isThere = CORNERS.some(([sx, sy]) => {
          const p: [number, number, number] = [0, 0, 0];
          p[i] = a / 2 + sx * x;
          p[j] = b / 2 + sy * y;
          p[k] = ((s + 0.5) / ALONG) * part.size[k]!;
          return solid.isMaterial(p as Vec3);
        });
        if (isThere) farthest = reach;
      }
    }
  }
  return farthest > corner - 0.01 ? corner : farthest;
}

function* squareBar({ part, length }: RuleContext): Generator<Short> {
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
  if (Math.abs(a! - b!) < SAME) return;
  const told: Told = {
    severity: 'warning',
    message: `This stock is a square bar, but with its extra it is ${length(a!)} × ${length(b!)} square to ${axis}. Write the extra that makes it square, or \`form: flat-bar\`.`,
    of: [],
    span: part.stock.span,
    facts: { a_mm: a, b_mm: b },
  };
  yield { report: told };
}
