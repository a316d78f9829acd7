/**
 * Circles turned about an axis in their plane, said as what they are. The kernel writes a torus whose tube reaches past
 * its axis as a curve turned; ISO 10303-42 has a name for it, DEGENERATE_TOROIDAL_SURFACE, by which a reader knows a
 * cutter's corner. Only the text of the file is changed: of the surface, and which way its face looks.
 */
import { real } from '../part21';

type Vec = readonly number[];
const dot = (a: Vec, b: Vec) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
const cross = (a: Vec, b: Vec): Vec => [
  a[1]! * b[2]! - a[2]! * b[1]!,
  a[2]! * b[0]! - a[0]! * b[2]!,
  a[0]! * b[1]! - a[1]! * b[0]!,
];
const along = (a: Vec, b: Vec, by: number): Vec => a.map((x, i) => x + by * b[i]!);
const unit = (a: Vec): Vec => a.map((x) => x / Math.hypot(...a));

/** Lengths that are one but for rounding, mm, and directions. */
const SAME = 1e-7;

/** The statements of a file: what stands after `#12 =`, its white space taken out. */
function statementsOf(file: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const [, id, text] of file.matchAll(/^(#\d+)\s*=\s*((?:[^;']|'[^']*')*);/gm))
    found.set(id!, text!.replace(/\s+/g, ''));
  return found;
}

/** The same file, every turned circle that is a torus past its own axis written as one. */
export function withTori(file: string): string {
  if (!file.includes('SURFACE_OF_REVOLUTION')) return file;
  const all = statementsOf(file);
  const args = (id: string | undefined, kind: string) => {
    const text = id === undefined ? undefined : all.get(id);
    if (!text?.startsWith(`${kind}(`)) return undefined;
    return text.slice(kind.length + 1, -1).split(/,(?![^(]*\))/);
  };
  const triple = (id: string | undefined, kind: string): Vec | undefined => {
    const numbers = args(id, kind)?.[1]?.replace(/[()]/g, '').split(',').map(Number);
    return numbers?.length === 3 && numbers.every(Number.isFinite) ? numbers : undefined;
  };
  let next = Math.max(...[...all.keys()].map((id) => Number(id.slice(1))));
  const swaps = new Map<string, string>();
  const flipped = new Set<string>();
  for (const [id] of all) {
    const [, curve, turning] = args(id, 'SURFACE_OF_REVOLUTION') ?? [];
    const [, placement, radius] = args(curve, 'CIRCLE') ?? [];
    const [, middle, normal] = args(placement, 'AXIS2_PLACEMENT_3D') ?? [];
    const [, foot, way] = args(turning, 'AXIS1_PLACEMENT') ?? [];
    const [centre, across] = [triple(middle, 'CARTESIAN_POINT'), triple(normal, 'DIRECTION')];
    const [from, axis] = [triple(foot, 'CARTESIAN_POINT'), triple(way, 'DIRECTION')];
    if (!centre || !across || !from || !axis) continue;
    const made = torusOf({ centre, across: unit(across), from, axis: unit(axis), minor: Number(radius) });
    if (!made) continue;
    const [point, z, x, axes] = [1, 2, 3, 4].map((n) => `#${next + n}`) as [string, string, string, string];
    next += 4;
    const numbers = (v: Vec) => `(${v.map(real).join(',')})`;
    swaps.set(
      id,
      [
        `${point} = CARTESIAN_POINT('',${numbers(made.origin)});`,
        `${z} = DIRECTION('',${numbers(made.z)});`,
        `${x} = DIRECTION('',${numbers(made.x)});`,
        `${axes} = AXIS2_PLACEMENT_3D('',${point},${z},${x});`,
        `${id} = DEGENERATE_TOROIDAL_SURFACE('',${axes},${real(made.major)},${real(Number(radius))},.T.);`,
      ].join('\n'),
    );
    if (made.flips) flipped.add(id);
  }
  if (swaps.size === 0) return file;
  return file.replace(/^(#\d+)\s*=\s*((?:[^;']|'[^']*')*);/gm, (whole, id: string, text: string) => {
    const swap = swaps.get(id);
    if (swap) return swap;
    const surface = /^ADVANCED_FACE\s*\([\s\S]*,\s*(#\d+)\s*,\s*\.([TF])\.\s*\)\s*$/.exec(text);
    if (!surface || !flipped.has(surface[1]!)) return whole;
    return `${id} = ${text.replace(/\.([TF])\.\s*\)\s*$/, surface[2] === 'T' ? '.F.)' : '.T.)')};`;
  });
}

interface Turned {
  readonly centre: Vec;
  /** Normal of the circle's plane. */
  readonly across: Vec;
  readonly from: Vec;
  readonly axis: Vec;
  readonly minor: number;
}

/**
 * The torus that a turned circle is; none where the circle does not lie in a plane with the axis, or its tube keeps clear
 * of it. `flips`: its normal, which points out of the tube, is the other way round than the turned circle's.
 */
function torusOf({ centre, across, from, axis, minor }: Turned) {
  const height = dot(along(centre, from, -1), axis);
  const origin = along(from, axis, height);
  const out = along(centre, origin, -1);
  const major = Math.hypot(...out);
  if (!(minor > major && major > SAME)) return undefined;
  const x = unit(out);
  // the plane of the circle must hold the axis: its normal is then square to both
  const square = cross(x, axis);
  const turn = dot(square, across);
  if (Math.abs(Math.abs(turn) - 1) > SAME) return undefined;
  return { origin, z: axis, x, major, flips: turn < 0 };
}
