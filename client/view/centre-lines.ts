/** Axes as a drawing has them: of round faces, a little beyond both ends; and the part's own from its origin. */
import type { PictureWords } from '../../server/src/service/view/protocol';
import type { Arrays } from './decode';
import type { Mark } from './marks';
import type { Point } from './orbit';

/** Beyond each end, as a share of the length and at least, mm. */
const BEYOND = 0.12;
const LEAST_MM = 1.5;

/** Of these faces (all without them) those that go all the way round. */
export function centreLines({ surfaces }: PictureWords, arrays: Arrays, among?: ReadonlySet<number>): readonly Mark[] {
  const spans = new Map<number, { from: number; to: number; middle: Point; n: number }>();
  arrays.surfaceOf.forEach((s, t) => {
    const shape = surfaces[s]?.shape;
    if (shape?.type !== 'cylinder' || (among && !among.has(s))) return;
    const own = spans.get(s) ?? { from: Infinity, to: -Infinity, middle: [0, 0, 0], n: 0 };
    for (let k = 0; k < 3; k++) {
      const v = 3 * arrays.triangles[3 * t + k]!;
      const p: Point = [arrays.positions[v]!, arrays.positions[v + 1]!, arrays.positions[v + 2]!];
      const at = along(p, shape.through, shape.axis);
      own.from = Math.min(own.from, at);
      own.to = Math.max(own.to, at);
      own.middle = own.middle.map((c, i) => c + p[i]!) as unknown as Point;
      own.n++;
    }
    spans.set(s, own);
  });
  return [...spans].flatMap(([s, { from, to, middle, n }]): Mark[] => {
    const shape = surfaces[s]!.shape;
    if (shape.type !== 'cylinder') return [];
    const { axis, through, radiusMm } = shape;
    const on = (t: number) => through.map((c, i) => c + t * axis[i]!) as unknown as Point;
    const mean = middle.map((c) => c / n) as unknown as Point;
    const foot = on(along(mean, through, axis));
    const off = Math.hypot(...mean.map((c, i) => c - foot[i]!));
    // A corner's round has no middle of its own that anybody drills.
    if (off > 0.25 * radiusMm) return [];
    const more = Math.max(LEAST_MM, BEYOND * (to - from));
    return [{ at: [on(from - more), on(to + more)], line: true, text: '', kind: 'centre' }];
  });
}

function along(p: Point, through: Point, axis: Point): number {
  return p.reduce((sum, c, i) => sum + (c - through[i]!) * axis[i]!, 0);
}

/** From the corner that all places count from. */
export function partAxes({ body }: PictureWords): readonly Mark[] {
  const size = Math.hypot(...body.max.map((c, i) => c - body.min[i]!));
  return (['x', 'y', 'z'] as const).map((text, i): Mark => {
    const end = [0, 1, 2].map((k) => (k === i ? 0.2 * size : 0)) as unknown as Point;
    return { at: [[0, 0, 0], end], line: true, text, kind: 'axis' };
  });
}
