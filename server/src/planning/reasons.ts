/**
 * Why a plan has as many set-ups as it has: what each is there for, and which small change to the part would save one. What
 * directions say is only where to look: a change is told when the part was planned with it, and took fewer.
 */

import { breaksEdges } from '../model/feature-kinds';
import { featureNameOf } from '../model/member-name';
import type { Face } from '../model/model';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import { applyEdits, locateEdits } from '../text/edit';
import { facesOf, fewestDirections, maskOf } from './directions';
import { EDGE_STAGE, type Item, needed } from './item';
import { itemsOf } from './items';
import { type Plan, type PlanOptions, planOf } from './plan';

/** What a setup is there for: the items that no other setup of the plan could cut. */
export interface Reason {
  /** Index of the setup. */
  readonly setup: number;
  readonly up: Face;
  readonly items: readonly Item[];
  /** With how many set-ups the rest would do, where that are fewer: planned. */
  readonly without?: number;
  readonly changes: readonly Change[];
  /** Of these some are cut half from here, half from the other side. */
  readonly halved: readonly Item[];
  /** Of these some could also be cut from a face that is up in another setup, if a tool reached. */
  readonly short: readonly Item[];
}

/** A change to the part, and how many set-ups it then takes. */
export interface Change {
  /** `by-hand`: edges not broken at the machine; `through`: blind ones go through; `other-face`: on a face that is up anyway. */
  readonly type: 'by-hand' | 'through' | 'other-face';
  readonly items: readonly Item[];
  readonly faces: readonly Face[];
  readonly setups: number;
}

/** More names than this on another face is another part. */
const FEW = 2;

/** One reason for each setup, in their order; none of plans that cut not all, or in one setup. */
export function reasonsOf(plan: Plan, checked: CheckedPart): readonly Reason[] {
  if (plan.uncut.length > 0 || plan.setups.length < 2) return [];
  const { setups, items } = plan;
  const ups = setups.map((s) => s.setup.up!.name);
  const fewest = fewestDirections(needed(items).map((i) => i.from)).count;
  const asDrawn = itemsOf(checked);
  return setups.map((planned, setup) => {
    const up = ups[setup]!;
    const others = maskOf(ups.filter((f, i) => i !== setup && f !== up));
    const reached = (item: Item) => items[item.index]?.from ?? item.from;
    const twice = ups.some((f, i) => i !== setup && f === up);
    const only = twice ? [] : needed(planned.items).filter((i) => (reached(i) & others) === 0);
    const halved = only.filter((i) => i.share);
    const short = only.filter((i) => !i.share && ((asDrawn[i.index]?.from ?? 0) & others) !== 0);
    const rest = needed(items).filter((i) => !only.some((o) => o.index === i.index));
    const may = only.length > 0 && fewestDirections(rest.map((i) => i.from)).count < fewest;
    const without = may ? countWithout(only, plan, checked) : undefined;
    const saves = without !== undefined && without < setups.length ? without : undefined;
    return {
      setup,
      up,
      items: only,
      ...(saves !== undefined && { without: saves }),
      changes: saves === undefined ? [] : changesFor(only, others, saves, plan, checked),
      halved,
      short,
    };
  });
}

/** Looked for so long: a change that saves a set-up leaves a plan that is soon found. */
const MOST_ATTEMPTS = 60;

/** Held in the same ways: what other ways save is not the change's doing. */
export function fewerThan({ setups }: Plan): PlanOptions {
  const inVises = setups.every((s) => s.setup.hold?.vise !== undefined);
  return { mostSetups: setups.length - 1, mostAttempts: MOST_ATTEMPTS, inVises };
}

/** How many set-ups the part takes when these are not cut at all; undefined where that are not at most so many. */
function countWithout(only: readonly Item[], plan: Plan, checked: CheckedPart): number | undefined {
  const without = new Set(only.map((i) => i.name));
  const other = planOf(checked, { without, ...fewerThan(plan) });
  return other && other.uncut.length === 0 ? other.setups.length : undefined;
}

