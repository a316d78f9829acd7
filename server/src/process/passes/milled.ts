/** Passes of a cutter that goes along: over an area in layers, round walls, or over a face in strokes. */
import type { Edge, Region, Void } from '../../geometry/types';
import type { Mill, Tool } from '../../model/shop-model';
import { homeOfTool } from '../../model/tool-kinds';
import { HAIR, ROUNDING, SAME } from '../../tolerance';
import { mayClimb } from '../cutting/hands';
import { rampDegOf } from '../cutting/time';
import type { Enters, Operation } from '../operations/types';
import { FINISH_MM } from '../operations/widths';
import { LEAST_STOCK_MM, stockLeft } from '../room';
import type { Cut } from '../stock/types';
import { isThroughContour } from '../workholding/loose';
import { type Around, areaOfAll, type Cutting, centreAreas, coveredShare, SLACK_MM } from './centre-area';
import { keptClear } from './clear-of-steel';
import type { Step } from './cuts-in-setup';
import { sideBySide, steppedDown, steppedOut } from './depths';
import { strokesOver } from './facing-strokes';
import type { Making, Shape } from './making';
import { stagesOf } from './stages';
import { type Found, strippedOff } from './stripped';
import type { Look, Way } from './types';
import { heightsIn, volumesOf } from './volumes';
import { alongWalls, isThin, led, middleOf, roundAreas, wayAlong } from './ways';

type Made = Exclude<Operation, { does: 'missing' }>;

/** A mill goes so far on below work that it cuts right through, where nothing is there. Common practice, no source. */
const THROUGH_MM = 0.5;

export function milled(operation: Made, step: Step, later: readonly Step[], cut: Cut, m: Making): Shape {
  const { readOut, machine } = m;
  const voids = volumesOf(operation, cut, readOut);
  const [floorZ, topZ] = heightsIn(voids, cut, readOut);
  const apMm = step.priced?.milling?.apMm ?? topZ - floorZ;
  const leavesMm = leftBy(operation, later, cut);
  const climbs = mayClimb(machine);
  const rest = {
    direction: climbs ? ('climb' as const) : ('conventional' as const),
    ...('enters' in operation && operation.enters && entering(operation.enters, operation.tool)),
    leavesMm,
    looks: leavesMm > 0 ? [{ look: 'left-a-side' as const, mm: leavesMm }] : [],
  };
  if (operation.does === 'face' && cut.face) {
    const where = strokesOver(voids[0], operation, m);
    return { ...rest, where, tipsZ: steppedDown(topZ, floorZ, apMm), needsProgram: false };
  }
  const closed = 'enters' in operation && operation.enters !== undefined;
  const cutting = { stages: stagesOf(operation.tool, m.asked.shop), leaveMm: leavesMm, tipZ: floorZ, closed };
  const plain: Around = { readOut, before: cut.before, after: cut.after, obstacles: m.obstacles };
  const around = keptClear(voids, { ...cutting, tipZ: floorZ }, plain, m);
  const tipZ = throughOr(floorZ, voids, cutting, around, m);
  const at = overFloor({ operation, voids, cutting: { ...cutting, tipZ }, around, cut, step, climbs });
  // Tabs lead to a frame: the cutter goes once round, and leaves what is beyond it.
  const round = m.tabs !== undefined && isThroughContour(cut.feature);
  const { where, offs } = round || operation.does === 'finish' ? finishing(at) : clearing(at);
  const curved =
    where.type !== 'at' && where.type !== 'as drawn' && where.ways.some((w) => w.moves.some((x) => x.type === 'arc'));
  const thickMm = thicknessOf(operation);
  const tips = thickMm
    ? sideBySide(topZ, floorZ, thickMm)
    : operation.seat === 'floor'
      ? [floorZ]
      : stepsTo(topZ, at.cutting.tipZ, floorZ, apMm);
  return {
    ...rest,
    where,
    tipsZ: tips,
    needsProgram: curved,
    ...(curved && handsInstead(operation, cut, leavesMm)),
    ...(offs && { offs }),
    ...(round && m.tabs && { looks: [...rest.looks, overTabs(m.tabs, operation.tool)] }),
  };
}

/** Of a cutter that makes no more at a time than it is thick: a disc, and what cuts under an edge. */
function thicknessOf({ does, tool }: Made): number | undefined {
  if (does === 'undercut') return 'thicknessMm' in tool ? tool.thicknessMm : undefined;
  return does === 'slot' ? homeOfTool(tool).disc(tool)?.thicknessMm : undefined;
}

function entering(enters: Enters, tool: Mill): Pick<Shape, 'enters' | 'rampDeg'> {
  return enters === 'helix' || enters === 'ramp' ? { enters, rampDeg: rampDegOf(tool) } : { enters };
}

