/**
 * Why a plan has as many setups as it has: what each is there for, and which small change to the part would save one.
 * By directions, exactly: for each change the smallest set of directions is worked out anew.
 */
import { type Face, OPPOSITE } from '../spec/model';
import { facesOf, fewestDirections, type Mask, maskOf, sizeOf } from './directions';
import type { Item } from './items';
import type { PlannedSetup } from './plan';

/** What a setup is there for: the items that no other setup of the plan could cut. */
export interface Reason {
  /** Index of the setup. */
  readonly setup: number;
  readonly up: Face;
  readonly items: readonly Item[];
  /** Without these items the part needs one setup less, as far as directions go. */
  readonly saves: boolean;
  readonly changes: readonly Change[];
}

/** A change to one feature (or several at once) that lets them be cut from faces that are up anyway. */
export interface Change {
  readonly type: 'through' | 'other-face' | 'by-hand';
  readonly items: readonly Item[];
  /** The faces that would do. */
  readonly faces: readonly Face[];
}

/** One reason for each setup, in their order. `items` are all of the part. */
export function reasonsOf(setups: readonly PlannedSetup[], items: readonly Item[]): readonly Reason[] {
  const ups = setups.map((s) => s.setup.up!.name);
  const count = fewestDirections(items.map((i) => i.from)).count;
  return setups.map((planned, setup) => {
    const up = ups[setup]!;
    const others = maskOf(ups.filter((f, i) => i !== setup && f !== up));
    const only = planned.items.filter((i) => (i.from & others) === 0);
    const rest = items.filter((i) => !only.includes(i));
    const saves = only.length > 0 && fewestDirections(rest.map((i) => i.from)).count < count;
    return { setup, up, items: only, saves, changes: saves ? changesFor(only, items, others, count) : [] };
  });
}

/** The changes that were found to save a setup, the smallest first. */
function changesFor(only: readonly Item[], items: readonly Item[], others: Mask, count: number): readonly Change[] {
  const changes: Change[] = [];
  const fewer = (changed: (i: Item) => Mask) =>
    fewestDirections(items.map((i) => (only.includes(i) ? changed(i) : i.from)).filter((m) => m !== 0)).count < count;
  if (only.every((i) => i.stage === 7) && fewer(() => 0)) changes.push({ type: 'by-hand', items: only, faces: [] });
  const opened = (i: Item) => (canGoThrough(i) ? i.from | maskOf([OPPOSITE[i.feature!.face]]) : i.from);
  if (only.some(canGoThrough) && fewer(opened)) {
    const faces = facesOf(maskOf(only.filter(canGoThrough).map((i) => OPPOSITE[i.feature!.face])) & others);
    changes.push({ type: 'through', items: only.filter(canGoThrough), faces });
  }
  const movable = only.every((i) => i.feature !== undefined && i.stage < 7);
  if (movable && sizeOf(others) > 0 && fewer((i) => i.from | others))
    changes.push({ type: 'other-face', items: only, faces: facesOf(others) });
  return changes;
}

/** A blind hole, pocket or slot, straight down to its floor. */
function canGoThrough({ feature, from }: Item): boolean {
  if (!feature || from === 0) return false;
  if (feature.kind === 'hole') return !feature.depth.through && !feature.counterbore && !feature.countersink;
  return (feature.kind === 'pocket' || feature.kind === 'slot') && !feature.depth.through;
}
