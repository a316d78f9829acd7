/** What was touched: a face or an edge, alone with its own size and the wall behind it, or two with what lies between them. */
import type { Shown } from '../../geometry/mesh/display';
import { type ExactShape, normalAt } from '../../geometry/mesh/surface';
import type { Vec3 } from '../../geometry/types';
import { add, cross, distance, dot, length, scale, sub } from '../../geometry/vector';
import { formatLength } from '../../text/format';
import { SAME } from '../../tolerance';
import { type ExactEdge, edgeAt } from './exact-edge';
import { hitBehind } from './hit-behind';
import { measureBetween } from './measure';
import type { Measured, MeasureRequest } from './protocol';

interface Touched {
  readonly shape: ExactShape;
  readonly at: Vec3;
  readonly edge?: ExactEdge;
}

type Asked = Pick<MeasureRequest, 'a' | 'b' | 'atA' | 'atB' | 'edgeA' | 'edgeB'>;

/** Null where the picture has no such face or edge. */
export function measured(made: Shown, asked: Asked, units: 'mm' | 'in'): Measured | null {
  const { a, b, atA, atB, edgeA, edgeB } = asked;
  const first = touchedAt(made, a, atA, edgeA);
  const second = touchedAt(made, b, atB, edgeB);
  if (!first || !second) return null;
  const mm = (x: number) => formatLength(Number(x.toFixed(6)), units);
  if (first === 'curve' || second === 'curve')
    return { text: 'This edge is neither straight nor a circle: press the faces beside it.' };
  const alone = a === b && edgeA === edgeB && distance(atA, atB) < SAME;
  if (alone) return first.edge ? edgeAlone(first.edge, mm) : faceAlone(made, a, first, mm);
  const found = measureBetween(first.shape, first.at, second.shape, second.at, units);
  return { ...found, text: named(found.text, [first, second]) };
}

function touchedAt(made: Shown, surface: number, at: Vec3, stretch: number | undefined): Touched | 'curve' | undefined {
  const shape = made.surfaces[surface]?.shape;
  if (!shape) return undefined;
  if (stretch === undefined) return { shape, at };
  const edge = edgeAt(made, stretch);
  return edge ? { shape: asShape(edge), at, edge } : 'curve';
}

/** A circle as the cylinder that it is the rim of; a line as something about an axis, as wide as nothing. */
function asShape(edge: ExactEdge): ExactShape {
  if (edge.type === 'circle') {
    const { axis, centre, radiusMm } = edge;
    return { type: 'cylinder', axis, through: centre, radiusMm, sense: 1 };
  }
  return { type: 'ring', axis: edge.along, centre: edge.through, majorMm: 0, minorMm: 0, sense: 1 };
}

/** Of edges it is said as of edges. */
function named(text: string, touched: readonly Touched[]): string {
  const lines = touched.filter((t) => t.edge?.type === 'line').length;
  if (lines === 0) return text;
  return lines === 2
    ? text.replace(/\baxes\b/, 'edges').replace(/\bon one axis\b/, 'on one line')
    : text
        .replace(/\baxes\b/, 'edge and axis')
        .replace(/\bthe axis\b/, 'the edge')
        .replace(/^axis\b/, 'edge');
}

function edgeAlone(edge: ExactEdge, mm: (x: number) => string): Measured {
  if (edge.type === 'line') {
    const distanceMm = distance(...edge.ends);
    return { text: `edge, ${mm(distanceMm)} long`, distanceMm, at: edge.ends };
  }
  const { centre, axis, radiusMm } = edge;
  const side = across(axis);
  const ends = [add(centre, side, -radiusMm), add(centre, side, radiusMm)] as const;
  return { text: `circle, diameter ${mm(2 * radiusMm)}`, distanceMm: 2 * radiusMm, at: ends };
}

/** Some direction square to an axis. */
function across(axis: Vec3): Vec3 {
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(axis[i]!) < Math.abs(axis[k]!) ? i : k), 0);
  const b = cross(axis, [least === 0 ? 1 : 0, least === 1 ? 1 : 0, least === 2 ? 1 : 0]);
  return scale(b, 1 / length(b));
}

function faceAlone(made: Shown, surface: number, { shape, at }: Touched, mm: (x: number) => string): Measured {
  const own = shape.type === 'cylinder' ? `diameter ${mm(2 * shape.radiusMm)}` : undefined;
  const out = normalAt(shape, at);
  const hit = out && hitBehind(made, surface, at, scale(out, -1));
  const wall = hit && wallOf(shape, at, out, made.surfaces[hit.surface]!.shape);
  const thick = wall && `${mm(wall.mm)} of material behind it`;
  const text = [own, thick].filter((t) => t !== undefined).join(', ') || 'a face: press another';
  return {
    text,
    ...(wall
      ? { distanceMm: wall.mm, at: wall.at }
      : own
        ? { distanceMm: 2 * (shape as { radiusMm: number }).radiusMm }
        : {}),
  };
}

/** From an exact face straight through the material to an exact one; undefined where that is not told in closed form. */
function wallOf(
  shape: ExactShape,
  at: Vec3,
  out: Vec3,
  behind: ExactShape,
): { readonly mm: number; readonly at: readonly [Vec3, Vec3] } | undefined {
  const from = onto(shape, at, out);
  const into = scale(out, -1);
  const t = along(behind, from, into);
  return t !== undefined && t > SAME ? { mm: t, at: [from, add(from, into, t)] } : undefined;
}

function onto(shape: ExactShape, at: Vec3, out: Vec3): Vec3 {
  if (shape.type === 'plane') return add(at, out, shape.offsetMm - dot(shape.normal, at));
  if (shape.type !== 'cylinder') return at;
  const d = sub(at, shape.through);
  const foot = add(shape.through, shape.axis, dot(d, shape.axis));
  return add(foot, out, shape.sense * shape.radiusMm);
}

/** How far a ray goes to a plane or a cylinder. */
function along(shape: ExactShape, from: Vec3, way: Vec3): number | undefined {
  if (shape.type === 'plane') return (shape.offsetMm - dot(shape.normal, from)) / dot(shape.normal, way);
  if (shape.type !== 'cylinder') return undefined;
  const flat = (v: Vec3) => sub(v, scale(shape.axis, dot(v, shape.axis)));
  const [d, w] = [flat(sub(from, shape.through)), flat(way)];
  const [a, b, c] = [dot(w, w), dot(d, w), dot(d, d) - shape.radiusMm ** 2];
  const root = b * b - a * c;
  if (a < SAME || root < 0) return undefined;
  const [near, far] = [(-b - Math.sqrt(root)) / a, (-b + Math.sqrt(root)) / a];
  return near > SAME ? near : far;
}