function overTabs({ z, wideMm }: NonNullable<Making['tabs']>, { diameterMm }: Tool): Look {
  return { look: 'over-tabs', z, mm: (wideMm + diameterMm) / 2 };
}

/** As many steps as down to the floor itself: what goes on below work that is cut through adds none. */
function stepsTo(topZ: number, tipZ: number, floorZ: number, apMm: number): readonly number[] {
  const n = Math.max(1, Math.ceil((topZ - Math.max(tipZ, floorZ)) / apMm - ROUNDING));
  return steppedDown(topZ, tipZ, Math.max(apMm, (topZ - tipZ) / n));
}

/** What stands on its walls afterwards: as much as a later cut of the same volume takes. */
function leftBy(operation: Made, later: readonly Step[], cut: Cut): number {
  if (operation.does !== 'rough' && operation.does !== 'rest') return 0;
  const after = later.map((s) => s.operation);
  const finish = after.find((o) => o.does === 'finish' && o.volume === operation.volume);
  if (finish?.does === 'finish') return finish.wideMm;
  if (cut.feature?.kind !== 'hole' || operation.seat === 'counterbore') return 0;
  if (operation.seat === 'floor') return cut.feature.diameter.tolerance ? LEAST_STOCK_MM : 0;
  const bores = after.some((o) => o.does === 'bore' || o.does === 'finish');
  return bores ? stockLeft(cut.feature.diameter.mm, operation.tool.diameterMm, FINISH_MM) : 0;
}

/** A little below work that is cut right through, where jaws and parallels leave it all its ways. */
function throughOr(
  floorZ: number,
  voids: readonly Void[],
  cutting: Omit<Cutting, 'tipZ'>,
  around: Around,
  m: Making,
): number {
  if (Math.abs(floorZ - m.seatZ) > SAME) return floorZ;
  const size = (tipZ: number) =>
    voids.map((v) => areaOfAll(centreAreas(v, { ...cutting, tipZ }, around) ?? []).toFixed(3)).join();
  const lower = floorZ - THROUGH_MM;
  return size(lower) === size(floorZ) ? lower : floorZ;
}

/** Over the round of a floor that leaves it no room at the bottom; the cutter of that round goes down to it. */
function overFloor(at: Placed): Placed {
  const corner = at.cutting.stages[0]!.fromMm;
  const rounds = at.voids.flatMap(({ profile }) => (profile.type === 'floor' ? [profile.radius] : []));
  const by = Math.max(0, ...rounds) - corner;
  if (by <= HAIR || at.voids.every((v) => coveredBy(v, at) > 0.5)) return at;
  return { ...at, cutting: { ...at.cutting, tipZ: at.cutting.tipZ + by } };
}

function coveredBy(v: Void, { cutting, around }: Placed): number {
  const found = centreAreas(v, cutting, around);
  return found ? coveredShare(v, found, cutting.stages[0]!.radiusMm, around) : 0;
}

/** A cutter starts so far clear of the work. Common practice, no source. */
const LEAD_MM = 1;

interface Placed {
  readonly operation: Made;
  readonly voids: readonly Void[];
  readonly cutting: Cutting;
  readonly around: Around;
  readonly cut: Cut;
  readonly step: Step;
  readonly climbs: boolean;
}
const AS_DRAWN: Found = { where: { type: 'as drawn' } };

interface Areas {
  readonly areas: readonly Region[];
  /** Of a cutter that fills what it makes: lines instead of areas. */
  readonly lines: readonly (readonly Edge[])[];
}

/** Areas of every member; a cutter that fills what it makes has a line for its area. */
function areasOf(at: Placed): Areas | undefined {
  const { voids, cutting, around } = at;
  const areas: Region[] = [];
  const lines: (readonly Edge[])[] = [];
  for (const v of voids) {
    const found = bestOf(v, at);
    if (!found) return undefined;
    if (!found.every((r) => isThin(r, 2 * SLACK_MM))) {
      areas.push(...found);
      continue;
    }
    const whole = centreAreas(v, { ...cutting, leaveMm: -SLACK_MM, closed: false }, around) ?? [];
    lines.push(...found.map((r) => led(middleOf(r, SLACK_MM), whole, wallsOf(at).leadMm)));
  }
  return areas.length + lines.length > 0 ? { areas: distinct(areas), lines } : undefined;
}

