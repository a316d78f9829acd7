/**
 * Holes that are made beside the mill: on a drill press, all of them, after the set-ups; or at the bench, where what was
 * drilled in a set-up is tapped or reamed by hand. What is done there, with what, and how long it takes.
 */
import { memo } from '../memo';
import { materialOf } from '../model/material-of';
import type { Hole } from '../model/model';
import type { Bench, DrillPress } from '../model/shop-benches';
import type { Machine, Shop } from '../model/shop-model';
import type { Minutes } from '../model/shop-times';
import { formOfTool } from '../model/tool-kinds';
import type { ToolForm } from '../model/tool-kinds/kind';
import { isAtBench, pressOf } from './made-on';
import { BY_HAND } from './operations/by-hand';
import { holeOperations } from './operations/holes';
import { priceOf } from './operations/priced';
import type { Operation } from './operations/types';
import type { PartInShop } from './part-in-shop';

export interface BenchStep {
  readonly operation: Operation;
  /** Of the press's speeds the one that is set; none for what hands turn. */
  readonly rpm?: number;
}

export interface BenchWork {
  readonly hole: Hole;
  readonly on:
    | { readonly type: 'press'; readonly press: DrillPress }
    | { readonly type: 'bench'; readonly bench?: Bench };
  readonly steps: readonly BenchStep[];
  /** Of one piece. */
  readonly minutes: Minutes;
}

/** In text order; none on a press that the shop does not have. */
export function benchWork({ part, solid, shop }: PartInShop): readonly BenchWork[] {
  return part.features.flatMap((feature) => {
    if (feature.kind !== 'hole' || !feature.madeOn || solid.voidsOf(feature.name).length === 0) return [];
    const press = pressOf(feature, shop);
    if (press) return [onPress(feature, press, { part, solid, shop })];
    return isAtBench(feature) ? [atBench(feature, { part, solid, shop })] : [];
  });
}

/** A hole marked out, punched, the work clamped under the spindle: for each, besides the drilling. Common practice, no source. */
const MARKED: Minutes = [1.5, 4];
/** One put into the chuck, the belt moved. Common practice, no source. */
const CHANGED: Minutes = [0.5, 1];

function onPress(hole: Hole, press: DrillPress, inShop: PartInShop): BenchWork {
  const { part } = inShop;
  const operations = pressOperations(hole, inShop);
  const material = materialOf(part);
  const machine = asMachine(press, inShop.shop);
  const steps = operations.map((operation): BenchStep & { readonly takes: Minutes } => {
    const priced = material && operation.does !== 'missing' ? priceOf(operation, material, machine) : undefined;
    const rpm = priced?.conditions?.rpm;
    return { operation, ...(rpm !== undefined && { rpm }), takes: finite(priced?.minutes) };
  });
  const n = hole.places.length;
  const sum = (i: 0 | 1) =>
    n * MARKED[i] + steps.length * CHANGED[i] + steps.reduce((minutes, s) => minutes + s.takes[i], 0);
  return {
    hole,
    on: { type: 'press', press },
    steps: steps.map(({ takes: _, ...step }) => step),
    minutes: [sum(0), sum(1)],
  };
}

function finite(minutes: Minutes | undefined): Minutes {
  return minutes?.every(Number.isFinite) ? minutes : [0, 0];
}

/** Chosen from what a drill chuck may hold: no mill, which would work loose, and no boring head. */
export function pressOperations(hole: Hole, { part, solid, shop }: PartInShop): readonly Operation[] {
  return holeOperations(hole, { part, solid, shop: inChuck(shop) });
}

const IN_CHUCK: ReadonlySet<ToolForm> = new Set(['drill', 'spot', 'reamer', 'tap', 'cone', 'seat']);

const inChuck = memo(
  (shop: Shop): Shop => ({
    ...shop,
    tools: shop.tools.filter((t) => IN_CHUCK.has(formOfTool(t))),
  }),
);

function atBench(hole: Hole, inShop: PartInShop): BenchWork {
  const { shop } = inShop;
  const operations = holeOperations(hole, inShop).filter((o) => BY_HAND.has(o.does));
  const { tap, 'tap-turn': turn } = shop.times;
  const takes = (o: Operation, i: 0 | 1) =>
    o.does === 'tap' ? o.times * (tap[i] + (o.depthMm / o.pitchMm) * turn[i]) : o.times * REAMED[i];
  const sum = (i: 0 | 1) => operations.reduce((minutes, o) => minutes + takes(o, i), 0);
  return {
    hole,
    on: { type: 'bench', ...(shop.bench && { bench: shop.bench }) },
    steps: operations.map((operation) => ({ operation })),
    minutes: [sum(0), sum(1)],
  };
}

/** One hole reamed by hand, oiled, turned through and out, never back. Common practice, no source. */
const REAMED: Minutes = [1, 3];

/** As the machine that it is for speeds and times: hands feed it, and turn its taps. */
const asMachine = memo(
  (press: DrillPress, shop: Shop): Machine => ({
    name: press.name,
    span: press.span,
    travelMm: [0, 0, press.strokeMm],
    rpm: [press.rpm[0]!, press.rpm.at(-1)!],
    stepsRpm: press.rpm,
    powerW: press.powerW,
    coolant: 'none',
    zeroErrorMm: {},
    toolChangeS: 60,
    control: 'hand',
    tapping: 'hand',
    backlashMm: 0,
    hands: { tap: shop.times.tap, 'tap-turn': shop.times['tap-turn'], 'bore-cut': shop.times['bore-cut'] },
  }),
  { by: (_, shop) => [shop] },
);