function changesFor(
  only: readonly Item[],
  others: number,
  without: number,
  plan: Plan,
  checked: CheckedPart,
): readonly Change[] {
  const changes: Change[] = [];
  const names = new Set(only.map((i) => i.name));
  if (only.every((i) => i.stage === EDGE_STAGE)) return [{ type: 'by-hand', items: only, faces: [], setups: without }];
  if (only.every((i) => canGoThrough(i, checked))) {
    const through = planThrough(names, plan, checked);
    if (through && through.setups.length < plan.setups.length) {
      const cutting = through.setups.filter((s) => s.items.some((i) => names.has(i.name)));
      const faces = [...new Set(cutting.map((s) => s.setup.up!.name))];
      changes.push({ type: 'through', items: only, faces, setups: through.setups.length });
    }
  }
  const elsewhere = facesOf(others);
  if (changes.length === 0 && names.size <= FEW && elsewhere.length > 0 && only.every(canMove))
    changes.push({ type: 'other-face', items: only, faces: elsewhere, setups: without });
  return changes;
}

/** A marking stands alone: a hole on another face would be for another thing. What names its face says nothing on another. */
function canMove({ feature }: Item): boolean {
  return feature?.kind === 'engraving' && !feature.from && !NAMES_A_SIDE.test(feature.text);
}

const NAMES_A_SIDE =
  /(^|[^a-z])(left|right|front|back|rear|top|bottom|up|down|in|out|inside|outside|side|this|fwd|aft|port|starboard|[lrfb+-]?[xyz][+-]?|[lrfbud])([^a-z]|$)|[←→↑↓]/i;

/**
 * A plain drilled hole, its depth written, that nothing stands on and nothing is asked of at its bottom: a pocket's floor is
 * there for something, and so is a flat or toleranced one. A thread of a depth of its own begins where its screw comes in.
 */
function canGoThrough({ feature, from }: Item, { part }: CheckedPart): boolean {
  if (feature?.kind !== 'hole' || from === 0 || feature.from || feature.threadDepth) return false;
  const { name } = feature;
  if ([...part.datums.values()].some((d) => featureNameOf(d.target.name) === name)) return false;
  if (part.tolerances.some((t) => t.of.some((n) => featureNameOf(n.name) === name))) return false;
  const { depth, diameter, counterbore, countersink, bottom } = feature;
  if (counterbore || countersink || diameter.tolerance || bottom === 'flat') return false;
  return !depth.through && depth.length !== undefined && !depth.length.tolerance;
}

/** The part with these through, read from its text and planned anew; undefined where it is not sound, or not cut in so many. */
function planThrough(names: ReadonlySet<string>, before: Plan, checked: CheckedPart): Plan | undefined {
  const { part, tree, shop } = checked;
  const edits = part.features.flatMap((f) =>
    names.has(f.name) && 'depth' in f && f.depth?.length ? [{ span: f.depth.length.span, newText: 'through' }] : [],
  );
  if (edits.length !== names.size) return undefined;
  const changed = checkPart(applyEdits(tree.text, locateEdits(tree, edits)), shop, checked);
  // What is worse for it, or opens into something else, is another part.
  const against = (of: CheckedPart) => of.findings.filter((f) => f.severity !== 'hint').length;
  if (against(changed) > against(checked) || metBy(names, changed) > metBy(names, checked)) return undefined;
  const plan = planOf(changed, fewerThan(before));
  return plan && plan.uncut.length === 0 ? plan : undefined;
}

/** How many other features these run into, by the boxes round their volumes. */
function metBy(names: ReadonlySet<string>, { part, solid }: CheckedPart): number {
  const own = [...names].flatMap((name) => solid.voidsOf(name));
  const others = part.features.filter((f) => !names.has(f.name) && !breaksEdges(f));
  return others.filter((f) =>
    solid
      .voidsOf(f.name)
      .some((v) =>
        own.some((o) =>
          [0, 1, 2].every((i) => v.bounds.min[i]! < o.bounds.max[i]! && v.bounds.max[i]! > o.bounds.min[i]!),
        ),
      ),
  ).length;
}
