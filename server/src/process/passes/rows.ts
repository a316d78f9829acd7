/** The passes of one cut in its set-up: tool, speed, feed, where and how deep, and what to look for. */
import type { Void } from '../../geometry/types';
import type { Machine, Tool } from '../../model/shop-model';
import { pointBelowMm } from '../cutters';
import { mayClimb } from '../cutting/hands';
import type { Operation } from '../operations/types';
import type { Cut } from '../stock/types';
import type { Asked, EntryCuts, Step } from './cuts-in-setup';
import { steppedDown, steppedOut } from './depths';
import { feedOf, speedOf } from './feeds';
import { rangeOf, stationOf } from './read-out';
import type { Look, PassRow, ReadOut, Station, Where } from './types';

export interface Making {
  readonly asked: Asked;
  readonly readOut: ReadOut;
  readonly machine: Machine;
  /** How far a tool stands out in this cut, as judged. */
  readonly outMm: (cut: Cut, tool: Tool) => number;
}

type Made = Exclude<Operation, { does: 'missing' }>;
/** A pass before it has its number and its place in the list. */
type Pass = Omit<PassRow, 'kind' | 'number' | 'samePlace'>;

/** Nothing for what is missing, or has no place in the set-up. */
export function passesOf(entry: EntryCuts, m: Making): readonly Pass[] {
  const { cut } = entry;
  if (!cut) return [];
  return entry.steps.flatMap((step, i) => {
    const { operation, priced } = step;
    if (operation.does === 'missing' || !priced || step.missing !== undefined) return [];
    const speed = speedOf(priced, operation.tool, m.machine);
    const later = entry.steps.slice(i + 1);
    const base = {
      of: [entry.entry.name],
      operation,
      tool: operation.tool,
      stickoutMm: m.outMm(cut, operation.tool),
      speed,
      feed: feedOf(priced, speed, m.machine),
      minutes: step.minutes,
    };
    return [{ ...base, ...shapeOf(operation, step, later, cut, m) }];
  });
}

type Shape = Omit<Pass, 'of' | 'operation' | 'tool' | 'stickoutMm' | 'speed' | 'feed' | 'minutes'>;

const PLUNGED: ReadonlySet<Operation['does']> = new Set([
  'spot',
  'drill',
  'ream',
  'counterbore',
  'countersink',
  'bore',
  'tap',
]);

function shapeOf(operation: Made, step: Step, later: readonly Step[], cut: Cut, m: Making): Shape {
  return PLUNGED.has(operation.does) ? plunged(operation, step, cut, m) : milled(operation, step, later, cut, m);
}

function plunged(operation: Made, { priced }: Step, cut: Cut, { readOut }: Making): Shape {
  const bores = cut.removes.filter((v) => v.role === 'bore');
  const places = bores.map((v) => middleOf(v, readOut));
  const [floorZ, topZ] = heights(bores, readOut);
  const depthMm = 'depthMm' in operation ? operation.depthMm : 0;
  const flat = cut.feature?.kind === 'hole' && cut.feature.bottom === 'flat' && !cut.feature.depth.through;
  const tip = operation.does === 'spot' ? topZ - depthMm : floorZ - pointBelowMm(operation.tool, flat);
  const lift = priced?.peckMm;
  return {
    direction: 'down',
    where: places.length > 0 ? { type: 'at', places } : { type: 'as drawn' },
    tipsZ: [tip],
    ...(lift !== undefined && Number.isFinite(lift) && { liftEachMm: lift }),
    ...(operation.does === 'bore' && {
      diametersMm: steppedOut(operation.diameterMm - 0.6, operation.diameterMm, 0.2),
    }),
    leavesMm: 0,
    needsProgram: false,
    looks: looksOf(operation),
  };
}

function looksOf(operation: Made): readonly Look[] {
  if (operation.does === 'spot') return [{ look: 'this-wide', diameterMm: operation.diameterMm }];
  return operation.does === 'bore' || operation.does === 'ream' ? [{ look: 'smooth' }] : [];
}

function milled(operation: Made, { priced }: Step, later: readonly Step[], cut: Cut, m: Making): Shape {
  const [floorZ, topZ] = heights(cut.removes, m.readOut);
  const finish = later.map((s) => s.operation).find((o) => o.does === 'finish');
  const where: Where = { type: 'as drawn' };
  return {
    direction: mayClimb(m.machine) ? 'climb' : 'conventional',
    where,
    ...('enters' in operation && operation.enters && { enters: operation.enters }),
    tipsZ: steppedDown(topZ, floorZ, priced?.milling?.apMm ?? topZ - floorZ),
    leavesMm: finish?.does === 'finish' && operation.does !== 'finish' ? finish.wideMm : 0,
    needsProgram: false,
    looks: [],
  };
}

/** Lowest and highest that volumes have. */
function heights(voids: readonly Void[], { Z }: ReadOut): readonly [number, number] {
  const all = voids.map((v) => rangeOf(Z, v.bounds));
  return [Math.min(...all.map((r) => r[0])), Math.max(...all.map((r) => r[1]))];
}

function middleOf({ bounds: { min, max } }: Void, readOut: ReadOut): Station {
  return stationOf(readOut, [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2]);
}
