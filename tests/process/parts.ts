/** Parts for tests of machining: text to part and solid, without the rules. */
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Solid, Vec3 } from '../../server/src/geometry/types';
import type { Feature, Part } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

interface Made {
  readonly part: Part;
  readonly solid: Solid;
  feature<K extends Feature['kind']>(name: string, kind: K): Extract<Feature, { kind: K }>;
}

/** `body` and features as YAML; fails on a text that does not mean a part. */
export function make(body: string, features: string, tail = ''): Made {
  const part = resolvePart(readText(`part: p\nbody: ${body}\nfeatures:\n${features.replace(/\n*$/, '\n')}${tail}`));
  const [problem] = part.problems;
  if (problem) throw new Error(`the test's part is wrong: ${problem.message}`);
  return {
    part,
    solid: solidOf(part),
    feature(name, kind) {
      const found = part.featureByName.get(name);
      if (found?.kind !== kind) throw new Error(`no ${kind} ${name}`);
      return found as never;
    },
  };
}

/** Everything there is: pockets, islands, slots, steps, contours, holes from four sides, undercuts, slopes, edges. */
export const ALL_KINDS = `  tray:
    kind: pocket
    face: top
    at: { x: 40, y: 30 }
    size: { x: 40, y: 30 }
    corner-radius: 5
    depth: 10
    islands:
      post: { diameter: 8, at: { x: 40, y: 30 }, height: 6 }
  dish: { kind: pocket, face: top, at: { x: 85, y: 30 }, size: { x: 24, y: 24 }, corner-radius: 5, floor-radius: 2, depth: 8 }
  under: { kind: pocket, face: bottom, at: { x: 40, y: 30 }, diameter: 20, depth: 6 }
  way: { kind: slot, face: top, ends: [{ x: 10, y: 52 }, { x: 130, y: 52 }], width: 6, depth: 7 }
  rail: { kind: slot, face: right, ends: [{ y: -5, z: 15 }, { y: 70, z: 15 }], width: 6, depth: 9, dovetail: { angle: 60 } }
  ledge: { kind: step, face: top, along: left, width: 8, depth: 5 }
  bore: { kind: hole, face: top, at: { x: 105, y: 12 }, diameter: 10, depth: 14, counterbore: { diameter: 16, depth: 4 } }
  side: { kind: hole, face: front, at: { x: 60, z: 8 }, diameter: 5, depth: 30 }
  lean: { kind: hole, face: top, at: { x: 70, y: 12 }, diameter: 5, depth: 10, tilt: { about: y, angle: 20 } }
  sunk: { kind: hole, face: back, at: { x: 100, z: 10 }, diameter: 5, depth: 12, countersink: { diameter: 10, angle: 90 } }
  ramp: { kind: slope, face: bottom, along: right, angle: 30, width: 9 }
  edge: { kind: chamfer, edges: [[bottom, front]], size: 1 }
`;
export const ALL_BODY = '{ x: 120, y: 60, z: 30 }';

/** A small repeatable stream of numbers in [0, 1): mulberry32. */
export function stream(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomPoint(random: () => number, size: Vec3): Vec3 {
  return [random() * size[0], random() * size[1], random() * size[2]];
}
