/**
 * The cuts that make a pocket, slot, step or contour: one cutter that does all of it, or a larger one to rough and the one
 * that its corners allow to finish, whichever takes less time with the change of tool.
 */

import { lengthOf, pointAt } from '../../geometry/2d/edge';
import { regionEdges } from '../../geometry/2d/moments';
import type { Solid } from '../../geometry/types';
import type { Mill, Shop } from '../../model/shop-model';
import { SAME } from '../../tolerance';
import { cornerReach, outlineReach, reachingAlong } from '../choice';
import type { Place } from '../column';
import { type Corner, isWall, leftInSharpMm, UNNOTICED_MM } from '../corners';
import { endMills, fits, fitting, type Gap, roughers, SAME_MM, SAME_REACH_MM, shankRadius } from '../cutters';
import type { MilledVoid } from '../milling';
import { LEAST_STOCK_MM } from '../room';
import { BEYOND_MM } from '../stock/partial';
import { askedOf, BOTH_SIDES, cutFromBothSides, toolAsked } from './asked';
import { enteringFirst, letIn } from './entered';
import { cornerMill, cornersAfter, type IntoCorners } from './into-corners';
import { quickest, type Task } from './quickest';
import { bulges, coveredShare } from './rest';
import { milledSeen, type Seen } from './seen';
import { Sharing, type Volume } from './shares';
import type { Operation } from './types';
import { roomIn, type StockInSetup, turnedWork } from './widths';

interface Cutters {
  /** Those that pass the narrowest place and reach, largest first. */
  readonly rough: readonly Mill[];
  /** Those that also make the floor and every corner but sharp ones, which none makes; largest first. */
  readonly finish: readonly Mill[];
  /** Where none does all of that: those that go round and make the floor, and the one for the corners. */
  readonly round?: readonly Mill[];
  readonly corners?: IntoCorners;
}

/** More are not looked at: a smaller cutter is slower, and seldom worth a change of tool. */
const MOST_FINISHERS = 4;
const MOST_ROUGHERS = 7;

/** Which end mills rough and finish one volume. `ownDepth`: each must reach all of its depth, whatever stands round it. */
function cuttersFor(m: MilledVoid, solid: Place, shop: Shop, ownDepth = false): Cutters {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.widestMm, floorRadiusMm: 0 };
  const reaching = (mills: readonly Mill[]) =>
    ownDepth ? mills.filter((t) => t.reachMm >= m.tipMm - SAME_REACH_MM) : reachingAlong(m, mills, solid);
  const rough = reaching(fitting(shop, gap));
  const alone = sizesOf(reaching(roughers(shop).filter((mill) => fits(mill, gap))));
  const onFloor = sizesOf(rough.filter((mill) => floorFits(m, mill)));
  const ground = onFloor.length > 0 || ownDepth ? onFloor : reachingFloor(m, solid, shop);
  const finish: Mill[] = [];
  for (const mill of ground) {
    if (finish.length >= MOST_FINISHERS) break;
    if (m.corners.every((c) => c.radiusMm === 0 || makesCorner(m, c, solid, mill))) finish.push(mill);
  }
  const cutters = {
    rough: [...sizesOf(rough).slice(0, MOST_ROUGHERS), ...alone.slice(0, MOST_ROUGHERS)],
    finish,
  };
  if (finish.length > 0 || ownDepth || ground.length === 0) return cutters;
  const corners = cornerMill(m, solid, shop);
  return corners ? { ...cutters, round: ground.slice(0, MOST_FINISHERS), corners } : cutters;
}

/** Of each diameter the shortest that reaches, which is the stiffest. `mills` largest first, of one size the shortest first. */
function sizesOf(mills: readonly Mill[]): readonly Mill[] {
  return mills.filter((mill, i) => mill.diameterMm !== mills[i - 1]?.diameterMm);
}

function makesCorner(m: MilledVoid, corner: Corner, solid: Place, mill: Mill): boolean {
  if (mill.diameterMm > 2 * corner.radiusMm + SAME_MM) return false;
  if (mill.reachMm >= corner.floorMm - SAME_REACH_MM) return true;
  return cornerReach(m, corner, solid, mill.diameterMm / 2, shankRadius(mill)) <= mill.reachMm + SAME;
}

function floorFits(m: MilledVoid, mill: Mill): boolean {
  return (
    !(m.floorRadiusMm > 0) || !Number.isFinite(m.floorRadiusMm) || Math.abs(mill.cornerRadiusMm - m.floorRadiusMm) < 0.2
  );
}

function reachingFloor(m: MilledVoid, solid: Place, shop: Shop): readonly Mill[] {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.widestMm, floorRadiusMm: m.floorRadiusMm };
  return endMills(shop).filter(
    (mill) =>
      fits(mill, gap) &&
      mill.cornerRadiusMm > 0.2 &&
      mill.reachMm >= outlineReach(m, solid, mill.diameterMm / 2, shankRadius(mill), mill.reachMm) - SAME_REACH_MM,
  );
}

export function outlineOperations(task: Task, solid: Solid, stock: StockInSetup): readonly Operation[] {
  const { feature, part } = task;
  const seen = milledSeen(feature, part, solid);
  const { all } = seen;
  const first = all[0];
  if (!first) return [];
  // Members of a pattern are alike: the first stands for all; layers of one pocket are added up.
  const members = new Set(all.map((m) => m.of.member)).size;
  const one = all.filter((m) => m.of.member === first.of.member);
  const own = solid.voidsOf(feature.name);
  return one.flatMap((m) => {
    // The same volume before the work was held at an angle: turned ones keep their order.
    const drawn = own.find(
      (v) => v === m.of || (v.member === m.of.member && v.from === m.of.from && v.role === m.of.role),
    );
    const volumeMm3 = solid.insideMm3(drawn ?? m.of);
    return ofVolume({ m, volumeMm3, seen, times: members }, task, stock);
  });
}

