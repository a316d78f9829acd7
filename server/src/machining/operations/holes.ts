/** The cuts that make a hole: spot, drill, then what makes its size, its seat and its thread. */
import type { Solid } from '../../geometry/types';
import type { Hole, Part } from '../../spec/model';
import type { ChamferMill, Drill, Mill, Shop, Tap, Tool } from '../../spec/shop-model';
import { boreSize } from '../bore-size';
import { drillsOf, endMills, type Maker, makersOf, reachOf, SAME_MM, tapsFor } from '../cutters';
import { type Bored, boresOf } from '../drilling';
import type { Missing, Operation } from './types';

/** ± of a hole for which neither it nor the part says a tolerance: ISO 2768-1 m for sizes to 6 mm. */
const PLAIN_MM = 0.1;
/** A reamer and a boring head leave a hole that was drilled so much smaller. Common practice: 0.1 to 0.3 mm for reamers. */
const REAM_STOCK_MM = [0.05, 0.6] as const;
/** Drills over this wander without a spot. Common practice: everything but a guided drill is spotted. */
const SPOT_DEPTH = 0.3;

export function holeOperations(hole: Hole, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const bores = boresOf(hole, part, solid);
  const deepest = bores.reduce<Bored | undefined>((w, b) => (w && w.spanMm >= b.spanMm ? w : b), undefined);
  if (!deepest) return [];
  const times = bores.length;
  const done: Operation[] = [];
  const missing = (wanted: string): Missing => ({ feature: hole, times, does: 'missing', wanted });
  const diameterMm = hole.diameter.mm;
  const depthMm = deepest.spanMm;
  const bore = boreSize(hole, part, PLAIN_MM);
  const maker = makersOf(shop, bore).find((t) => reachOf(t) >= depthMm - 1e-6);
  const spot = shop.tools.find((t): t is Drill => t.kind === 'spot-drill');
  if (spot && maker?.kind !== 'end-mill' && !hole.from)
    done.push({
      feature: hole,
      times,
      does: 'spot',
      tool: spot,
      diameterMm: Math.min(spot.diameterMm, diameterMm),
      depthMm: SPOT_DEPTH * diameterMm,
    });
  if (!maker) done.push(missing(`drill, reamer or bore of ${round(diameterMm)} mm, ${round(depthMm)} mm deep`));
  else done.push(...making(maker, hole, depthMm, times, shop));
  if (hole.bottom === 'flat' && !hole.depth.through && maker && (maker.kind === 'drill' || maker.kind === 'reamer')) {
    const flat = flatteners(shop, diameterMm, depthMm)[0];
    done.push(
      flat ? milled(flat, hole, times, 0, depthMm, diameterMm) : missing(`end mill or flat drill for a flat bottom`),
    );
  }
  done.push(...seats(hole, times, shop, missing));
  if (hole.thread?.spec) {
    const { designation, pitchMm } = hole.thread.spec;
    const threadMm = Math.min(hole.threadDepth?.mm ?? depthMm, depthMm);
    const tap = tapsFor(shop, designation).find((t: Tap) => t.reachMm >= threadMm - 1e-6);
    done.push(
      tap
        ? { feature: hole, times, does: 'tap', tool: tap, pitchMm, depthMm: threadMm }
        : missing(`${designation} tap`),
    );
  }
  return done;
}

