/** Every set-up of a part as ordered rows, in the numbers of the machine's read-out. */

import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Part } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { hasShank } from '../../model/tool-kinds';
import { SAME } from '../../tolerance';
import { toolFor } from '../access';
import { shapeOf } from '../access/shape';
import { stickoutOf } from '../cutting/bend';
import type { Operation } from '../operations/types';
import type { PartInShop } from '../part-in-shop';
import { boxLeft, timelineOf } from '../stock';
import type { Cut, SetupInTime } from '../stock/types';
import { machineOf } from '../workholding/forces';
import { seatingOf } from '../workholding/seating';
import { alongSpindle } from './along-spindle';
import { cutsIn } from './cuts-in-setup';
import { filedLater } from './edges-later';
import { heightsOf, holdingOf } from './holding';
import type { Making } from './making';
import { measuredIn, measuresOf } from './measures';
import { readOutOf } from './read-out';
import { passesOf } from './rows';
import { type Touching, touchesOf } from './touches';
import type { PassRow, Row, SawRow, SetupPasses, Touch } from './types';

export type * from './types';

/** Set-ups without a face up are left out: nothing can be said of them. */
export function passesOfPart(asked: PartInShop): readonly SetupPasses[] {
  return allOf(asked.part, asked);
}

const allOf = memo(
  (part: Part, asked: PartInShop): readonly SetupPasses[] => {
    const { setups } = timelineOf(part, asked.solid);
    return setups.flatMap((then) => setupPasses(then, setups.length, asked) ?? []);
  },
  { size: 2, by: (_, { solid, shop }) => [solid, shop] },
);

function setupPasses(then: SetupInTime, count: number, asked: PartInShop): SetupPasses | undefined {
  const { part, solid, shop } = asked;
  const { setup, up, index } = then;
  if (!up) return undefined;
  const machine = machineOf(setup, shop);
  const seating = seatingOf(then, part, shop);
  const spindle = alongSpindle(then, part, solid);
  const along = { square: setup.hold?.type !== 'angle', ...(spindle && { spindle }) };
  const readOut = readOutOf(up, seating?.held?.fixed, solid.body);
  const holding = holdingOf({ then, part, solid, shop, readOut });
  const { seatZ, jawsZ } = heightsOf(then, readOut, holding);
  const touching: Touching = {
    then,
    part,
    shop,
    readOut,
    holding,
    seatZ,
    ...(jawsZ !== undefined && { jawsZ }),
    ...along,
  };
  const obstacles = seating?.avoided ?? [];
  const tabs = setup.hold?.tabs;
  const kept = tabs && { tabs: { z: seatZ + tabs.height.mm, wideMm: tabs.width.mm } };
  const { rows, zeros } = rowsOf(then, asked, { readOut, machine, touching, seatZ, obstacles, ...kept, ...along });
  const measures = measuredIn(then, timelineOf(part, solid), part);
  return {
    setup,
    then,
    index,
    count,
    ...(machine && { machine }),
    ...(machine?.dial && { dial: machine.dial }),
    readOut,
    ...(spindle && { heightsFrom: { on: spindle.on } }),
    holding,
    zeros,
    rows,
    measures,
  };
}

interface Ready extends Pick<Making, 'readOut' | 'seatZ' | 'square' | 'spindle' | 'obstacles' | 'tabs'> {
  readonly machine: Making['machine'] | undefined;
  readonly touching: Touching;
}

function rowsOf(then: SetupInTime, asked: PartInShop, { machine, touching, ...seen }: Ready) {
  const rows: Row[] = [];
  const lastOf = new Map<Cut, number>();
  let number = 0;
  for (const entry of cutsIn(then.setup, asked)) {
    const name = entry.entry.name;
    for (const s of entry.steps)
      if (s.missing !== undefined) rows.push({ kind: 'missing', of: name, wanted: s.missing });
    if (!machine) continue;
    const outMm = (cut: Cut, tool: Tool) => outOf(cut, tool, then, asked);
    for (const pass of passesOf(entry, { ...seen, asked, machine, outMm })) {
      number += 1;
      rows.push({
        kind: 'pass',
        number,
        unset: [],
        samePlace: isSamePlace(
          rows.findLast((r) => r.kind === 'pass'),
          pass,
        ),
        ...pass,
      });
      if (entry.cut) lastOf.set(entry.cut, number);
    }
    // A size that a drill or reamer gives cannot be crept up on.
    if (entry.cut?.feature && entry.steps.some((s) => CREPT.has(s.operation.does)))
      rows.push(...measuresOf(entry.cut.feature).filter((m) => m.stops));
    if (entry.cut) rows.push(...filedLater(entry.cut, timelineOf(asked.part, asked.solid), asked.part));
  }
  const zeros = touchesOf(touching, (cut) => lastOf.get(cut) ?? 0);
  const swept = sweptFirst(zeros, then);
  rows.push(...sawnOffLast(then));
  const told = rows.map((row, i) => (row.kind === 'pass' ? withoutZeros(row, rows[i - 1], zeros) : row));
  return { rows: [...swept, ...withTouches(told, zeros, machine?.control === 'program')], zeros };
}

