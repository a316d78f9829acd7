/**
 * The same part said otherwise: turned so that another face is up, mirrored, in inches, with parameters for numbers, its
 * features in another order. Works on the text's plain values, and knows the format only from its description.
 */
import { parse, stringify } from 'yaml';

type Axis = 'x' | 'y' | 'z';
export type FaceName = 'left' | 'right' | 'front' | 'back' | 'bottom' | 'top';
type Value = unknown;
type Fields = Record<string, Value>;

export const AXES: readonly Axis[] = ['x', 'y', 'z'];
const ENDS: Readonly<Record<Axis, readonly [FaceName, FaceName]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};
const FACE_OF = Object.fromEntries(
  AXES.flatMap((axis) => ENDS[axis].map((face, high) => [face, { axis, high }])),
) as Record<FaceName, { axis: Axis; high: number }>;
const isAxis = (key: string): key is Axis => key in ENDS;
export const isFace = (key: unknown): key is FaceName => typeof key === 'string' && key in FACE_OF;

/** Where each part axis goes, and whether it runs the other way there. One of 48: 24 turns, 24 with a mirror. */
export type Turn = Readonly<Record<Axis, { readonly to: Axis; readonly sign: 1 | -1 }>>;

export const TURNS: readonly Turn[] = (
  [
    ['x', 'y', 'z'],
    ['y', 'z', 'x'],
    ['z', 'x', 'y'],
    ['y', 'x', 'z'],
    ['x', 'z', 'y'],
    ['z', 'y', 'x'],
  ] as const
).flatMap(([x, y, z]) =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((n): Turn => {
    const sign = (bit: number) => (n & bit ? -1 : 1);
    return { x: { to: x, sign: sign(1) }, y: { to: y, sign: sign(2) }, z: { to: z, sign: sign(4) } };
  }),
);

/** +1 for a turn, −1 for one with a mirror. */
export function handOf(t: Turn): 1 | -1 {
  const order = AXES.map((a) => t[a].to).join('');
  const even = ['xyz', 'yzx', 'zxy'].includes(order) ? 1 : -1;
  return (even * t.x.sign * t.y.sign * t.z.sign) as 1 | -1;
}

export function turnedFace(t: Turn, face: FaceName): FaceName {
  const { axis, high } = FACE_OF[face];
  const { to, sign } = t[axis];
  return ENDS[to][sign > 0 ? high : 1 - high]!;
}

/** A point of the part of this size, mm. */
export function turnedPoint(t: Turn, p: readonly number[], size: Readonly<Record<Axis, number>>): number[] {
  const out = [0, 0, 0];
  AXES.forEach((a, i) => {
    out[AXES.indexOf(t[a].to)] = t[a].sign > 0 ? p[i]! : size[a] - p[i]!;
  });
  return out;
}

/** The two axes of a face's plane, in the order of the alphabet: angles run from the first to the second. */
function planeOf(face: FaceName): readonly [Axis, Axis] {
  return AXES.filter((a) => a !== FACE_OF[face].axis) as unknown as readonly [Axis, Axis];
}

export function turnedText(text: string, t: Turn): string {
  const part = parse(text) as Fields;
  const body = part.body as Fields;
  const size = sizeOf(body);
  const out: Fields = { ...part, body: turnedBody(t, body) };
  if (part.stock) out.stock = turnedStock(t, part.stock as Fields);
  if (part.features) {
    const features = Object.entries(part.features as Record<string, Fields>);
    const faces = new Map(features.map(([name, f]) => [name, f.face as FaceName]));
    out.features = Object.fromEntries(features.map(([name, f]) => [name, turnedFeature(t, f, size, faces)]));
  }
  if (part.setups) {
    const setups = Object.entries(part.setups as Record<string, Fields>);
    out.setups = Object.fromEntries(setups.map(([name, s]) => [name, turnedSetup(t, s)]));
  }
  return written(out);
}

function sizeOf(body: Fields): Record<Axis, number> {
  if (!('diameter' in body)) return body as Record<Axis, number>;
  const of = (a: Axis) => (a === body.axis ? body.length : body.diameter) as number;
  return { x: of('x'), y: of('y'), z: of('z') };
}

