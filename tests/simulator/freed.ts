/**
 * What comes off while or after it is cut: the frame that tabs lead to, which the cutter must not eat, and the end of a bar
 * that is sawn off last.
 */
import { FACE_AXIS, type Face, type Part, type Setup } from '../../server/src/model/model';
import type { Shop } from '../../server/src/model/shop-model';
import type { Field } from './field';
import { axisOf, type Taken } from './frame';
import { cellAt, placeOf } from './grid';
import type { View } from './view';

/** So wide a frame holds; on half of the way round it must stand. As hold/cut-free says; common practice, no source. */
const FRAME_MM = 6;
const SHARE = 0.5;
const STEP_MM = 1;
/** A frame thinner than the places looked at are apart is not told from none. */
const RING_MM = 0.5;

/** No mill that could do it leaves the tabs of an outline a frame. */
export function isFrameEaten(v: View, name: string, setup: Setup, part: Part, shop: Shop, taken: readonly Taken[]) {
  const outline = part.featureByName.get(name);
  if (setup.hold?.type !== 'tabs' || outline?.kind !== 'contour' || !outline.depth.through) return false;
  if (axisOf(outline.face) !== v.axes[2]) return false;
  const named = setup.tools.find((t) => t.of.name === name)?.tool.name;
  const mills = shop.tools.filter(
    (t) => t.kind === 'end-mill' && (named === undefined || t.name === named) && reaches(v, t.reachMm),
  );
  return mills.length > 0 && mills.every((t) => frameShare(v, part, taken, t.diameterMm + FRAME_MM) < SHARE);
}

function reaches(v: View, mm: number): boolean {
  const n = v.na * v.nb;
  const layers = [...v.mid.keys()].filter((k) => v.work.subarray(k * n, (k + 1) * n).some((c) => c === 1));
  return layers.length > 0 && v.top[layers[0]!]! - v.bottom[layers.at(-1)!]! <= mm + 0.01;
}

/** Of all places so far outside the outline, in the middle of the stock's height, the share where stock stands. */
function frameShare(v: View, part: Part, taken: readonly Taken[], outMm: number): number {
  const [a, b] = v.axes;
  const level = v.mid.findIndex((m) => m * v.sign < part.size[v.axes[2]]! / 2 === v.sign > 0);
  let [there, all] = [0, 0];
  for (const { outline } of taken)
    for (let p = -outMm - 2; p < part.size[a]! + outMm + 2; p += STEP_MM / 2)
      for (let q = -outMm - 2; q < part.size[b]! + outMm + 2; q += STEP_MM / 2) {
        // Outside what stays the distance is how far, turned over.
        if (Math.abs(-outline.sd(p, q) - outMm) > RING_MM) continue;
        all += 1;
        if (isWork(v, p, q, level)) there += 1;
      }
  return all > 0 ? there / all : 0;
}

function isWork(v: View, p: number, q: number, k: number): boolean {
  const [i, j] = [cellOf(v.edgeA, p), cellOf(v.edgeB, q)];
  return i >= 0 && j >= 0 && v.work[i + j * v.na + k * v.na * v.nb] === 1;
}

function cellOf(edges: Float64Array, x: number): number {
  return x < edges[0]! || x >= edges[edges.length - 1]! ? -1 : cellAt(edges, x);
}

/** What is milled across an end that is sawn off runs out so far into the bar, mm. */
const RUN_OUT_MM = 8;
const KERF_MM = 2;

/** The end that is sawn off in a set-up or later: nothing is milled farther out than it runs out. */
export function barEnd(part: Part, from: number): { readonly face: Face; readonly at: number } | undefined {
  const off = (part.setups ?? []).slice(from).find((s) => s.sawnOff)?.sawnOff;
  if (!off) return undefined;
  const { sign } = FACE_AXIS[off.name];
  const plane = sign > 0 ? part.size[axisOf(off.name)]! : 0;
  return { face: off.name, at: plane + sign * ((off.leave?.mm ?? 0) + RUN_OUT_MM) };
}

/** Takes off all that stands farther out than what the saw leaves; a fault where it has nothing to saw in. */
export function sawOff(field: Field, work: Uint8Array, setup: Setup, part: Part): readonly string[] {
  const off = setup.sawnOff;
  if (!off) return [];
  const leave = off.leave?.mm ?? 0;
  const k = axisOf(off.name);
  const { sign } = FACE_AXIS[off.name];
  const plane = sign > 0 ? part.size[k]! : 0;
  let most = 0;
  for (const c of field.cellsOf.get(off.name) ?? []) {
    if (!work[c]) continue;
    const out = (field.grid.lines[k].mid[placeOf(field.grid, c)[k]]! - plane) * sign;
    most = Math.max(most, out);
    if (out > leave) work[c] = 0;
  }
  return most < leave + KERF_MM - 0.02 ? ['saw'] : [];
}
