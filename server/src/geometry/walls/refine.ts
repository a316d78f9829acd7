/**
 * Both ends of a line through material moved over their surfaces until it gets no shorter: the nearest point opposite a
 * place may itself be cut away or lie outside the body, and then the shortest line that stands ends beside it.
 */
import { DIGITS, NEAR, ROUNDING, SAME } from '../../tolerance';
import { inBody, type Surroundings, stands } from '../distance/line-of-material';
import type { BodyShape, Vec3, Void } from '../types';
import { distance } from '../vector';
import { type Patch, patchesOf } from './patches';

interface Spot {
  readonly patch: Patch;
  readonly x: number;
  readonly y: number;
}
interface Line {
  readonly mm: number;
  readonly p: Vec3;
  readonly q: Vec3;
}

/** Which of the four coordinates move together: each alone, and pairs of one surface and the other. */
type Way = readonly [number, number, number, number];
const WAYS: readonly Way[] = [
  [1, 0, 0, 0],
  [0, 1, 0, 0],
  [0, 0, 1, 0],
  [0, 0, 0, 1],
  [1, 0, 1, 0],
  [1, 0, -1, 0],
  [0, 1, 0, 1],
  [0, 1, 0, -1],
  [1, 0, 0, 1],
  [1, 0, 0, -1],
  [0, 1, 1, 0],
  [0, 1, -1, 0],
];
const FIRST = 0.2;
const LAST = 1e-6;
const MOST_STEPS = 400;

interface Ends {
  readonly one: Spot;
  readonly two: Spot;
  readonly line: Line;
}

/** The line between two volumes, shortened as far as steps of both its ends do it, mm. */
export function settled(a: Void, b: Void, from: Line, s: Surroundings): Line {
  const [one, two] = [spotOf(a, from.p, s.body), spotOf(b, from.q, s.body)];
  if (!one || !two) return from;
  let best: Ends = { one, two, line: from };
  let steps = 0;
  for (let step = FIRST; step > LAST && steps < MOST_STEPS; ) {
    const before = steps;
    for (const way of WAYS) {
      for (const by of [step, -step]) {
        const next = moved(best, way, by, s);
        if (!next) continue;
        best = next;
        steps++;
      }
    }
    if (steps === before) step /= 2;
  }
  return best.line;
}

/** Both ends moved by so much each way, where that makes the line shorter. */
function moved({ one, two, line }: Ends, [i, k, m, n]: Way, by: number, s: Surroundings): Ends | undefined {
  const p = i || k ? stepped(one, i * by, k * by) : one;
  const q = m || n ? stepped(two, m * by, n * by) : two;
  const found = p && q && shorter(p, q, line, s);
  return found && { one: p, two: q, line: found };
}

function shorter(one: Spot, two: Spot, than: Line, s: Surroundings): Line | undefined {
  const [p, q] = [one.patch.place(one.x, one.y), two.patch.place(two.x, two.y)];
  const mm = distance(p, q);
  if (mm >= than.mm - DIGITS || mm < SAME || !inBody(s.body, p) || !inBody(s.body, q)) return undefined;
  return stands(p, q, s) ? { mm, p, q } : undefined;
}

function stepped({ patch, x, y }: Spot, dx: number, dy: number): Spot | undefined {
  const w = patch.whole;
  const held = (a: number, middle: number, half: number) => Math.min(middle + half, Math.max(middle - half, a));
  const to = { patch, x: held(x + dx, w.x, w.hx), y: held(y + dy, w.y, w.hy) };
  return patch.beside(to.x, to.y) <= SAME ? to : undefined;
}

/** Where on its patches a point of a volume's surface lies. */
function spotOf(v: Void, at: Vec3, body: BodyShape): Spot | undefined {
  let best: (Spot & { readonly off: number }) | undefined;
  for (const patch of [...patchesOf(v, 'sides', body), ...patchesOf(v, 'ends', body)]) {
    const found = nearestOn(patch, at);
    if (!best || found.off < best.off - ROUNDING) best = found;
  }
  return best && best.off < NEAR ? best : undefined;
}

function nearestOn(patch: Patch, at: Vec3): Spot & { readonly off: number } {
  const w = patch.whole;
  const off = (x: number, y: number) => distance(patch.place(x, y), at);
  const across = 12;
  const deep = w.hy > 0 ? 6 : 1;
  let best = { patch, x: w.x, y: w.y, off: off(w.x, w.y) };
  const look = (x: number, y: number) => {
    const mm = off(x, y);
    if (mm >= best.off) return false;
    best = { patch, x, y, off: mm };
    return true;
  };
  for (let i = 0; i < across; i++) {
    for (let k = 0; k < deep; k++) look(w.x + w.hx * ((2 * i + 1) / across - 1), w.y + w.hy * ((2 * k + 1) / deep - 1));
  }
  let [sx, sy] = [w.hx / across, w.hy / deep];
  while (sx > 1e-7 || sy > 1e-7) {
    const { x, y } = best;
    const inside = (a: number, middle: number, half: number) => Math.min(middle + half, Math.max(middle - half, a));
    const tries = [
      look(inside(x + sx, w.x, w.hx), y),
      look(inside(x - sx, w.x, w.hx), y),
      look(x, inside(y + sy, w.y, w.hy)),
      look(x, inside(y - sy, w.y, w.hy)),
    ];
    if (tries.includes(true)) continue;
    sx /= 2;
    sy /= 2;
  }
  return best;
}
