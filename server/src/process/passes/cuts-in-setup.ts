/**
 * What each entry of a set-up's `cuts` comes to in that set-up: its operations in order, priced, and how much of them is
 * done here. The one answer for times, passes and what is printed.
 */
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX, sharedBox } from '../../geometry/vector';
import { materialOf } from '../../model/material-of';
import { type CutEntry, FACE_AXIS, type Face, type Feature, type Part, type Setup } from '../../model/model';
import type { Minutes } from '../../model/shop-times';
import { facingInSetup } from '../access/facing';
import { operationsOf } from '../operations';
import { type Priced, priceOf } from '../operations/priced';
import type { Operation } from '../operations/types';
import { unfit } from '../operations/unfit';
import type { PartInShop } from '../part-in-shop';
import { timelineOf } from '../stock';
import type { Cut } from '../stock/types';
import { machineOf } from '../workholding/forces';
import { isFreedOnTabs } from '../workholding/on-tabs';
import { clearOperations } from './clear-tools';

/** One operation in one set-up. */
export interface Step {
  readonly operation: Operation;
  /** Absent where the material is not in the tables, or the shop has no machine. */
  readonly priced?: Priced;
  /** Of the operation, what this set-up takes. */
  readonly minutes: Minutes;
  /** Nothing on hand does it, or does it here: what would. */
  readonly missing?: string;
}

export interface EntryCuts {
  readonly entry: CutEntry;
  /** In the part's own set-ups. */
  readonly cut?: Cut;
  readonly steps: readonly Step[];
}

export function cutsIn(setup: Setup, asked: PartInShop): readonly EntryCuts[] {
  return setup.cuts.map((entry) => cutOf(entry, setup, asked));
}

/** Of one entry. */
export function cutOf(entry: CutEntry, setup: Setup, asked: PartInShop): EntryCuts {
  const { part, solid, shop } = asked;
  const then = timelineOf(part, solid).setups.find((s) => s.setup === setup);
  const material = materialOf(part);
  const machine = machineOf(setup, shop);
  const cut = then?.cuts.find((c) => c.span === entry.span && c.name === entry.name);
  const feature = part.featureByName.get(entry.name);
  const operations = feature
    ? cut && then
      ? clearOperations(feature, cut, then, asked)
      : operationsOf(feature, asked)
    : cut
      ? facingInSetup(cut, setup, part, shop)
      : [];
  const share = feature ? portionOf(entry, feature, setup, part, solid) : 1;
  const slotted = isFreedOnTabs(setup, feature);
  const steps = operations.map((as): Step => {
    const operation = slotted ? inTheFull(as, operations) : as;
    if (operation.does === 'missing') return { operation, minutes: [0, 0], missing: operation.wanted };
    if (!material || !machine) return { operation, minutes: [0, 0] };
    const priced = priceOf(operation, material, machine);
    const [low, high] = priced.minutes;
    if (Number.isFinite(low) && Number.isFinite(high))
      return { operation, priced, minutes: [share * low, share * high] };
    return {
      operation,
      priced,
      minutes: [0, 0],
      missing: unfit(operation, material, machine) ?? operation.tool.name,
    };
  });
  return { entry, ...(cut && { cut }), steps };
}

/** Only once round: the stock beyond the cutter is the frame that the tabs lead to. */
function inTheFull(operation: Operation, all: readonly Operation[]): Operation {
  if (operation.does !== 'rough') return operation;
  const { diameterMm } = operation.tool;
  const wayMm = all.find((o) => o.does === 'finish')?.wayMm ?? operation.volumeMm3 / (diameterMm * operation.depthMm);
  const volumeMm3 = wayMm * diameterMm * operation.depthMm;
  return { ...operation, neckMm: diameterMm, wideMm: diameterMm, volumeMm3 };
}

/**
 * Of what all of it takes: where depths are written, by depth, and what is named alone is the rest; else edges that are
 * broken in several setups, and what is cut half from each side, take the same in each.
 */
function portionOf(entry: CutEntry, feature: Feature, setup: Setup, { setups = [] }: Part, solid: Solid): number {
  const all = setups.flatMap((s) => s.cuts.filter((c) => c.name === feature.name).map((c) => ({ c, up: s.up?.name })));
  const deep = ({ depth }: CutEntry, up: Face | undefined) => {
    if (depth === undefined || depth === 'half' || !up) return 0.5;
    const i = AXIS_INDEX[FACE_AXIS[up].axis];
    const boxes = solid.voidsOf(feature.name).map((v) => sharedBox(v.bounds, solid.body.box, 0));
    const full = Math.max(...boxes.map((b) => b.max[i])) - Math.min(...boxes.map((b) => b.min[i]));
    return full > 0 ? Math.min(1, depth.mm / full) : 1;
  };
  if (entry.depth !== undefined) return deep(entry, setup.up?.name);
  const written = all.filter(({ c }) => c.depth !== undefined);
  if (written.length === 0) return 1 / Math.max(1, all.length);
  return Math.max(0, 1 - written.reduce((sum, { c, up }) => sum + deep(c, up), 0));
}
