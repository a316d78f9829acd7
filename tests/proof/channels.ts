/** Drawn channels: slots of every foot, straight and bent, and keyways with either end. */
import fc from 'fast-check';
import { type Axis, at, type Draft, face, mm, NORMAL, PLANE, pattern, patterned, place, round, share } from './draft';

/** A rounding where a path bends that its sides have room for; none where there is hardly any. */
function fitting(
  a: Readonly<Record<string, number>>,
  b: Readonly<Record<string, number>>,
  c: Readonly<Record<string, number>>,
  [u, v]: readonly [Axis, Axis],
): number | undefined {
  const [p, q] = [a, b].map((end) => [end[u]! - c[u]!, end[v]! - c[v]!] as const) as [
    readonly [number, number],
    readonly [number, number],
  ];
  const [m, n] = [Math.hypot(...p), Math.hypot(...q)];
  const half = Math.acos(Math.max(-1, Math.min(1, (p[0] * q[0] + p[1] * q[1]) / (m * n)))) / 2;
  const most = round(Math.min(3, 0.8 * Math.min(m, n) * Math.tan(half)));
  return most >= 0.2 ? most : undefined;
}

export const slot: fc.Arbitrary<Draft> = fc
  .record({
    face,
    place,
    to: place,
    bend: fc.option(place, { freq: 3 }),
    width: mm(2, 9),
    depth: share,
    foot: fc.constantFrom('plain', 'plain', 'ball', 'fillet', 'tee', 'dovetail', 'sunk', 'bored'),
    out: fc.boolean(),
  })
  .map(
    (s): Draft =>
      (size) => {
        const [u, v] = PLANE[s.face];
        const a = at(s.face, size, s.place);
        const b = at(s.face, size, s.out ? [1.3, s.to[1]] : s.to);
        if (Math.hypot(a[u]! - b[u]!, a[v]! - b[v]!) < 3) return undefined;
        const c = s.bend ? at(s.face, size, s.bend) : undefined;
        const d = round(size[NORMAL[s.face]] * s.depth * 0.7 + 1);
        const rounding = c && fitting(a, b, c, PLANE[s.face]);
        const foot = {
          plain: {},
          ball: d >= s.width / 2 ? { 'floor-radius': s.width / 2 } : {},
          fillet: { 'floor-radius': round(Math.min(d, s.width / 2) * 0.6) },
          tee: { tee: { width: round(s.width * 1.8), height: round(d * 0.4) } },
          dovetail: { dovetail: { angle: 60 } },
          sunk: { countersink: { width: round(s.width + d), angle: 90 } },
          bored: { counterbore: { width: round(s.width * 1.6), depth: round(d * 0.4) } },
        }[s.foot];
        return {
          kind: 'slot',
          face: s.face,
          ...(rounding ? { path: [a, { ...c, round: rounding }, b] } : { ends: [a, b] }),
          width: s.width,
          depth: d,
          ...foot,
        };
      },
  );

export const keyway: fc.Arbitrary<Draft> = fc
  .record({
    face,
    place,
    second: fc.boolean(),
    length: mm(12, 24),
    width: mm(2, 8),
    depth: mm(1, 5),
    disc: fc.option(mm(2, 20)),
    pattern,
  })
  .map(
    (k): Draft =>
      (size) => ({
        kind: 'keyway',
        face: k.face,
        at: at(k.face, size, k.place),
        ...patterned(k.face, k.pattern),
        along: PLANE[k.face][k.second ? 1 : 0],
        length: k.length,
        width: k.width,
        depth: k.depth,
        ...(k.disc !== null ? { ends: 'run-out', cutter: round(2 * k.depth + k.disc) } : {}),
      }),
  );
