import type { Face, Feature } from '../model/model';
import type { Mask } from './directions';

/** The stage of edges: they are broken when all else is there. */
export const EDGE_STAGE = 7;

/** What is to be cut in one go: a feature, or a face of the stock. */
export interface Item {
  readonly index: number;
  /** The feature's name, or the face's: what `cuts` says. */
  readonly name: string;
  readonly feature?: Feature;
  readonly face?: Face;
  /** The part is sawn off its bar at this face: no tool of the mill. */
  readonly sawn?: Face;
  /** Of a face and of what is sawn off: how much stock stands there before, mm. */
  readonly overMm?: number;
  /** Only half its depth, from the one side in `from`; the other half is an item of its own. */
  readonly share?: 'half';
  /** What is in the way of all of it at once; left out: no tool on hand gets to the bottom. */
  readonly halvedFor?: 'jaws';
  /** Of a face: so much stock stands on it that jaws can hold the work by it, clear of what is cut above. */
  readonly grips?: boolean;
  /** Small edges: broken in a set-up that is there anyway, else with a file. No set-up is made for them. */
  readonly byHand?: true;
  /** Directions a straight tool gets to it from; 0 where none of the six. */
  readonly from: Mask;
  /** Indices of items that must be cut before it, or earlier in the same setup. */
  readonly after: readonly number[];
  /** Indices of items that a machinist would rather have cut before it, where either order can be made. */
  readonly rather?: readonly number[];
  /** Indices of the other holes of its screw: drilled from one side they are in line. */
  readonly beside?: readonly number[];
  /** Indices of faces that are gone once it is cut: an outline takes off all that stands outside it. */
  readonly brings?: readonly number[];
  /** When in a setup: faces before pockets, pockets before holes, edges last. */
  readonly stage: number;
  /** Of what it removes within the body, mm³. */
  readonly volumeMm3: number;
}

/** What set-ups are made for. */
export function needed(items: readonly Item[]): readonly Item[] {
  return items.filter((i) => !i.byHand);
}
