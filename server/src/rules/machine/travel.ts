/** machine/travel – cuts that lie farther apart than the table moves, or tools too long and too short for one spindle's way. */

import type { Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS } from '../../model/model';
import type { Machine } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { mostSpan, spindleSpan } from '../../process/access/spindle-span';
import { timelineOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { machineOf } from '../../process/workholding/forces';
import { SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';
import { heightsOf } from './heights';
import { machinesFor } from './shared';

type Pair = readonly [number, number];

/** From the first to the last place of the spindle's axis along each part axis, mm: bores by their middles, all else as far as it goes. */
function spansOf(voids: readonly Void[], within: { readonly min: readonly number[]; readonly max: readonly number[] }) {
  return ([0, 1, 2] as const).map((i): number => {
    const ends = voids.flatMap(({ role, bounds: { min, max } }) =>
      role === 'bore' || role === 'point' || role === 'counterbore' || role === 'countersink'
        ? [(min[i] + max[i]) / 2]
        : [min[i], max[i]],
    );
    const inside = ends.map((x) => Math.min(within.max[i]!, Math.max(within.min[i]!, x)));
    return inside.length > 0 ? Math.max(...inside) - Math.min(...inside) : 0;
  });
}

interface TooFar {
  readonly sizeMm: number;
  readonly travelMm: number;
}

/** The work may lie either way round on the table. */
function beyondTable(spans: Pair, { travelMm: [x, y] }: Machine): TooFar | undefined {
  const [long, short] = spans[0] >= spans[1] ? spans : [spans[1], spans[0]];
  const [far, near] = x >= y ? [x, y] : [y, x];
  if (long > far + SAME) return { sizeMm: long, travelMm: far };
  return short > near + SAME ? { sizeMm: short, travelMm: near } : undefined;
}

interface Over extends TooFar {
  /** How far the cutter goes beyond what is cut, at the farther end, and which. */
  readonly radiusMm: number;
  readonly tool: string;
  /** What is cut does lie within the travel: a thinner cutter might do. */
  readonly byCutter: boolean;
}

/** Undefined where the spindle gets to all of a set-up, faces passed one way or the other. */
function outOfTravel(s: SetupInTime, up: AxisIndex, machine: Machine, context: RuleContext): Over | undefined {
  const flat = (all: readonly number[]) => all.filter((_, i) => i !== up) as unknown as Pair;
  if (!beyondTable(flat(mostSpan(s, context.shop)), machine)) return undefined;
  const cut = spansOf(
    s.cuts.flatMap((c) => c.removes),
    s.before.body.box,
  );
  const bare = beyondTable(flat(cut), machine);
  let worst: Over | undefined;
  for (const passes of ['lengthwise', 'crosswise'] as const) {
    const span = spindleSpan(s, context, passes);
    const over = span ? beyondTable(flat(span.mm), machine) : bare;
    if (!over) return undefined;
    if (worst) continue;
    const i = span ? span.mm.indexOf(over.sizeMm) : -1;
    worst = { ...over, radiusMm: span?.radiusMm[i] ?? 0, tool: span?.tools[i] ?? '', byCutter: !bare };
  }
  return worst;
}

/** What is said of it is short and of one place: a hit is what is told. */
function* inSetup(s: SetupInTime, context: RuleContext): Generator<Told> {
  const { part, shop, length, about } = context;
  const machine = machineOf(s.setup, shop);
  if (!machine || !s.up || s.cuts.length === 0) return;
  const base = { of: [], span: s.setup.span };
  const up = AXIS_INDEX[FACE_AXIS[s.up].axis];
  const over = outOfTravel(s, up, machine, context);
  if (over) {
    const { sizeMm, travelMm, radiusMm, tool, byCutter } = over;
    const beside = radiusMm > 0 ? ` with ${tool}` : '';
    const thinner = byCutter && radiusMm > 0 ? 'Use a smaller cutter, or move' : 'Move';
    yield {
      ...base,
      ...(byCutter && { severity: 'warning' }),
      message: `Set-up ${s.setup.name}: the spindle moves ${about(sizeMm, travelMm)} over the table${beside}. ${machine.name} travels ${length(travelMm)} that way. ${thinner} the workpiece along the vise and set zero again.`,
      has: length(travelMm),
      needs: about(sizeMm, travelMm),
      facts: {
        size_mm: sizeMm,
        travel_mm: travelMm,
        ...(radiusMm > 0 && { radius_mm: radiusMm, tool }),
        machine: machine.name,
        set_up: s.setup.name,
      },
    };
  }
  const heights = heightsOf(s, context);
  if (!heights || part.settled) return;
  const { lowMm, highMm, lowTool, highTool, longestMm, topMm } = heights;
  const needMm = highMm - lowMm;
  const has = machine.travelMm[2];
  if (needMm > has + SAME)
    yield {
      ...base,
      message: `Set-up ${s.setup.name}: the spindle moves ${about(needMm, has)} up and down, from ${lowTool} at its deepest to ${highTool} clear of the workpiece. ${machine.name} travels ${length(has)}. Use a shorter drill, a longer holder for the short tools, or another set-up.`,
      has: length(has),
      needs: about(needMm, has),
      facts: { needed_mm: needMm, travel_mm: has, machine: machine.name, set_up: s.setup.name, tool: highTool },
    };
  const { daylightMm } = machine;
  if (daylightMm === undefined || topMm === undefined) return;
  const standsMm = topMm + longestMm;
  if (standsMm > daylightMm + SAME)
    yield {
      ...base,
      message: `Set-up ${s.setup.name}: the top of the workpiece and ${highTool} above it need ${about(standsMm, daylightMm)}. Between table and spindle ${machine.name} has ${length(daylightMm)}. Use a shorter tool or holder, lower parallels, or clamps on the table.`,
      has: length(daylightMm),
      needs: about(standsMm, daylightMm),
      facts: {
        stands_mm: standsMm,
        daylight_mm: daylightMm,
        tool_mm: longestMm,
        machine: machine.name,
        set_up: s.setup.name,
        tool: highTool,
      },
    };
}

/** Where no set-ups are written: all cuts on one table. */
function* withoutSetups(context: RuleContext): Generator<Told> {
  const { part, shop, solid, length, about } = context;
  const machines = machinesFor(part, shop);
  if (!part.body || machines.length === 0) return;
  // A face with stock on it is milled from end to end.
  const stock = stockSizeMm(part);
  const box = solid.body.box;
  const faced = stock.some((size, i) => size > box.max[i]! - box.min[i]! + SAME);
  const spans = faced ? stock : spansOf(solid.voids, box);
  const [long, middle] = [...spans].sort((a, b) => b - a) as unknown as Pair;
  const tooMuch = machines.map((machine) => ({ machine, over: beyondTable([long, middle], machine) }));
  const best = tooMuch.reduce((a, b) => (!b.over || (a.over && a.over.travelMm < b.over.travelMm) ? b : a));
  const { over, machine } = best;
  if (!over) return;
  yield {
    message: `The cuts of this part reach over ${about(over.sizeMm, over.travelMm)}. ${machine.name} travels ${length(over.travelMm)} that way. Make it in two pieces, or move it along the vise and set zero again.`,
    has: length(over.travelMm),
    needs: about(over.sizeMm, over.travelMm),
    of: [],
    span: part.body.span,
    facts: { size_mm: over.sizeMm, travel_mm: over.travelMm, machine: machine.name },
  };
}

const rail = (between: number) => `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 480, y: 60, z: 20 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: ${between}, count: 2 } }, diameter: 5.5, depth: through }
`;

export const travel: Rule = defineRule({
  name: 'machine/travel',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The cuts of a set-up are farther apart than the machine travels.',
  why: 'A cut ends where the table’s travel ends. A longer workpiece may stick out over the table. But what is farther apart needs two goes: you move the workpiece in the vise and set zero again. Along the spindle a long drill in a long chuck must still clear what a short mill reaches down to.',
  formula:
    'In each set-up, the way from the first to the last place of the spindle, against the table’s travels. Holes count by their middles. A mill is its radius away from the walls that it cuts. To face, it goes from beside the face to its far end. Along the spindle: its nose with the longest tool over the workpiece, less its lowest place. Where the shop gives `daylight`: vise bed, parallels, workpiece and the longest tool. Without set-ups all cuts are on one table, or the stock where a face of it is milled.',
  bounds: 'The travels and the `daylight` of the machine in the shop file.',
  limits: [],
  bad: rail(440),
  good: rail(380),
  *find(context): Generator<Told> {
    const { part, solid } = context;
    if (!part.setups) return yield* withoutSetups(context);
    for (const s of timelineOf(part, solid).setups.slice(part.settled ?? 0)) yield* inSetup(s, context);
  },
  tell: (told) => told,
});