function turnedBody(t: Turn, body: Fields): Fields {
  if ('diameter' in body) return { ...body, axis: t[body.axis as Axis].to };
  return Object.fromEntries(AXES.map((a) => [t[a].to, body[a]]));
}

const face1 = (t: Turn, v: Value): Value =>
  isFace(v) ? turnedFace(t, v) : typeof v === 'string' && isAxis(v) ? t[v].to : v;
const faces = (t: Turn, v: Value): Value => (Array.isArray(v) ? v.map((x) => faces(t, x)) : face1(t, v));

function turnedStock(t: Turn, stock: Fields): Fields {
  const out: Fields = { ...stock, sawn: faces(t, stock.sawn ?? []) };
  if (stock.extra) {
    out.extra = Object.fromEntries(Object.entries(stock.extra as Fields).map(([k, v]) => [face1(t, k), v]));
  }
  return out;
}

function turnedSetup(t: Turn, s: Fields): Fields {
  const hold = s.hold as Fields;
  return {
    ...s,
    up: faces(t, s.up),
    hold: { ...hold, jaws: faces(t, hold.jaws), ...(hold.stop ? { stop: faces(t, hold.stop) } : {}) },
    ...(s.zero ? { zero: turnedZero(t, s.zero as Fields) } : {}),
    cuts: faces(t, s.cuts),
  };
}

/** What each axis is set from: faces, features, the parallels. */
function turnedZero(t: Turn, zero: Fields): Fields {
  return Object.fromEntries(Object.entries(zero).map(([k, v]) => (isAxis(k) ? [t[k].to, faces(t, v)] : [k, v])));
}

/** True where letters still run along the part axis that they must run along, on every face they are on. */
export function keepsLetters(t: Turn, text: string): boolean {
  const features = Object.values((parse(text) as { features?: Record<string, Fields> }).features ?? {});
  return features.every((f) => {
    if (f.kind !== 'engraving') return true;
    const face = f.face as FaceName;
    return t[planeOf(face)[0]].to === planeOf(turnedFace(t, face))[0];
  });
}

type Size = Readonly<Record<Axis, number>>;

/** In part axes, from the body's corner. */
function turnedPlace(t: Turn, place: Fields, size: Size): Fields {
  return Object.fromEntries(
    Object.entries(place).map(([key, v]): [string, Value] => {
      if (isFace(key)) return [turnedFace(t, key), v];
      if (key === 'arc') return [key, turnedPlace(t, v as Fields, size)];
      if (!isAxis(key)) return [key, v];
      const { to, sign } = t[key];
      if (sign > 0 || typeof v !== 'number') return [to, v];
      return [to, size[key] - v];
    }),
  );
}

/** From where its feature is. */
function turnedOffset(t: Turn, place: Fields): Fields {
  return turnedPlace(t, place, { x: 0, y: 0, z: 0 });
}

function keyed(t: Turn, fields: Fields): Fields {
  return Object.fromEntries(Object.entries(fields).map(([k, v]) => [isAxis(k) ? t[k].to : k, v]));
}

/** An angle in a face's plane, degrees, of a direction. */
function turnedAngle(t: Turn, face: FaceName, deg: number): number {
  const [u, v] = planeOf(face);
  const a = (deg * Math.PI) / 180;
  const [first] = planeOf(turnedFace(t, face));
  const along = { [t[u].to]: t[u].sign * Math.cos(a), [t[v].to]: t[v].sign * Math.sin(a) };
  const second = planeOf(turnedFace(t, face))[1];
  return (Math.atan2(along[second]!, along[first]!) * 180) / Math.PI;
}

/** How far a shape is turned in its plane, degrees: its sizes go with the axes they are named by. */
function turnedRotation(t: Turn, face: FaceName, deg: number): number {
  const [u, v] = planeOf(face);
  const [first] = planeOf(turnedFace(t, face));
  return deg * t[u].sign * t[v].sign * (t[u].to === first ? 1 : -1);
}