/** The tool that makes the size, and the drill before it where it cannot cut from the full. */
function making(maker: Maker, hole: Hole, depthMm: number, times: number, shop: Shop): readonly Operation[] {
  const diameterMm = hole.diameter.mm;
  const drill = (tool: Drill, d: number): Operation => ({
    feature: hole,
    times,
    does: 'drill',
    tool,
    diameterMm: d,
    depthMm,
  });
  switch (maker.kind) {
    case 'drill':
    case 'flat-drill':
    case 'spot-drill':
      return [drill(maker, maker.diameterMm)];
    case 'reamer': {
      const before = firstDrill(shop, diameterMm - REAM_STOCK_MM[1], diameterMm - REAM_STOCK_MM[0], depthMm);
      const ream: Operation = { feature: hole, times, does: 'ream', tool: maker, diameterMm, depthMm };
      return [
        before
          ? drill(before, before.diameterMm)
          : {
              feature: hole,
              times,
              does: 'missing',
              wanted: `drill a little under ${round(diameterMm)} mm, to ream after`,
            },
        ream,
      ];
    }
    case 'boring-head': {
      const before = firstDrill(shop, maker.diameterMm, diameterMm - 0.2, depthMm);
      const mill = endMills(shop).find((m) => m.diameterMm < 0.9 * diameterMm && m.reachMm >= depthMm - 1e-6);
      const first = before
        ? drill(before, before.diameterMm)
        : mill
          ? milled(mill, hole, times, volumeOf(diameterMm, depthMm), depthMm, diameterMm)
          : undefined;
      const opened =
        before && diameterMm - before.diameterMm > 4 && mill
          ? [
              milled(
                mill,
                hole,
                times,
                volumeOf(diameterMm, depthMm) - volumeOf(before.diameterMm, depthMm),
                depthMm,
                diameterMm,
              ),
            ]
          : [];
      return [
        ...(first ? [first] : []),
        ...opened,
        { feature: hole, times, does: 'bore', tool: maker, diameterMm, depthMm },
      ];
    }
    default: {
      const wayMm = Math.PI * Math.max(0, diameterMm - maker.diameterMm);
      return [
        milled(maker, hole, times, volumeOf(diameterMm, depthMm), depthMm, diameterMm),
        { feature: hole, times, does: 'finish', tool: maker, wayMm, depthMm },
      ];
    }
  }
}

function seats(hole: Hole, times: number, shop: Shop, missing: (wanted: string) => Missing): readonly Operation[] {
  const done: Operation[] = [];
  const { counterbore, countersink } = hole;
  if (counterbore) {
    const { diameter, depth } = counterbore;
    const cutter = shop.tools.find(
      (t): t is ChamferMill =>
        t.kind === 'counterbore-cutter' &&
        Math.abs(t.diameterMm - diameter.mm) <= 0.1 + SAME_MM &&
        t.reachMm >= depth.mm - 1e-6,
    );
    const mill = endMills(shop).find(
      (m) => m.cornerRadiusMm <= 0.2 && m.diameterMm <= diameter.mm + SAME_MM && m.reachMm >= depth.mm - 1e-6,
    );
    if (cutter)
      done.push({
        feature: hole,
        times,
        does: 'counterbore',
        tool: cutter,
        diameterMm: diameter.mm,
        depthMm: depth.mm,
      });
    else if (mill)
      done.push(
        milled(
          mill,
          hole,
          times,
          volumeOf(diameter.mm, depth.mm) - volumeOf(hole.diameter.mm, depth.mm),
          depth.mm,
          diameter.mm,
        ),
      );
    else done.push(missing(`counterbore cutter or end mill for ${round(diameter.mm)} mm`));
  }
  if (countersink) {
    const tool = shop.tools.find(
      (t): t is ChamferMill =>
        (t.kind === 'countersink' || t.kind === 'chamfer-mill') && Math.abs(t.angleDeg - countersink.angle.deg) < 1,
    );
    const depthMm =
      (countersink.diameter.mm - hole.diameter.mm) / 2 / Math.tan((countersink.angle.deg / 2) * (Math.PI / 180));
    done.push(
      tool
        ? { feature: hole, times, does: 'countersink', tool, diameterMm: countersink.diameter.mm, depthMm }
        : missing(`countersink of ${round(countersink.angle.deg)}°`),
    );
  }
  return done;
}

function milled(tool: Mill, hole: Hole, times: number, volumeMm3: number, depthMm: number, neckMm: number): Operation {
  return { feature: hole, times, does: 'rough', tool, volumeMm3, depthMm, neckMm };
}

/** Largest drill in a range that reaches. */
function firstDrill(shop: Shop, fromMm: number, toMm: number, depthMm: number): Drill | undefined {
  return [...drillsOf(shop)]
    .reverse()
    .find((d) => d.diameterMm >= fromMm - 1e-6 && d.diameterMm <= toMm + 1e-6 && d.fluteLengthMm >= depthMm - 1e-6);
}

function flatteners(shop: Shop, diameterMm: number, depthMm: number): readonly Mill[] {
  return endMills(shop).filter(
    (m) => m.cornerRadiusMm <= 0.2 && m.diameterMm <= diameterMm + SAME_MM && m.reachMm >= depthMm - 1e-6,
  );
}

function volumeOf(diameterMm: number, depthMm: number): number {
  return (Math.PI / 4) * diameterMm ** 2 * depthMm;
}

function round(mm: number): number {
  return Number(mm.toFixed(2));
}

/** Every tool by its name, for a set-up's own choice. */
export function toolNamed(shop: Shop, name: string): Tool | undefined {
  return shop.tools.find((t) => t.name === name);
}
