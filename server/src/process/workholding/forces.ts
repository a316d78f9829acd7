/** What the cuts of a set-up push the work with, and what friction between two jaws holds. */

import { memo } from '../../memo';
import { materialOf } from '../../model/material-of';
import type { Setup } from '../../model/model';
import type { Machine, Mill, Shop, Tool } from '../../model/shop-model';
import { isCone, isFacer } from '../../model/tool-kinds';
import type { Material } from '../../tables/materials';
import { type MillingConditions, millingConditions } from '../cutting/conditions';
import { operationsOf } from '../operations';
import { asMill, FINISH_MM, priceOf } from '../operations/priced';
import { threadBite, threadCutter } from '../operations/thread-milled';
import type { PartInShop } from '../part-in-shop';
import type { Cut, SetupInTime } from '../stock/types';

export interface Push {
  /** In the plane of the jaws at worst: sideways and up. */
  readonly forceN: number;
  readonly sidewaysN: number;
  readonly liftN: number;
  readonly cut: Cut;
  readonly tool: string;
}

/** A facing cut takes no more than this at once, and so much of the cutter's width. Common practice, no source. */
const FACING = { deepMm: 1, share: 0.7 } as const;

/** One way that a cut pushes the work sideways. */
interface Pass {
  readonly forceN: number;
  /** Up, by the helix. */
  readonly liftN: number;
  readonly tool: string;
  /** Height of the cutter's engagement. */
  readonly apMm: number;
}

/** What cuts are made of and on. */
interface CutIn extends PartInShop {
  readonly machine: Machine;
  readonly material: Material;
}

/** Every operation of a cut that pushes sideways; none where it only pushes down, or nothing on hand cuts it. */
export function passesOf(cut: Cut, inShop: CutIn): readonly Pass[] {
  const { shop, machine, material } = inShop;
  if (cut.face) return facing(cut, shop, machine, material);
  if (!cut.feature) return [];
  return operationsOf(cut.feature, inShop).flatMap((operation) => {
    if (operation.does === 'missing') return [];
    const { milling } = priceOf(operation, material, machine);
    return milling ? passesWith(milling, operation.tool.name) : [];
  });
}

/** One for each helix that the cutter may have. */
function passesWith({ load, apMm }: MillingConditions, tool: string): readonly Pass[] {
  return load.together.map(({ acrossN, alongN }) => ({ forceN: acrossN, liftN: alongN, tool, apMm }));
}

/** What friction must hold: the push and the lift lie in the plane of the jaws together where the push is along them. */
function pulledN({ forceN, liftN }: Pick<Pass, 'forceN' | 'liftN'>): number {
  return Math.hypot(forceN, liftN);
}

/** On the work at its heaviest in one cut; undefined where nothing pushes. */
function heaviestForceN(cut: Cut, cutIn: CutIn): Pass | undefined {
  return passesOf(cut, cutIn).reduce<Pass | undefined>(
    (worst, p) => (!worst || pulledN(p) > pulledN(worst) ? p : worst),
    undefined,
  );
}

function facing(cut: Cut, shop: Shop, machine: Machine, material: Material): readonly Pass[] {
  const [v] = cut.removes;
  if (!v) return [];
  const mills = shop.tools.filter(isFacer);
  const mill = mills.reduce<Mill | undefined>(
    (best, m) => (!best || m.diameterMm > best.diameterMm ? m : best),
    undefined,
  );
  if (!mill) return [];
  const apMm = Math.min(FACING.deepMm, v.to - v.from);
  return passesWith(
    millingConditions(material, mill, machine, { aeMm: FACING.share * mill.diameterMm, apMm }),
    mill.name,
  );
}

/** Widths and depths, in diameters, that stand for all that roughing and clearing take; and what may lie between them. */
const ROUGHING = [0.02, 0.1, 0.25, 0.4, FACING.share, 1].flatMap((share) =>
  [0.375, 0.75, 1.5].map((deep) => [share, deep] as const),
);
const BETWEEN = 1.15;

/**
 * No cut with any tool of the shop pushes harder, N: each at the width and depth that roughing goes to at most. Found
 * once for a shop and a material, so that most set-ups need not be looked at cut by cut.
 */
export const mostForceN = memo(
  (shop: Shop, machine: Machine, material: Material): number =>
    BETWEEN * Math.max(0, ...shop.tools.map((tool) => mostOf(tool, machine, material))),
  { size: 8 },
);

function mostOf(tool: Tool, machine: Machine, material: Material): number {
  if (!('flutes' in tool) && !isCone(tool)) return 0;
  const d = tool.diameterMm;
  const mill = tool.kind === 'thread-mill' ? threadCutter(tool) : asMill(tool);
  const push = (aeMm: number, apMm: number) =>
    Math.max(...passesWith(millingConditions(material, mill, machine, { aeMm, apMm }), mill.name).map(pulledN));
  if (tool.kind === 'thread-mill') {
    const pitchMm = tool.pitchMm[1];
    const { aeMm, apMm } = threadBite(tool, { pitchMm, depthMm: tool.fluteLengthMm, toothMm: DEEPEST_TOOTH * pitchMm });
    return push(aeMm, apMm);
  }
  // Form cutters go no deeper than they are thick, face mills as facing does.
  if (tool.kind !== 'end-mill')
    return Math.max(
      push(d / 2, 'thicknessMm' in tool ? Math.min(d / 2, tool.thicknessMm) : d / 2),
      tool.kind === 'face-mill' ? push(FACING.share * d, FACING.deepMm) : 0,
    );
  // A deeper cut does not always push harder: the edges of a helix pull against one another, and the feed comes down.
  return Math.max(
    ...ROUGHING.map(([share, deep]) => push(share * d, Math.min(tool.fluteLengthMm, deep * d))),
    push(FINISH_MM, tool.fluteLengthMm),
    push(FINISH_MM, tool.fluteLengthMm / 2),
  );
}

/** Of their pitch, the deepest teeth there are: NPT, ASME B1.20.1. */
const DEEPEST_TOOTH = 0.8;

/** The machine a set-up names, or the shop's first. */
export function machineOf(setup: Setup, shop: Shop): Machine | undefined {
  return shop.machines.find((m) => m.name === setup.machine?.name) ?? shop.machines[0];
}

/**
 * The heaviest of a set-up's cuts; undefined where the material or the machine is not known, or nothing is milled, or
 * where no cut of this shop could push harder than `unlessN`.
 */
export function heaviestOf(s: SetupInTime, { part, solid, shop }: PartInShop, unlessN = 0): Push | undefined {
  const material = materialOf(part);
  const machine = machineOf(s.setup, shop);
  if (!material || !machine) return undefined;
  if (unlessN > 0 && mostForceN(shop, machine, material) <= unlessN) return undefined;
  let worst: Push | undefined;
  for (const cut of s.cuts) {
    const push = heaviestForceN(cut, { part, solid, shop, machine, material });
    if (push && pulledN(push) > (worst?.forceN ?? 0))
      worst = { forceN: pulledN(push), sidewaysN: push.forceN, liftN: push.liftN, tool: push.tool, cut };
  }
  return worst;
}

/** Along or out of the jaws, N: friction on both, 2 μ F. */
export function frictionN(forceN: number, mu: number): number {
  return 2 * mu * forceN;
}

/** The clamping force that a push asks for, N: S · F / (2 μ). */
export function clampFor(pushN: number, mu: number, safety: number): number {
  return (safety * pushN) / (2 * mu);
}