function turnedPattern(t: Turn, pattern: Fields, face: FaceName, size: Size): Fields {
  const out: Fields = {};
  for (const [kind, value] of Object.entries(pattern)) {
    if (kind === 'places') out[kind] = (value as Fields[]).map((p) => turnedPlace(t, p, size));
    else if (kind === 'bolt-circle') {
      const circle = value as Fields;
      out[kind] = { ...circle, start: turnedAngle(t, face, (circle.start as number) ?? 0) };
    } else out[kind] = keyed(t, value as Fields);
  }
  return out;
}

function turnedFeature(t: Turn, f: Fields, size: Size, faceOf: ReadonlyMap<string, FaceName>): Fields {
  const face = (f.face ?? faceOf.get(f.in as string)) as FaceName;
  const corners = (path: Value) => (path as Fields[]).map((c) => (f.at ? turnedOffset(t, c) : turnedPlace(t, c, size)));
  const out: Fields = {};
  for (const [key, v] of Object.entries(f)) {
    if (key === 'face') out[key] = turnedFace(t, v as FaceName);
    else if (key === 'at') out[key] = turnedPlace(t, v as Fields, size);
    else if (key === 'pattern') out[key] = turnedPattern(t, v as Fields, face, size);
    else if (key === 'size' && typeof v === 'object') out[key] = keyed(t, v as Fields);
    else if (key === 'rotate') out[key] = turnedRotation(t, face, v as number);
    else if (key === 'path' || (key === 'ends' && Array.isArray(v))) out[key] = corners(v);
    else if (key === 'along' || key === 'edges') out[key] = faces(t, v);
    else if (key === 'tilt') {
      const { about, angle } = v as { about: Axis; angle: number };
      out[key] = { about: t[about].to, angle: angle * t[about].sign * handOf(t) };
    } else if (key === 'islands') {
      const islands = Object.entries(v as Record<string, Fields>);
      out[key] = Object.fromEntries(islands.map(([n, i]) => [n, turnedIsland(t, i, size)]));
    } else out[key] = v;
  }
  return out;
}

function turnedIsland(t: Turn, island: Fields, size: Size): Fields {
  const out: Fields = { ...island, at: turnedPlace(t, island.at as Fields, size) };
  if (island.size) out.size = keyed(t, island.size as Fields);
  return out;
}

/** Numbers under these keys are no lengths. */
const NO_LENGTH = new Set(['angle', 'rotate', 'start', 'count', 'point', 'quantity', 'finish']);

/** Every length of the part, whatever it belongs to, as another value. */
function lengths(value: Value, as: (mm: number) => Value, key = ''): Value {
  if (typeof value === 'number') return NO_LENGTH.has(key) ? value : as(value);
  if (Array.isArray(value)) return value.map((v) => lengths(v, as, key));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, lengths(v, as, k)]));
}

export function inInches(text: string): string {
  const part = parse(text) as Fields;
  return written({ ...(lengths(part, (mm) => mm / 25.4) as Fields), units: 'in' });
}

export function withParameters(text: string): string {
  const names = new Map<number, string>();
  const name = (mm: number) => {
    const known = names.get(mm);
    if (known) return known;
    const made = `l${names.size + 1}`;
    names.set(mm, made);
    return made;
  };
  const part = lengths(parse(text), name) as Fields;
  const { features, ...head } = part;
  const parameters = Object.fromEntries([...names].map(([mm, n]) => [n, mm]));
  return written({ ...head, ...(names.size > 0 ? { parameters } : {}), features });
}

/** In the opposite order; undefined where one feature speaks of another. */
export function reversedOrder(text: string): string | undefined {
  const part = parse(text) as Fields;
  const features = Object.entries((part.features ?? {}) as Record<string, Fields>);
  const speaks = ([, f]: [string, Fields]) => 'from' in f || 'in' in f || JSON.stringify(f.edges ?? '').includes('rim');
  if (features.some(speaks) || features.length < 2) return undefined;
  return written({ ...part, features: Object.fromEntries(features.reverse()) });
}

function written({ features, ...head }: Fields): string {
  return stringify(features ? { ...head, features } : head, { lineWidth: 0, aliasDuplicateObjects: false });
}