/** With as much left as there is room for: less where it is tight, and nothing where the cutter fills it. */
function bestOf(v: Void, { cutting, around }: Placed): readonly Region[] | undefined {
  const { leaveMm } = cutting;
  const covers = (found: readonly Region[] | undefined, t: Cutting) =>
    found ? coveredShare(v, found, t.stages[0]!.radiusMm + Math.max(0, t.leaveMm) + BESIDE_MM, around) : 0;
  const filling = { ...cutting, leaveMm: -SLACK_MM };
  const open = centreAreas(v, filling, around);
  const inside = centreAreas(v, { ...filling, closed: true }, around);
  const most = Math.max(covers(open, filling), covers(inside, filling));
  const tries: readonly Cutting[] = [
    cutting,
    // Where outlines touch just so they can be followed a hair beside that.
    { ...cutting, leaveMm: leaveMm + BESIDE_MM },
    ...[leaveMm - TIGHT_MM, leaveMm / 2].filter((mm) => mm > 0).map((mm) => ({ ...cutting, leaveMm: mm })),
  ];
  for (const t of tries) {
    const found = centreAreas(v, t, around);
    const share = covers(found, t);
    const fills = found?.every((r) => isThin(r, 2 * SLACK_MM));
    if (!fills && share > LEAST && share >= most - AS_GOOD) return found;
  }
  if (most <= LEAST) return undefined;
  const lines = inside?.length && inside.every((r) => isThin(r, 2 * SLACK_MM));
  return lines && covers(inside, filling) >= most - AS_GOOD ? inside : open;
}
/** Shares of a volume that differ by no more are the same. */
const AS_GOOD = 0.03;
const TIGHT_MM = 0.02;
const BESIDE_MM = 5e-4;
/** A cutter that stays outside of what it should make does not get at it. */
const LEAST = 0.3;

/** Members that share an area have it once. */
function distinct(areas: readonly Region[]): readonly Region[] {
  const seen = new Set<string>();
  return areas.filter((r) => {
    const key = r.outer.edges
      .map((e) => `${e.a.u.toFixed(4)} ${e.a.v.toFixed(4)}`)
      .sort()
      .join();
    return !seen.has(key) && seen.add(key);
  });
}

function finishing(at: Placed): Found {
  const found = areasOf(at);
  return found ? { where: { type: 'along', ways: alongOf(found, at) } } : AS_DRAWN;
}

/** Round walls; where none is this cut's own, round the areas; and along lines. */
function alongOf({ areas, lines }: Areas, at: Placed): readonly Way[] {
  const { readOut } = at.around;
  const walls = alongWalls(areas, wallsOf(at));
  const ways = walls.length > 0 ? walls : roundAreas(areas, readOut, at.climbs);
  return [...ways, ...lines.map((l) => wayAlong(l, readOut))];
}

function wallsOf({ cut, around, cutting, climbs, voids }: Placed) {
  const { readOut } = around;
  const [floorZ, topZ] = heightsIn(voids, cut, readOut);
  const heights = [0.001, 0.02, 0.3, 0.7, 0.98].map((t) => floorZ + t * (topZ - floorZ));
  const offMm = cutting.stages[0]!.radiusMm + cutting.leaveMm;
  const leadMm = cutting.stages[0]!.radiusMm + LEAD_MM;
  return { readOut, before: cut.before, after: cut.after, heights, offMm, climbs, leadMm };
}

function clearing(at: Placed): Found {
  const { operation, around, step, climbs } = at;
  const strips = operation.does === 'rough' ? strippedOff(at.voids, wallsOf(at), at) : undefined;
  if (strips) return strips;
  const found = areasOf(at);
  if (!found) return AS_DRAWN;
  const once = operation.does === 'undercut' || operation.does === 'slot' || found.areas.length === 0;
  if (once) return { where: { type: 'along', ways: alongOf(found, at) } };
  const stepMm = step.priced?.milling?.aeMm ?? operation.tool.diameterMm / 2;
  const ways = [...roundAreas(found.areas, around.readOut, climbs)];
  return { where: { type: 'over', ways, stepMm } };
}

/** A circle, where hands cannot drive one: a boring head, a millimetre across at a time. */
function handsInstead(operation: Made, cut: Cut, leavesMm: number): Pick<Shape, 'byHandMm'> {
  if (cut.feature?.kind !== 'hole') return {};
  const { counterbore, diameter } = cut.feature;
  const toMm = operation.seat === 'counterbore' && counterbore ? counterbore.diameter.mm : diameter.mm - 2 * leavesMm;
  const fromMm = operation.seat === 'counterbore' ? diameter.mm : Math.min(operation.tool.diameterMm, toMm);
  return toMm - fromMm > SAME ? { byHandMm: steppedOut(fromMm, toMm, BORE_STEP_MM) } : {};
}
const BORE_STEP_MM = 1;
