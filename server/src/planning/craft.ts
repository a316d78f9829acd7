/** How well a plan keeps to the order of craft (`process/craft.ts`): what had rather be cut before what, and from which side. */
import { heed } from '../effort';
import type { Solid } from '../geometry/types';
import type { Face } from '../model/model';
import { isOfOneScrew, whyFirst } from '../process/craft';
import { EDGE_STAGE, type Item, needed } from './item';
import type { Move } from './search';
import type { Made } from './trial';

/** More pairs than this are not looked at: what a better order gains is little against so much cutting. */
const MOST_PAIRS = 4000;

/** Indices of what had rather be there before an item is cut. */
export function ratherAfter({ feature }: Item, items: readonly Item[], solid: Solid): readonly number[] {
  if (!feature || items.length ** 2 > MOST_PAIRS) return [];
  heed(items.length);
  return items
    .filter((other) => other.feature && other.stage < EDGE_STAGE && whyFirst(other.feature, feature, solid))
    .map((other) => other.index);
}

/** Indices of the other holes of the same screw that can be drilled from a side that this one can. */
export function ratherBeside({ feature, from }: Item, items: readonly Item[], solid: Solid): readonly number[] {
  if (feature?.kind !== 'hole' || items.length ** 2 > MOST_PAIRS) return [];
  return items
    .filter((i) => (i.from & from) !== 0 && i.feature && isOfOneScrew(feature, i.feature, solid))
    .map((i) => i.index);
}

type Cut = Pick<Move<Made>, 'cut' | 'pose' | 'made'>;

/** How often a plan goes against it: once for each pair, and for each set-up that cuts by a face that is still to be milled. */
export function againstCraft(moves: readonly Cut[]): number {
  const when = new Map<number, { readonly at: number; readonly up: Face }>();
  for (const [at, { cut, pose }] of moves.entries()) for (const { index } of cut) when.set(index, { at, up: pose.up });
  let n = 0;
  for (const [at, { cut, pose }] of moves.entries())
    for (const { rather = [], beside = [], index } of cut) {
      n += rather.filter((r) => (when.get(r)?.at ?? -1) > at).length;
      n += beside.filter((b) => b > index && when.has(b) && when.get(b)!.up !== pose.up).length;
    }
  return n + moves.filter((m, at) => isBeforeSquare(m, moves.slice(at + 1))).length;
}

/** Features are placed from a face on which stock stands until a later set-up: square up first. */
function isBeforeSquare({ cut, made }: Cut, later: readonly Cut[]): boolean {
  if (needed(cut).every((i) => !i.feature)) return false;
  const raw = new Set(later.flatMap((m) => m.cut.flatMap((i) => (i.face ? [i.face as string] : []))));
  return Object.values(made.setup.zero).some((zero) => zero !== undefined && raw.has(zero.name));
}
