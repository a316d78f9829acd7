/**
 * A wall or floor as a plate: it is followed through the middle of its thickness in four directions until it ends in the
 * air, which is a free edge, or in material as thick as a block, which holds it.
 */

import { heed } from '../../effort';
import { HAIR, SAME } from '../../tolerance';
import type { Vec3, Wall } from '../types';
import { add, cross, dot, length, scale, sub } from '../vector';

export interface Rim {
  /** From where the wall is thinnest, mm. */
  readonly mm: number;
  readonly held: boolean;
}

/** Two directions in the wall: along it and along the cutter, or the two axes of a floor; the rims at both ends of each. */
type Rims = readonly [readonly [Rim, Rim], readonly [Rim, Rim]];

type Material = (p: Vec3) => boolean;

/** What is twice as thick, or thicker, holds: by the cube it is eight times as stiff. */
const BLOCK = 2;
/** Followed so far, in thicknesses: what is longer is held, or not, too far away to matter. */
const FAR = 160;
/** Steps in a thickness: no slit narrower than this counts. */
const FINE = 4;
/** How far, of a step, a wall bent round a radius of its own thickness comes off the straight way in it: twice that. */
const BEND = 0.25;

/** Undefined where there is no material in its middle, or it has no direction of its own. */
export function rimsOf(wall: Pick<Wall, 'at' | 'a' | 'thicknessMm' | 'type'>, isMaterial: Material): Rims | undefined {
  const { at, a, thicknessMm } = wall;
  const across = sub(at[1], at[0]);
  const mm = length(across);
  if (mm < SAME) return undefined;
  const n = scale(across, 1 / mm);
  const middle = add(at[0], across, 0.5);
  if (!isMaterial(middle)) return undefined;
  // Along the cutter that made it, as far as that lies in the wall; of a floor, along its outline's axes.
  const first = [a.frame.w, a.frame.u, a.frame.v].find((d) => Math.abs(dot(d, n)) < 0.7)!;
  const inWall = add(first, n, -dot(first, n));
  const up = scale(inWall, 1 / length(inWall));
  const along = cross(n, up);
  // Thinnest at the rim: a hair into the wall, so that no step is taken along a surface, where rounding decides.
  const from = [up, scale(up, -1)].map((d) => add(middle, d, HAIR)).find((p) => isMaterial(p)) ?? middle;
  const both = (d: Vec3): readonly [Rim, Rim] => {
    const rim = (way: Vec3) => follow({ from, way, n, thicknessMm }, isMaterial);
    return [rim(scale(d, -1)), rim(d)];
  };
  return [both(along), both(up)];
}

interface Path {
  readonly from: Vec3;
  readonly way: Vec3;
  readonly n: Vec3;
  readonly thicknessMm: number;
}

function follow({ from, way, n: first, thicknessMm }: Path, isMaterial: Material): Rim {
  const step = thicknessMm / FINE;
  const side = cross(first, way);
  let [p, d, n, mm] = [from, way, first, 0];
  for (let i = 0; i < FAR * FINE; i++) {
    heed(FINE * 4);
    const q = add(p, d, step);
    const across = acrossAt(q, n, thicknessMm, isMaterial);
    const held = across !== undefined && isBlock(across, thicknessMm);
    if (!across || held) {
      const ends = (x: number) => {
        const there = acrossAt(add(p, d, x), n, thicknessMm, isMaterial);
        return held ? there !== undefined && isBlock(there, thicknessMm) : !there;
      };
      return { mm: mm + firstWhere(ends, step), held };
    }
    const [low, high] = across;
    // The middle again: where the wall bends, the way and the line across it turn with it; where it has a step they do not.
    const off = (low + high) / 2;
    const next = add(q, n, off);
    const gone = sub(next, p);
    const by = length(gone);
    mm += by;
    p = next;
    if (Math.abs(off) > BEND * step) continue;
    d = scale(gone, 1 / by);
    n = cross(d, side);
  }
  return { mm, held: true };
}

const isBlock = ([low, high]: readonly [number, number], thicknessMm: number) => high - low >= BLOCK * thicknessMm;

/** Where from 0 to `to` a question that is answered yes at `to` begins to be. */
function firstWhere(ends: (x: number) => boolean, to: number): number {
  let [no, yes] = [0, to];
  for (let i = 0; i < 7; i++) {
    const mid = (no + yes) / 2;
    if (ends(mid)) yes = mid;
    else no = mid;
  }
  return yes;
}

/** How far material reaches to both sides of a point of the middle, or of what lies nearest to it within a thickness. */
function acrossAt(q: Vec3, n: Vec3, thicknessMm: number, isMaterial: Material): readonly [number, number] | undefined {
  const step = thicknessMm / FINE;
  const start = [0, 1, -1, 2, -2].find((k) => isMaterial(add(q, n, k * step)));
  if (start === undefined) return undefined;
  const reach = (sign: 1 | -1) => {
    let k = start;
    while (Math.abs(k - start) <= BLOCK * FINE && isMaterial(add(q, n, (k + sign) * step))) k += sign;
    const edge = add(q, n, (k + sign) * step);
    if (isMaterial(edge)) return k * step;
    // Between the last point in material and the first in the air.
    let [inside, outside] = [k * step, (k + sign) * step];
    for (let i = 0; i < 6; i++) {
      const mid = (inside + outside) / 2;
      if (isMaterial(add(q, n, mid))) inside = mid;
      else outside = mid;
    }
    return (inside + outside) / 2;
  };
  return [reach(-1), reach(1)];
}