interface OneVolume {
  readonly m: MilledVoid;
  readonly volumeMm3: number;
  readonly seen: Seen<MilledVoid>;
  readonly times: number;
}

function ofVolume({ m, volumeMm3, seen, times }: OneVolume, task: Task, stock: StockInSetup): readonly Operation[] {
  const { feature, part, shop } = task;
  const { place, how: leaning } = seen;
  const asked = askedOf(toolAsked(feature.name, part, shop), 'end-mill');
  const own = cuttersAsked(asked, () => cuttersFor(m, place, shop, leaning !== undefined));
  const fromBoth = asked ? undefined : halves(m, own, place, task);
  const { rough, round, corners } = fromBoth ?? own;
  const finish = round ?? (fromBoth ?? own).finish;
  const how = fromBoth ? BOTH_SIDES : leaning;
  const fullMm = m.of.to - m.of.from;
  const depthMm = fromBoth ? fullMm / 2 : fullMm;
  // Only along what stands: a step's or an open slot's outline also runs through air.
  const edges = regionEdges(m.of.region);
  const walls = edges.filter((e) => isWall(pointAt(e, 0.5), m.of, place, m.face));
  const wayMm = (fromBoth ? 2 : 1) * walls.reduce((sum, e) => sum + lengthOf(e), 0);
  const told = { feature, times, volume: m.of, ...(how && { how }) };
  if (rough.length === 0 || finish.length === 0)
    return [{ ...told, does: 'missing', lacks: 'mill', wanted: wantedFor(m) }];
  const closed = walls.length === edges.length;
  const room = roomIn(m, closed, () => (leaning === undefined ? stock.at(m, place) : turnedWork(place)));
  const past = closed && !asked ? pastTheNeck(m, shop) : [];
  const volume: Volume = { m, volumeMm3, fullMm, depthMm, wayMm, closed, room, past, piece: told };
  const entering = closed && !asked ? enteringFirst([...past, ...rough], room) : [...past, ...rough];
  const all = quickest(entering, finish, new Sharing(volume), task);
  const made = corners ? withCorners(all, corners, volume) : all;
  const entered = closed ? letIn(made, room, m, shop) : made;
  const smallest = endMills(shop).findLast((t) => t.reachMm >= m.tipMm - SAME_REACH_MM) ?? finish.at(-1)!;
  const left = (c: Corner) => leftInSharpMm(c, smallest.diameterMm / 2);
  const wanted = 'a radius in its corners: no mill makes sharp ones';
  return m.corners.some((c) => c.radiusMm === 0 && left(c) > UNNOTICED_MM)
    ? [...entered, { ...told, does: 'missing', lacks: 'sharp-corner', wanted }]
    : entered;
}

/** What a set-up names does all of it; what only roughs is followed by those that would finish anyway. */
function cuttersAsked(asked: Mill | undefined, free: () => Cutters): Cutters {
  if (!asked) return free();
  return asked.roughing ? { ...free(), rough: [asked] } : { rough: [asked], finish: [asked] };
}

/** The larger cutter's walls, and then the corners that it leaves. */
function withCorners(made: readonly Operation[], corners: IntoCorners, volume: Volume): readonly Operation[] {
  const walls = made.find((o) => o.does === 'finish');
  return walls?.does === 'finish' ? [...made, cornersAfter(corners, walls.tool, volume)] : made;
}

function wantedFor(m: MilledVoid): string {
  const least = m.corners.reduce((r, c) => (c.radiusMm > 0 ? Math.min(r, c.radiusMm) : r), m.widestMm / 2);
  const thick = Number.isFinite(least) ? ` of at most ${Number((2 * least).toFixed(2))} mm` : '';
  return `end mill${thick}, reaching ${Number(m.tipMm.toFixed(2))} mm`;
}

/** A cutter that covers less than this of an outline is not put in for it. Common practice, no source. */
const LEAST_COVERED = 0.4;

/** Too wide for the narrowest place of a closed outline, beside an island say, but not for most of it: they rough what they get to. */
function pastTheNeck(m: MilledVoid, shop: Shop): readonly Mill[] {
  if (bulges(m.of.region)) return [];
  return endMills(shop).filter(
    (t) =>
      t.diameterMm > m.widestMm + SAME_MM &&
      t.reachMm >= m.tipMm - SAME_REACH_MM &&
      (coveredShare(m, t.diameterMm / 2 + LEAST_STOCK_MM) ?? 0) >= LEAST_COVERED,
  );
}

/**
 * Cut half from each side: where two set-ups do so, or where nothing reaches through and both sides are open to it.
 * Undefined where it is not, or where that would not help.
 */
function halves(m: MilledVoid, own: Cutters, place: Place, { feature, part, shop }: Task): Cutters | undefined {
  if (!m.bothSides) return undefined;
  const reached = own.rough.length > 0 && own.finish.length > 0;
  if (reached && !cutFromBothSides(feature.name, part)) return undefined;
  const tipMm = (m.of.to - m.of.from) / 2 + BEYOND_MM;
  const half = { ...m, tipMm, corners: m.corners.map((c) => ({ ...c, topMm: 0, floorMm: tipMm })) };
  const found = cuttersFor(half, place, shop, true);
  return found.rough.length > 0 && found.finish.length > 0 ? found : undefined;
}
