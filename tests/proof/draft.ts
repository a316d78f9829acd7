/** What drawn features have in common: faces and places, sizes, patterns, leaning. */
import fc from 'fast-check';

export interface Size {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
export type Axis = keyof Size;
export type FaceName = 'top' | 'bottom' | 'left' | 'right' | 'front' | 'back';
export const FACES: readonly FaceName[] = ['top', 'front', 'left', 'bottom', 'back', 'right'];
export const PLANE: Readonly<Record<FaceName, readonly [Axis, Axis]>> = {
  top: ['x', 'y'],
  bottom: ['x', 'y'],
  front: ['x', 'z'],
  back: ['x', 'z'],
  left: ['y', 'z'],
  right: ['y', 'z'],
};
export const NORMAL: Readonly<Record<FaceName, Axis>> = {
  top: 'z',
  bottom: 'z',
  front: 'y',
  back: 'y',
  left: 'x',
  right: 'x',
};

/** `least` … `most` mm: on a grid of halves, or off it. */
export const mm = (least: number, most: number): fc.Arbitrary<number> =>
  fc.oneof(
    fc.integer({ min: Math.ceil(least * 2), max: Math.floor(most * 2) }).map((n) => n / 2),
    fc.integer({ min: Math.ceil(least * 100), max: Math.floor(most * 100) }).map((n) => n / 100),
  );
/** A share of something, in hundredths. */
export const share = fc.integer({ min: 10, max: 90 }).map((n) => n / 100);
export const round = (n: number) => Math.round(n * 100) / 100;

/** A feature's lines of YAML, given its body; its name and its hosts come from its place in the list. */
export type Draft = (
  size: Size,
  name: string,
  holes: readonly string[],
) => Readonly<Record<string, unknown>> | undefined;

export const face = fc.constantFrom(...FACES);
export const at = (f: FaceName, size: Size, [a, b]: readonly [number, number]) => {
  const [u, v] = PLANE[f];
  return { [u]: round(size[u] * a), [v]: round(size[v] * b) };
};
export const place = fc.tuple(share, share);
export const depth = fc.oneof(
  { weight: 4, arbitrary: share },
  { weight: 1, arbitrary: fc.constant('through' as const) },
);
export const deep = (f: FaceName, size: Size, d: number | 'through') =>
  d === 'through' ? d : round(size[NORMAL[f]] * d);

export const tilt = fc.option(
  fc.record({ along: fc.boolean(), angle: fc.integer({ min: -30, max: 30 }).filter((a) => a !== 0) }),
  { freq: 8 },
);
export const leaning = (f: FaceName, t: { along: boolean; angle: number } | null) =>
  t ? { tilt: { about: PLANE[f][t.along ? 0 : 1], angle: t.angle } } : {};

export const pattern = fc.option(
  fc.oneof(
    fc.record({ type: fc.constant('line' as const), pitch: mm(3, 16), count: fc.integer({ min: 2, max: 3 }) }),
    fc.record({ type: fc.constant('ring' as const), pitch: mm(8, 20), count: fc.integer({ min: 2, max: 4 }) }),
  ),
  { freq: 4 },
);
export const patterned = (f: FaceName, p: { type: 'line' | 'ring'; pitch: number; count: number } | null) => {
  if (!p) return {};
  if (p.type === 'ring') return { pattern: { 'bolt-circle': { diameter: p.pitch, count: p.count, start: 17 } } };
  return { pattern: { line: { [PLANE[f][0]]: p.pitch, count: p.count } } };
};
