/** Walls and floors as plates: how far they give way under a force, by which of their edges are held and by their sides. */
import { ALL_ROUND, BESIDE, ONE, ONE_AMIDST, OPPOSITE, type Row, THREE } from './plates.data';

/** A rectangle of a plate: its sides along two directions, and which of the edges at their ends are held. */
export interface Plate {
  readonly thicknessMm: number;
  readonly sidesMm: readonly [number, number];
  /** Of each direction: the edge at its low end, and at its high end. */
  readonly held: readonly [readonly [boolean, boolean], readonly [boolean, boolean]];
}

/** Of metals; plastics have 0.35 to 0.4, which changes the stiffness of a plate by 4 % at most. From memory. */
export const POISSON = 0.33;

/** D, N mm: what a plate sets against being bent, a millimetre of its width. */
export function plateStiffness(thicknessMm: number, youngMPa: number): number {
  return (youngMPa * thicknessMm ** 3) / (12 * (1 - POISSON ** 2));
}

export const heldEdges = ({ held }: Pick<Plate, 'held'>): number => held.flat().filter((x) => x).length;

/** How far it gives way where it gives way most; undefined for what nothing holds. `amidst`: in the middle of an edge, not at a corner. */
export function plateDeflection(plate: Plate, forceN: number, youngMPa: number, amidst = false): number | undefined {
  const shape = shapeOf(plate, amidst);
  const stiffness = plateStiffness(plate.thicknessMm, youngMPa);
  if (!shape) return undefined;
  const { row, ratio, onMm } = shape;
  return stiffness > 0 ? (alphaOf(row, ratio) * forceN * onMm ** 2) / stiffness : Number.POSITIVE_INFINITY;
}

interface Shape {
  readonly row: Row;
  readonly ratio: number;
  /** The side that counts, b. */
  readonly onMm: number;
}

function shapeOf({ sidesMm: [x, y], held: [hx, hy] }: Plate, amidst: boolean): Shape | undefined {
  const [nx, ny] = [hx, hy].map((h) => Number(h[0]) + Number(h[1])) as [number, number];
  const [short, long] = [Math.min(x, y), Math.max(x, y)];
  if (!(short > 0) || nx + ny === 0) return undefined;
  if (nx + ny === 4) return { row: ALL_ROUND, ratio: long / short, onMm: short };
  if (nx === 1 && ny === 1) return { row: BESIDE, ratio: long / short, onMm: short };
  // From here on the two directions differ: `along` runs from held edge to held edge, or along the only one.
  const one = amidst ? ONE_AMIDST : ONE;
  if (nx + ny === 3) return nx === 2 ? { row: THREE, ratio: x / y, onMm: y } : { row: THREE, ratio: y / x, onMm: x };
  if (nx + ny === 2)
    return nx === 2 ? { row: OPPOSITE, ratio: x / y, onMm: y } : { row: OPPOSITE, ratio: y / x, onMm: x };
  return ny === 1 ? { row: one, ratio: x / y, onMm: y } : { row: one, ratio: y / x, onMm: x };
}

/** By powers of the ratio from point to point, and on beyond the ends: that is how narrow and long plates go. */
function alphaOf(row: Row, ratio: number): number {
  const after = row.findIndex(([r]) => r >= ratio);
  const k = after < 0 ? row.length - 1 : Math.max(1, after);
  const [[r0, a0], [r1, a1]] = [row[k - 1]!, row[k]!];
  return a0 * (a1 / a0) ** (Math.log(ratio / r0) / Math.log(r1 / r0));
}
