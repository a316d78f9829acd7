/** Shapes that pages are put together from: lines, frames, arrows, hatching. */
import { chords } from '../../geometry/2d/chords';
import { circleEdge, line } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';
import { type Box, type Fill, NARROW, type Stroke } from './marks';

export const at = (x: number, y: number): Point2 => ({ u: x, v: y });

/** A chain of straight lines through places `[x, y]`. */
export function polyline(
  places: readonly (readonly [number, number])[],
  width = NARROW,
  dash?: readonly number[],
): Stroke {
  return stroke(chained(places), width, dash);
}

export function stroke(edges: readonly Edge[], width = NARROW, dash?: readonly number[]): Stroke {
  return { type: 'stroke', edges, width, ...(dash && { dash }) };
}

function chained(places: readonly (readonly [number, number])[]): Edge[] {
  return places.slice(1).map(([x, y], i) => line(at(...places[i]!), at(x, y)));
}

function aroundBox({ x0, y0, x1, y1 }: Box): Edge[] {
  return chained([
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
    [x0, y0],
  ]);
}

export function frame(box: Box, width: number, dash?: readonly number[]): Stroke {
  return stroke(aroundBox(box), width, dash);
}

export function block(box: Box): Fill {
  return { type: 'fill', loops: [aroundBox(box)] };
}

export function dot(x: number, y: number, radius: number): Fill {
  return { type: 'fill', loops: [[circleEdge(at(x, y), radius)]] };
}

export function ring(x: number, y: number, radius: number, width: number): Stroke {
  return stroke([circleEdge(at(x, y), radius)], width);
}

/** A filled head whose tip is at a place, pointing along (dx, dy), a unit vector. */
export function arrowHead(x: number, y: number, dx: number, dy: number, length = 2.5): Fill {
  const half = length * 0.16;
  const [bx, by] = [x - dx * length, y - dy * length];
  const corners = [
    [x, y],
    [bx - dy * half, by + dx * half],
    [bx + dy * half, by - dx * half],
    [x, y],
  ] as const;
  return { type: 'fill', loops: [chained(corners)] };
}

/** Lines at 45° over what the outline encloses, none over `spared` boxes. */
export function hatching(outline: readonly Edge[], spacing: number, spared: readonly Box[] = [], up = true): Stroke {
  const s = Math.SQRT1_2;
  const [nu, nv] = up ? [s, s] : [s, -s];
  const along = outline.flatMap((e) => {
    const reach = e.type === 'arc' ? e.radius : 0;
    const middle = e.type === 'arc' ? e.centre : e.a;
    const d = middle.u * nu + middle.v * nv;
    const b = e.b.u * nu + e.b.v * nv;
    return [d - reach, d + reach, b];
  });
  const [low, high] = [Math.min(...along), Math.max(...along)];
  const edges: Edge[] = [];
  for (let k = Math.ceil(low / spacing); k * spacing < high; k++) {
    const d = k * spacing;
    const point = (t: number) => at(d * nu - t * nv, d * nv + t * nu);
    const covered = spared.flatMap((box) => chords(aroundBox(box), nu, nv, d));
    for (const stretch of chords(outline, nu, nv, d))
      for (const [a, b] of without(stretch, covered)) if (b - a > 0.05) edges.push(line(point(a), point(b)));
  }
  return stroke(edges, 0.18);
}

type Stretch = readonly [number, number];

function without(stretch: Stretch, covered: readonly Stretch[]): readonly Stretch[] {
  return covered.reduce<readonly Stretch[]>(
    (left, [c0, c1]) =>
      left.flatMap(([a, b]): Stretch[] => {
        if (c1 <= a || c0 >= b) return [[a, b]];
        const rest: Stretch[] = [
          [a, c0],
          [c1, b],
        ];
        return rest.filter(([p, q]) => q > p);
      }),
    [stretch],
  );
}

export function boxEdges(box: Box): readonly Edge[] {
  return aroundBox(box);
}
