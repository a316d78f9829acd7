/** Places as a row, rows and columns, or a circle, where they stand so; else none. */
import { type Axis, FACE_PLANE, type Face, type Part, type Place } from '../../model/model';
import { SAME } from '../../tolerance';

type Point = Pick<Place, 'u' | 'v'>;
const AXES: readonly Axis[] = ['x', 'y', 'z'];
/** An inch's digits and a millimetre's, so that a place is the same to `SAME`. */
const DIGITS = 7;

export function patternText(
  points: readonly Point[],
  face: Face,
  part: Part,
): { readonly pattern: string; readonly at: string } | undefined {
  const [u, v] = FACE_PLANE[face];
  const [us, vs] = [distinct(points.map((p) => p.u)), distinct(points.map((p) => p.v))];
  const [pu, pv] = [pitch(us), pitch(vs)];
  const at = placeText({ u: (us[0]! + us.at(-1)!) / 2, v: (vs[0]! + vs.at(-1)!) / 2 }, face, part);
  const size = (mm: number) => number(mm, part);
  const n = points.length;
  if (vs.length === 1 && us.length === n && pu) return { at, pattern: `{ line: { ${u}: ${size(pu)}, count: ${n} } }` };
  if (us.length === 1 && vs.length === n && pv) return { at, pattern: `{ line: { ${v}: ${size(pv)}, count: ${n} } }` };
  if (us.length * vs.length !== n || !pu || !pv) return circleText(points, face, part);
  const row = (axis: Axis, step: number, count: number) => `${axis}: { pitch: ${size(step)}, count: ${count} }`;
  return { at, pattern: `{ grid: { ${row(u, pu, us.length)}, ${row(v, pv, vs.length)} } }` };
}

function circleText(points: readonly Point[], face: Face, part: Part): { pattern: string; at: string } | undefined {
  const n = points.length;
  if (n < 3) return undefined;
  const [u, v] = [mean(points.map((p) => p.u)), mean(points.map((p) => p.v))];
  const polar = points.map((p) => ({
    r: Math.hypot(p.u - u, p.v - v),
    deg: ((Math.atan2(p.v - v, p.u - u) * 180) / Math.PI + 360) % 360,
  }));
  const degrees = polar.map((p) => p.deg).sort((a, b) => a - b);
  const [first = 0] = degrees;
  const { r } = polar[0]!;
  if (polar.some((p) => Math.abs(p.r - r) > SAME)) return undefined;
  if (degrees.some((d, i) => Math.abs(d - first - (i * 360) / n) * r > SAME)) return undefined;
  const start = Math.abs(first) < SAME ? '' : `, start: ${Number(first.toFixed(DIGITS))}`;
  return {
    at: placeText({ u, v }, face, part),
    pattern: `{ bolt-circle: { diameter: ${number(2 * r, part)}, count: ${n}${start} } }`,
  };
}

/** A place on a face as it is written; the middle by its word. */
export function placeText({ u, v }: Point, face: Face, part: Part): string {
  const said = FACE_PLANE[face].map((axis, i) => {
    const mm = i === 0 ? u : v;
    const isMiddle = Math.abs(mm - part.size[AXES.indexOf(axis)]! / 2) < SAME / 10;
    return `${axis}: ${isMiddle ? 'center' : number(mm, part)}`;
  });
  return `{ ${said.join(', ')} }`;
}

function number(mm: number, { units }: Part): string {
  return String(Number((mm / (units === 'in' ? 25.4 : 1)).toFixed(DIGITS)));
}

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

function distinct(values: readonly number[]): readonly number[] {
  return [...values].sort((a, b) => a - b).filter((x, i, all) => i === 0 || x - all[i - 1]! > SAME);
}

/** From each to the next, where that is always the same. */
function pitch(values: readonly number[]): number | undefined {
  if (values.length < 2) return undefined;
  const step = (values.at(-1)! - values[0]!) / (values.length - 1);
  return values.every((x, i) => Math.abs(x - values[0]! - i * step) <= SAME) ? step : undefined;
}