/** What a pass cannot go by yet. Where it takes only what the one before left on the face, that is what comes off. */
function withoutZeros(row: PassRow, before: Row | undefined, zeros: readonly Touch[]): PassRow {
  const unset = zeros.flatMap(({ axis, missing, afterPass }): PassRow['unset'] => {
    if (axis === 'Z') return [];
    if (missing !== undefined) return [{ axis, zero: 'nowhere' }];
    return afterPass >= row.number ? [{ axis, zero: 'later' }] : [];
  });
  const axis = unset.find((u) => u.zero === 'later')?.axis;
  if (axis === undefined || row.offs || before?.kind !== 'pass' || before.of[0] !== row.of[0] || !(before.leavesMm > 0))
    return { ...row, unset };
  return { ...row, unset, offs: { axis, mm: [before.leavesMm] } };
}

function sawnOffLast({ sawnOff, leaves }: SetupInTime): readonly SawRow[] {
  if (!sawnOff) return [];
  const i = AXIS_INDEX[FACE_AXIS[sawnOff.face].axis];
  const { min, max } = boxLeft(leaves);
  return [{ kind: 'saw', of: sawnOff.face, lengthMm: max[i] - min[i], leavesMm: sawnOff.leaveMm }];
}

/** Good enough for a bore that is swept, all round, mm. Common practice, no source: 0.02. */
const SWEPT_MM = 0.02;

/** Bores that were cut in a set-up before: the work was unclamped since. */
function sweptFirst(zeros: readonly Touch[], then: SetupInTime): readonly Row[] {
  const bores = zeros.filter((t) => t.how === 'bore' && t.axis !== 'Z' && t.afterPass === 0);
  const names = [...new Set(bores.map((t) => t.of))].filter((name) => !then.cuts.some((c) => c.name === name));
  return names.map((of) => {
    const at = (axis: 'X' | 'Y') => bores.find((t) => t.of === of && t.axis === axis)?.placeMm ?? 0;
    return { kind: 'indicate', of, at: [at('X'), at('Y')], totalMm: SWEPT_MM };
  });
}

const CREPT: ReadonlySet<Operation['does']> = new Set(['bore', 'finish']);

/** As the shop says; else what the cut needs to keep clear, and no less than bending was worked out with. */
function outOf(cut: Cut, tool: Tool, then: SetupInTime, inShop: PartInShop): number {
  const { shop } = inShop;
  if (tool.stickoutMm !== undefined) return tool.stickoutMm;
  const use = toolFor(cut, then, inShop).find((u) => u.tool === tool);
  const bent = hasShank(tool) && 'reachMm' in tool ? stickoutOf(tool) : 0;
  const shape = shapeOf(tool, shop);
  return Math.max(use?.outMm ?? Math.min(shape.reachMm, shape.mostOutMm), bent);
}

function isSamePlace(before: Row | undefined, pass: Pick<PassRow, 'where'>): boolean {
  if (before?.kind !== 'pass' || before.where.type !== 'at' || pass.where.type !== 'at') return false;
  const [a, b] = [before.where.places, pass.where.places];
  return a.length === 1 && b.length === 1 && Math.hypot(a[0]![0] - b[0]![0], a[0]![1] - b[0]![1]) < SAME;
}

/** Zeros where they can be touched first; each tool's length where it is put in. `kept`: the control keeps lengths. */
function withTouches(rows: readonly Row[], zeros: readonly Touch[], kept: boolean): readonly Row[] {
  const across = zeros.filter(
    (t) => t.axis !== 'Z' && t.missing === undefined && !(t.how === 'bore' && t.afterPass === 0),
  );
  const heights = zeros.filter((t) => t.axis === 'Z');
  const out: Row[] = across.filter((t) => t.afterPass === 0).map((touch) => ({ kind: 'touch', touch }));
  let inSpindle: Tool | undefined;
  const measured = new Set<Tool>();
  for (const row of rows) {
    const height = row.kind === 'pass' ? (heights.findLast((t) => t.afterPass < row.number) ?? heights[0]) : undefined;
    if (row.kind === 'pass' && height && row.tool !== inSpindle) {
      inSpindle = row.tool;
      if (!kept || !measured.has(row.tool)) out.push({ kind: 'touch z', tool: row.tool, touch: height });
      measured.add(row.tool);
    }
    out.push(row);
    if (row.kind !== 'pass') continue;
    for (const touch of across) if (touch.afterPass === row.number) out.push({ kind: 'touch', touch });
  }
  return out;
}
