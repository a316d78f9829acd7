/**
 * What holds work that lies on a plate or the table: strap clamps 25 mm wide and high that come in over the nearest side and
 * lie 10 mm beyond where they press, each with an M12 nut on it, and heads of screws as high as their hole is wide. Common sizes, no source. Tabs stand
 * in nobody's way.
 */

import type { Part, Setup } from '../../server/src/model/model';
import type { Block, Held } from './fixture';
import { cellAt } from './grid';
import type { View } from './view';

const STRAP_MM = { wide: 25, high: 25, beyond: 10, back: 60 } as const;
/** A cap screw's head, for its hole's diameter. */
const HEAD_WIDE = 1.5;

type Hold = NonNullable<Setup['hold']>;

export function laidDown(v: View, hold: Hold, part: Part): Held {
  const faults: string[] = [];
  const blocks: Block[] = [];
  const pressed: number[] = [];
  for (const { u, v: w } of hold.clamps ?? []) {
    const cell = columnAt(v, u, w);
    const top = topOf(v, cell);
    if (top === undefined) {
      faults.push('clamp');
      continue;
    }
    pressed.push(cell);
    blocks.push({ what: 'clamp', ...strap(v, u, w), h: [top, top + STRAP_MM.high] }, nut(v, u, w, top));
  }
  for (const { name } of hold.screws ?? []) {
    const [, base, member] = /^(.*?)(?:\[(\d+)\])?$/.exec(name)!;
    const hole = part.featureByName.get(base!);
    if (hole?.kind !== 'hole') continue;
    hole.places.forEach((place, i) => {
      if (member !== undefined && Number(member) !== i + 1) return;
      if (topOf(v, columnAt(v, place.u, place.v)) !== undefined) faults.push('screw');
      // A screw from below, into the part's own thread, has its head there.
      if (hole.thread) return;
      const half = (HEAD_WIDE * hole.diameter.mm) / 2;
      const seat = highestWithin(v, place.u, place.v, half);
      const at = (x: number): [number, number] => [x - half * Math.SQRT1_2, x + half * Math.SQRT1_2];
      if (seat !== undefined)
        blocks.push({ what: 'screw', a: at(place.u), b: at(place.v), h: [seat, seat + hole.diameter.mm] });
    });
  }
  return { blocks, faults, ...(pressed.length > 0 && { pressed }) };
}

/** Something still stands where each clamp presses, as high as it did. */
export function stillPressed(v: View, pressed: readonly number[], tops: readonly (number | undefined)[]): boolean {
  return pressed.every((cell, i) => topOf(v, cell) === tops[i]);
}

export function topOf(v: View, cell: number): number | undefined {
  const n = v.na * v.nb;
  for (let k = 0; k < v.layers; k++) if (v.work[cell + k * n]) return v.top[k]!;
  return undefined;
}

function columnAt(v: View, a: number, b: number): number {
  return cellAt(v.edgeA, a) + cellAt(v.edgeB, b) * v.na;
}

function highestWithin(v: View, a: number, b: number, radius: number): number | undefined {
  let high: number | undefined;
  for (let j = 0; j < v.nb; j++)
    for (let i = 0; i < v.na; i++) {
      if (Math.hypot(v.sheet.a[i]! - a, v.sheet.b[j]! - b) > radius) continue;
      const top = topOf(v, i + j * v.na);
      if (top !== undefined && (high === undefined || top > high)) high = top;
    }
  return high;
}

function strap(v: View, a: number, b: number): Pick<Block, 'a' | 'b'> {
  const sides = workSides(v);
  const distances = [a - sides.a[0], sides.a[1] - a, b - sides.b[0], sides.b[1] - b];
  const nearest = distances.indexOf(Math.min(...distances));
  const long = (x: number, low: boolean): [number, number] =>
    low ? [x - STRAP_MM.back, x + STRAP_MM.beyond] : [x - STRAP_MM.beyond, x + STRAP_MM.back];
  const across = (x: number): [number, number] => [x - STRAP_MM.wide / 2, x + STRAP_MM.wide / 2];
  return nearest < 2 ? { a: long(a, nearest === 0), b: across(b) } : { a: across(a), b: long(b, nearest === 2) };
}

/** On the strap, over a stud that goes down beside the work: its washer 24 wide, taken as the square inside that, and 17 high. */
function nut(v: View, a: number, b: number, top: number): Block {
  const sides = workSides(v);
  const distances = [a - sides.a[0], sides.a[1] - a, b - sides.b[0], sides.b[1] - b];
  const nearest = distances.indexOf(Math.min(...distances));
  const away = Math.max(25, distances[nearest]! + 14) * (nearest % 2 === 0 ? -1 : 1);
  const [x, y] = nearest < 2 ? [a + away, b] : [a, b + away];
  const half = 12 * Math.SQRT1_2;
  const foot = top + STRAP_MM.high;
  return { what: 'clamp', a: [x - half, x + half], b: [y - half, y + half], h: [foot, foot + 16.8] };
}

function workSides(v: View): { a: [number, number]; b: [number, number] } {
  let [i0, i1, j0, j1] = [v.na, -1, v.nb, -1];
  for (let c = 0; c < v.work.length; c++) {
    if (!v.work[c]) continue;
    const i = c % v.na;
    const j = Math.floor(c / v.na) % v.nb;
    if (i < i0) i0 = i;
    if (i > i1) i1 = i;
    if (j < j0) j0 = j;
    if (j > j1) j1 = j;
  }
  return { a: [v.edgeA[i0]!, v.edgeA[i1 + 1]!], b: [v.edgeB[j0]!, v.edgeB[j1 + 1]!] };
}
