/**
 * Two pieces in one vise: the second lies beside the first along the jaws and is cut as it is, cut after cut. What of it
 * stands when a cut is made, as boxes round its cells, is what a tool that runs out beyond the first piece meets.
 */
import { FACE_AXIS, type Face, type Setup } from '../../server/src/model/model';
import type { Block } from './fixture';
import { axisOf } from './frame';
import type { View } from './view';

/** How far on from the first the second lies along an axis of the view. */
export interface Second {
  readonly onA: boolean;
  readonly by: number;
}

/** Away from the stop; without one, from the end that is put in by a rule; else from where the read-out is zero. */
export function secondOf({ hold, zero }: Setup, axis: 0 | 1 | 2, long: number): number | undefined {
  if (!hold?.pieces) return undefined;
  const names = [hold.stop?.name, hold.overhang?.face, zero[(['x', 'y', 'z'] as const)[axis]]?.name];
  const end = names.find((n) => n !== undefined && n in FACE_AXIS && axisOf(n as Face) === axis) as Face | undefined;
  const away = end && FACE_AXIS[end].sign > 0 ? -1 : 1;
  return away * (long + hold.pieces.gapMm);
}

/** Farther from the first piece nothing of any tool comes, mm. */
const NEAR_MM = 40;

/** What stands of the second beside the first, and of the first beside the second: `stays` tells it of a cell of the view. */
export function othersOf(v: View, { onA, by }: Second, stays: (cell: number) => boolean): readonly Block[] {
  const boxes = boxesOf(v, stays);
  const moved = (mm: number) =>
    boxes.map((b): Block => {
      const at = ([p, q]: readonly [number, number]): [number, number] => [p + mm, q + mm];
      return onA ? { ...b, a: at(b.a) } : { ...b, b: at(b.b) };
    });
  const edges = onA ? v.edgeA : v.edgeB;
  const [low, high] = [edges[0]! - NEAR_MM, edges[edges.length - 1]! + NEAR_MM];
  const isNear = (b: Block) => (onA ? b.a : b.b)[0] < high && (onA ? b.a : b.b)[1] > low;
  return [...moved(by), ...moved(-by)].filter(isNear);
}

/** Boxes that fill the cells: as long as they go along a row, as many rows as are alike, as many layers. */
function boxesOf(v: View, stays: (cell: number) => boolean): readonly Block[] {
  const open = new Map<string, { from: number; to: number; box: readonly [number, number, number, number] }>();
  const out: Block[] = [];
  const close = (key: string) => {
    const { from, to, box } = open.get(key)!;
    open.delete(key);
    const [i0, i1, j0, j1] = box;
    out.push({
      what: 'piece',
      soft: true,
      a: [v.edgeA[i0]!, v.edgeA[i1 + 1]!],
      b: [v.edgeB[j0]!, v.edgeB[j1 + 1]!],
      h: [v.bottom[to]!, v.top[from]!],
    });
  };
  for (let k = 0; k < v.layers; k++) {
    const here = new Map(rectsIn(v, k, stays).map((box) => [box.join(), box]));
    for (const key of [...open.keys()]) if (!here.has(key)) close(key);
    for (const [key, box] of here) {
      const known = open.get(key);
      if (known) known.to = k;
      else open.set(key, { from: k, to: k, box });
    }
  }
  for (const key of [...open.keys()]) close(key);
  return out;
}

type Rect = readonly [i0: number, i1: number, j0: number, j1: number];

function rectsIn(v: View, k: number, stays: (cell: number) => boolean): readonly Rect[] {
  const open = new Map<string, [number, number, number, number]>();
  const out: Rect[] = [];
  for (let j = 0; j < v.nb; j++) {
    const runs = new Map<string, readonly [number, number]>();
    for (let i = 0; i < v.na; i++) {
      if (!stays(i + j * v.na + k * v.na * v.nb)) continue;
      const from = i;
      while (i + 1 < v.na && stays(i + 1 + j * v.na + k * v.na * v.nb)) i++;
      runs.set(`${from} ${i}`, [from, i]);
    }
    for (const [key, rect] of open)
      if (!runs.has(key)) {
        out.push(rect);
        open.delete(key);
      }
    for (const [key, [i0, i1]] of runs) {
      const known = open.get(key);
      if (known) known[3] = j;
      else open.set(key, [i0, i1, j, j]);
    }
  }
  return [...out, ...open.values()];
}
