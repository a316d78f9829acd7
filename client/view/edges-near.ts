/** Which edges of the part are near a place of the screen. */
import type { Arrays } from './decode';
import type { Point } from './orbit';

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** So near counts as touched, in pixels. */
const NEAR = 7;

/** Those near enough, the nearest first, each with its nearest point. */
export function edgesNear(
  { edges }: Pick<Arrays, 'edges'>,
  project: (p: Point) => Spot,
  at: Spot,
): readonly { readonly stretch: number; readonly at: Point }[] {
  const found: { stretch: number; at: Point; far: number }[] = [];
  for (let i = 0; i < edges.length / 6; i++) {
    const [p, q] = [0, 3].map((k) => [0, 1, 2].map((c) => edges[6 * i + k + c]!) as unknown as Point) as [Point, Point];
    const [a, b] = [project(p), project(q)];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const long = dx * dx + dy * dy;
    const t = long > 0 ? Math.max(0, Math.min(1, ((at.x - a.x) * dx + (at.y - a.y) * dy) / long)) : 0;
    const far = Math.hypot(a.x + t * dx - at.x, a.y + t * dy - at.y);
    if (far <= NEAR) found.push({ stretch: i, at: p.map((c, k) => c + t * (q[k]! - c)) as unknown as Point, far });
  }
  return found.sort((a, b) => a.far - b.far);
}
