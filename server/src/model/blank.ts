/** How a blank lies round the part that is cut from it: its axes along those of the part, in quarter turns. */
import { type Axis, FACE_AXIS, type Face } from './faces';

type Index = 0 | 1 | 2;

/** For each axis of the part, in turn: the blank’s axis along it, and which way that runs. Never mirrored. */
export type Turn = readonly [Along, Along, Along];
interface Along {
  readonly axis: Index;
  readonly sign: 1 | -1;
}

/** A face of the part, and the face of the blank that lies there. */
export type FacePair = readonly [here: Face, there: Face];

const AXES: readonly Axis[] = ['x', 'y', 'z'];
type Three = readonly [number, number, number];

const normal = (face: Face): Three => {
  const { axis, sign } = FACE_AXIS[face];
  return AXES.map((a) => (a === axis ? sign : 0)) as unknown as Three;
};
const cross = (a: Three, b: Three): Three => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Three, b: Three) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Undefined where the pairs contradict each other, or leave open which way it lies. One pair: by the shortest turn. */
export function turnOf(pairs: readonly FacePair[]): Turn | undefined {
  const [first = ['top', 'top'] as const, second] = pairs;
  const [here, there] = [normal(first[0]), normal(first[1])];
  const more = second && ([normal(second[0]), normal(second[1])] as const);
  if (more && (dot(here, more[0]) !== 0 || dot(there, more[1]) !== 0)) return undefined;
  if (!more && dot(here, there) < 0) return undefined;
  const same = dot(here, there) > 0;
  // Without a second pair: a side that keeps its place; that is the turn’s own axis where there is one.
  const still: Three = same ? normal(FACE_AXIS[first[0]].axis === 'x' ? 'back' : 'right') : cross(there, here);
  const [here2, there2] = more ?? [still, still];
  const [here3, there3] = [cross(here, here2), cross(there, there2)];
  const turn = ([0, 1, 2] as const).map((i): Along => {
    const row = ([0, 1, 2] as const).map((k) => here[i]! * there[k]! + here2[i]! * there2[k]! + here3[i]! * there3[k]!);
    const axis = row.findIndex((n) => n !== 0) as Index;
    return { axis, sign: row[axis]! > 0 ? 1 : -1 };
  }) as unknown as Turn;
  return turn;
}

/** The blank’s sizes along the part’s axes. */
export function turnedSize(turn: Turn, size: Three): Three {
  return turn.map(({ axis }) => size[axis]) as unknown as Three;
}
