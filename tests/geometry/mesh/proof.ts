/** What every mesh must stand up to, told by an eye of its own: nothing of the mesher's is used but its answer. */
import assert from 'node:assert/strict';
import type { Shown } from '../../../server/src/geometry/mesh/display';
import { Pieces } from '../../../server/src/geometry/mesh/pieces';
import { acrossAxis, type ExactShape, normalAt } from '../../../server/src/geometry/mesh/surface';
import { together } from '../../../server/src/geometry/mesh/together';
import { solidOf } from '../../../server/src/geometry/part-solid';
import type { Solid, Vec3 } from '../../../server/src/geometry/types';
import { cross, dot, length, sub } from '../../../server/src/geometry/vector';
import type { Part } from '../../../server/src/model/model';
import { loadKernel } from '../../../server/src/node/manifold';

let loaded: ReturnType<typeof loadKernel> | undefined;
/** The library, loaded once for all tests. */
export function kernel(): ReturnType<typeof loadKernel> {
  loaded ??= loadKernel();
  return loaded;
}

interface Meshed {
  readonly solid: Solid;
  readonly shown: Shown;
  readonly volumeMm3: number;
  /** Of triangles that stand for a bent surface, mm². */
  readonly bentMm2: number;
}

export async function meshOf(part: Part, chordMm: number): Promise<Meshed> {
  const solid = solidOf(part);
  const pieces = new Pieces(await kernel(), { chordMm });
  const built = pieces.build(solid.body, solid.voids);
  assert.ok(built);
  assert.deepEqual(
    built.missing.map((v) => `${v.feature} ${v.role}`),
    [],
  );
  assert.ok(built.isPieced);
  const s = together(built.pieces);
  pieces.dispose();
  let bentMm2 = 0;
  for (let t = 0; t < s.surfaceOf.length; t++) {
    const [a, b, c] = corners(s, t);
    if (s.surfaces[s.surfaceOf[t]!]!.shape.type !== 'plane') bentMm2 += length(cross(sub(b, a), sub(c, a))) / 2;
  }
  return { solid, shown: s, volumeMm3: volumeOf(s), bentMm2 };
}

/** By the divergence theorem over the triangles as shown. */
export function volumeOf(s: Shown): number {
  let six = 0;
  for (let t = 0; t < s.surfaceOf.length; t++) {
    const [a, b, c] = corners(s, t);
    six += dot(a, cross(b, c));
  }
  return six / 6;
}

function corners(s: Shown, t: number): [Vec3, Vec3, Vec3] {
  const at = (k: number): Vec3 => {
    const v = 3 * s.triangles[3 * t + k]!;
    return [s.positions[v]!, s.positions[v + 1]!, s.positions[v + 2]!];
  };
  return [at(0), at(1), at(2)];
}

/** Every stretch between two corners is walked once each way: nothing is open, nothing folded. */
export function assertClosed(s: Shown): void {
  const key = (p: Vec3) => p.join(' ');
  const walks = new Map<string, number>();
  for (let t = 0; t < s.surfaceOf.length; t++) {
    const c = corners(s, t).map(key);
    for (let k = 0; k < 3; k++) {
      const [a, b] = [c[k]!, c[(k + 1) % 3]!];
      if (a === b) continue;
      const [way, name] = a < b ? [1, `${a} ${b}`] : [-1, `${b} ${a}`];
      walks.set(name, (walks.get(name) ?? 0) + way);
    }
  }
  const open = [...walks].filter(([, n]) => n !== 0);
  assert.deepEqual(open.slice(0, 3), [], `${open.length} open edges`);
}

/** How far a point lies from the surface carried on without end, mm. */
function offShape(shape: ExactShape, p: Vec3): number {
  const fromAxis = (through: Vec3, axis: Vec3) => length(acrossAxis(axis, through, p));
  switch (shape.type) {
    case 'plane':
      return Math.abs(dot(shape.normal, p) - shape.offsetMm);
    case 'cylinder':
      return Math.abs(fromAxis(shape.through, shape.axis) - shape.radiusMm);
    case 'cone': {
      const h = (shape.halfAngleDeg * Math.PI) / 180;
      const along = dot(sub(p, shape.apex), shape.axis);
      const out = fromAxis(shape.apex, shape.axis);
      // behind the apex the apex itself is nearest
      if (along * Math.cos(h) + out * Math.sin(h) < 0) return length(sub(p, shape.apex));
      return Math.abs(out * Math.cos(h) - along * Math.sin(h));
    }
    case 'ring': {
      const along = dot(sub(p, shape.centre), shape.axis);
      const out = fromAxis(shape.centre, shape.axis);
      return Math.abs(Math.hypot(out - shape.majorMm, along) - shape.minorMm);
    }
    default:
      return shape satisfies never;
  }
}

/** Each triangle lies on the surface it claims, within the chord, and the surface's normal points its way. */
export function assertOnSurfaces(s: Shown, chordMm: number): void {
  for (let t = 0; t < s.surfaceOf.length; t++) {
    const { shape, of, place } = s.surfaces[s.surfaceOf[t]!]!;
    // a ring is bent both ways, and drawn with a chord each; a sinking is drawn as finely as the bore that it ends on
    const slack = shape.type === 'ring' ? 2 : shape.type === 'cone' ? 1.5 : 1;
    const c = corners(s, t);
    const what = `${of?.feature ?? 'body'} ${of?.role ?? ''} ${place} ${shape.type}`;
    for (const p of c) {
      const off = offShape(shape, p);
      assert.ok(off <= slack * chordMm + 1e-4, `${what}: ${p.join(', ')} is ${off} mm off`);
    }
    const normal = cross(sub(c[1], c[0]), sub(c[2], c[0]));
    const size = length(normal);
    const longest = Math.max(length(sub(c[1], c[0])), length(sub(c[2], c[1])), length(sub(c[0], c[2])));
    // slivers have no direction worth the name
    if (size / longest < 0.02) continue;
    const middle = [0, 1, 2].map((i) => (c[0][i as 0]! + c[1][i as 0]! + c[2][i as 0]!) / 3) as unknown as Vec3;
    const exact = normalAt(shape, middle);
    if (exact)
      assert.ok(dot(exact, normal) / size > 0.75, `${what}: turned by ${dot(exact, normal) / size} at ${middle}`);
  }
}
