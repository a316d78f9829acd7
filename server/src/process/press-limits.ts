/** What keeps a hole from being made on a drill press, or at the bench: by its sizes, on the finished part as it stands under the spindle. */
import { AXIS_INDEX } from '../geometry/vector';
import { materialOf } from '../model/material-of';
import { FACE_AXIS, FACE_PLANE, type Hole } from '../model/model';
import type { DrillPress } from '../model/shop-benches';
import { bodyOf, isDrill } from '../model/tool-kinds';
import { pointLengthMm } from '../tables/drill-point';
import { SAME } from '../tolerance';
import { pressOperations } from './benches';
import { reachOf } from './cutters';
import { drillSpeedRange } from './cutting/speed';
import { isAtBench, pressOf } from './made-on';
import { holeOperations } from './operations/holes';
import type { Operation } from './operations/types';
import type { PartInShop } from './part-in-shop';

/** `hasMm`, `needsMm`: of the place, and of the hole. */
export type PressLimit =
  | { readonly what: 'unknown' | 'no bench' | 'tilted' | 'nothing by hand' }
  | { readonly what: 'missing'; readonly wanted: string }
  | {
      readonly what: 'chuck' | 'throat' | 'opening' | 'stroke' | 'drill length' | 'tap' | 'reamer';
      readonly hasMm: number;
      readonly needsMm: number;
    }
  | { readonly what: 'speed'; readonly rpm: number; readonly slowest: number };

/** Slower than that a press that turns too fast blunts the drill. Common practice, no source. */
const TOO_FAST = 1.25;

export function pressLimits(hole: Hole, inShop: PartInShop): readonly PressLimit[] {
  const { shop } = inShop;
  if (!hole.madeOn || shop.unread !== undefined) return [];
  if (isAtBench(hole)) return benchLimits(hole, inShop);
  const press = pressOf(hole, shop);
  if (!press) return [{ what: 'unknown' }];
  if (hole.tilt && Math.abs(hole.tilt.angle.deg) > SAME) return [{ what: 'tilted' }];
  const operations = pressOperations(hole, inShop);
  const missing = operations.find((o) => o.does === 'missing');
  if (missing) return [{ what: 'missing', wanted: missing.wanted }];
  return [...roomFor(hole, press, inShop, operations)];
}

function* roomFor(
  hole: Hole,
  press: DrillPress,
  { part }: PartInShop,
  made: readonly Operation[],
): Generator<PressLimit> {
  const beyond = (what: 'chuck' | 'throat' | 'opening' | 'stroke' | 'drill length', hasMm: number, needsMm: number) =>
    needsMm > hasMm + SAME ? [{ what, hasMm, needsMm }] : [];
  const tools = made.flatMap((o) => ('tool' in o ? [o.tool] : []));
  const drills = tools.filter(isDrill);
  yield* beyond('chuck', press.largestMm, Math.max(0, ...drills.map((d) => d.diameterMm)));
  yield* beyond('throat', press.throatMm, throatNeeded(hole, part.size));
  const highMm = part.size[AXIS_INDEX[FACE_AXIS[hole.face].axis]]!;
  yield* beyond('opening', press.openingMm, highMm + Math.max(0, ...tools.map(reachOf)));
  const point = hole.depth.through || hole.bottom === 'flat' ? 0 : pointLengthMm(hole.diameter.mm, hole.point.deg);
  const deepMm = hole.depth.mm + point;
  yield* beyond('stroke', press.strokeMm, deepMm);
  // The chuck stays above the part's own top, for it is wider than any hole.
  const shortest = Math.min(...drills.map((d) => bodyOf(d).mostOutMm));
  if (Number.isFinite(shortest)) yield* beyond('drill length', shortest, hole.startMm + deepMm);
  const fast = drills.flatMap((d) => {
    const material = materialOf(part);
    const rpm = material ? (1000 * drillSpeedRange(material, d.material)[1]) / (Math.PI * d.diameterMm) : Infinity;
    return press.rpm[0]! > TOO_FAST * rpm ? [rpm] : [];
  });
  if (fast.length > 0) yield { what: 'speed', rpm: Math.min(...fast), slowest: press.rpm[0]! };
}

/** From the farthest of its places to the side that is nearest to it: that side is turned to the column. */
function throatNeeded({ face, places }: Hole, size: readonly number[]): number {
  const [w, h] = FACE_PLANE[face].map((axis) => size[AXIS_INDEX[axis]]!) as [number, number];
  return Math.max(...places.map(({ u, v }) => Math.min(u, w - u, v, h - v)));
}

function benchLimits(hole: Hole, inShop: PartInShop): readonly PressLimit[] {
  const { bench } = inShop.shop;
  if (!bench) return [{ what: 'no bench' }];
  const by = holeOperations(hole, inShop);
  const [tap, ream] = (['tap', 'ream'] as const).map((does) => by.some((o) => o.does === does));
  if (!tap && !ream) return hole.thread ? [] : [{ what: 'nothing by hand' }];
  const [tapMm, reamMm] = [hole.thread?.spec?.diameterMm ?? 0, hole.diameter.mm];
  return [
    ...(tap && bench.largestTapMm !== undefined && tapMm > bench.largestTapMm + SAME
      ? [{ what: 'tap', hasMm: bench.largestTapMm, needsMm: tapMm } as const]
      : []),
    ...(ream && reamMm > (bench.largestReamerMm ?? 0) + SAME
      ? [{ what: 'reamer', hasMm: bench.largestReamerMm ?? 0, needsMm: reamMm } as const]
      : []),
  ];
}
