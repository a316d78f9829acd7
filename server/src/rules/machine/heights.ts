/** Where the spindle's nose goes up and down in a set-up: by the tools that its cuts are made with, each as long as it stands out with its holder. */
import { inward } from '../../geometry/frame';
import type { Vec3 } from '../../geometry/types';
import { dot } from '../../geometry/vector';
import type { Shop } from '../../model/shop-model';
import { toolFor } from '../../process/access';
import { shapeOf } from '../../process/access/shape';
import type { SetupInTime } from '../../process/stock/types';
import { atPlate } from '../../process/workholding/angle-plate';
import { seatingOf } from '../../process/workholding/seating';
import type { Seating } from '../../process/workholding/seating-types';
import { roundBarOf, underBarMm, vBlockOf } from '../../process/workholding/v-block';
import type { RuleContext } from '../kit/rule';

interface Heights {
  /** The nose at its lowest, with the tool that takes it there, and at its highest: over the work with the longest. */
  readonly lowMm: number;
  readonly lowTool: string;
  readonly highMm: number;
  readonly highTool: string;
  readonly longestMm: number;
  /** Highest material above the table; absent where it is not known what the work lies on. */
  readonly topMm?: number;
}

/** A tool is lifted so far over the work before it goes to another place, mm. Common practice: 2 to 5. */
const CLEAR_MM = 2;

/** Heights from the lowest surface of the workpiece; undefined where no tool is found for any cut. */
export function heightsOf(s: SetupInTime, context: RuleContext): Heights | undefined {
  const { part, solid, shop } = context;
  if (!s.up || s.setup.hold?.type === 'angle') return undefined;
  const down = inward(s.up);
  const { min, max } = s.before.body.box;
  const floor = Math.max(dot(min, down), dot(max, down));
  const topMm = floor - Math.min(dot(min, down), dot(max, down));
  let low: { mm: number; tool: string } | undefined;
  let high: { mm: number; tool: string; longMm: number } | undefined;
  for (const cut of s.cuts) {
    const deepest = Math.min(floor, Math.max(...cut.removes.map(({ bounds }) => far(bounds, down))));
    for (const { tool, outMm } of toolFor(cut, s, { part, solid, shop })) {
      const longMm = outMm + (shapeOf(tool, shop).holder?.lengthMm ?? 0);
      const nose = floor - deepest + longMm;
      if (!low || nose < low.mm) low = { mm: nose, tool: tool.name };
      const lifted = topMm + CLEAR_MM + longMm;
      if (!high || lifted > high.mm) high = { mm: lifted, tool: tool.name, longMm };
    }
  }
  if (!low || !high) return undefined;
  const seating = seatingOf(s, part, shop);
  const hold = s.setup.hold;
  const flat =
    (hold?.on === 'table' && hold.type !== 'v-block') || (hold?.type === 'clamps' && hold.on === undefined)
      ? 0
      : undefined;
  const bed = seating?.held ? seating.held.vise.bedMm + seating.held.parallelsMm : (flat ?? fixtureMm(seating, shop));
  return {
    lowMm: low.mm,
    lowTool: low.tool,
    highMm: high.mm,
    highTool: high.tool,
    longestMm: high.longMm,
    ...(bed !== undefined && { topMm: bed + topMm }),
  };
}

/** Of round work in V-blocks on the table, and of work against an angle plate: its lowest place above the table. */
function fixtureMm(seating: Seating | undefined, shop: Shop): number | undefined {
  const hold = seating?.of.setup.hold;
  if (!seating || !hold) return undefined;
  const [v, bar] = [vBlockOf(hold, shop), roundBarOf(seating.of.before.body)];
  if (hold.type === 'v-block' && hold.on !== 'plate' && v && bar) return underBarMm(v, bar);
  const at = atPlate(seating, hold, shop);
  // Below the table where it hangs over an edge of it.
  return at && at.plate.heightMm + at.outMm - seating.heightMm;
}

function far({ min, max }: { readonly min: Vec3; readonly max: Vec3 }, down: Vec3): number {
  return Math.max(dot(min, down), dot(max, down));
}
