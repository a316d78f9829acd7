/**
 * Carries out a sheet as it is printed: reads the Markdown, moves each tool by the read-out values that stand in it, and takes
 * away what it passes through. Shares no code with what made the sheet: it knows the words, the shop's tools and the stock.
 */
import { FACE_AXIS, type Face, type Part } from '../../server/src/model/model';
import type { Shop } from '../../server/src/model/shop-model';
import { type Field, fieldOf } from './field';
import { lowestOf } from './fixture';
import { axisOf } from './frame';
import { Machine } from './machine';
import { blocksOf, type Moved, metOn } from './printed-hold';
import { type PrintedTabs, withoutFrame, wrongTabs } from './printed-tabs';
import { readSheet, type Setup } from './read-sheet';
import { judged, type Report } from './simulate';
import { bodyOf } from './tools';
import { type View, viewOf, workOf } from './view';

interface Carried extends Report {
  /** What the sheet does not tell in places, or nothing on hand does. */
  readonly left: readonly string[];
  readonly touches: readonly string[];
  readonly rubbed: readonly string[];
  /** What holds the work and is met on the way, or passed nearer than the margin. */
  readonly met: readonly string[];
}

interface Shown {
  readonly fineMm?: number;
  readonly marginMm?: number;
}

export function carryOut(
  markdown: string,
  part: Part,
  shop: Shop,
  { fineMm = 0.6, marginMm = 0 }: Shown = {},
): Carried {
  const field = fieldOf(part, fineMm);
  let work: Uint8Array = field.stock.slice();
  const left: string[] = [];
  const touches: string[] = [];
  const rubbed: string[] = [];
  const met: string[] = [];
  const files: { readonly after: number; readonly cells: readonly number[] }[] = [];
  readSheet(markdown).forEach((setup, index) => {
    const view = viewOf(field, work, setup.up);
    const mill = new Machine(setup, view, part);
    const before = viewOf(field, work, setup.up);
    const saws: { readonly face: Face; readonly long: number }[] = [];
    const moved: (Moved & { readonly of: string })[] = [];
    for (const step of setup.steps) {
      if ('left' in step) left.push(step.left);
      else if ('swept' in step) mill.sweep();
      else if ('sawn' in step) saws.push(step.sawn);
      else if ('filed' in step) files.push({ after: step.filed.after, cells: filedCells(field, step.filed, part) });
      else if ('touched' in step) touches.push(...mill.touch(step.touched).map((t) => `set-up ${index + 1}: ${t}`));
      else {
        touches.push(...mill.before(step.pass).map((t) => `set-up ${index + 1}: ${t}`));
        const tool = shop.tools.find((t) => t.name === step.pass.tool)!;
        const rubs = mill.carry(step.pass, bodyOf(tool, shop));
        for (const m of mill.moves(step.pass, tool, shop))
          moved.push({ ...m, of: `set-up ${index + 1}, ${step.pass.tool} ${step.pass.does} ${step.pass.of}` });
        if (rubs > 0) rubbed.push(`set-up ${index + 1}, ${step.pass.tool} ${step.pass.does} ${step.pass.of}: ${rubs}`);
      }
    }
    const written = part.setups![index]!;
    const pressed = setup.hold.places.map((p) => mill.toPlane(p));
    const blocks = blocksOf(setup.hold, { view: before, setup: written, part, shop, pressed }, (k) => mill.ends(k));
    for (const m of moved)
      for (const what of metOn(m, { view: before, blocks, marginMm }, shop)) met.push(`${m.of}: ${what}`);
    const { tabs, places } = setup.hold;
    if (tabs)
      met.push(
        ...onTabs(
          setup,
          tabs,
          places.map((p) => mill.toPlane(p)),
          { view, before, mill, shop },
        ),
      );
    work = workOf(field, view);
    if (tabs) withoutFrame(field, work);
    for (const s of saws) sawOff(field, work, s);
    for (const f of files) if (f.after === index + 1) for (const c of f.cells) work[c] = 0;
  });
  return { ...judged(field, work, [], 0.02 + 0.75 * field.grid.fine), left, touches, rubbed, met };
}

interface OnTabs {
  readonly view: View;
  readonly before: View;
  readonly mill: Machine;
  readonly shop: Shop;
}

/** What is wrong with the tabs, and passes that cut through them. */
function onTabs(
  { steps }: Setup,
  tabs: PrintedTabs,
  places: readonly (readonly [number, number])[],
  { view, before, mill, shop }: OnTabs,
): readonly string[] {
  const passes = steps.flatMap((s) => ('pass' in s ? [s.pass] : []));
  const top = lowestOf(before) + tabs.high;
  const low = passes.filter((p) => p.tips.some((z) => mill.height(z) < top - 0.05));
  const through = low.filter((p) => p.lift === undefined || Math.abs(mill.height(p.lift) - top) > 0.05);
  const widest = Math.max(0, ...low.map((p) => shop.tools.find((t) => t.name === p.tool)!.diameterMm));
  return [
    ...through.map((p) => `${p.does} ${p.of}: through the tabs`),
    ...wrongTabs(tabs, places, widest, view).map((w) => `tabs: ${w}`),
  ];
}

/** Takes off what is farther from the other end than it is to be long. */
function sawOff({ grid, stock }: Field, work: Uint8Array, { face, long }: { face: Face; long: number }): void {
  const k = axisOf(face);
  const { mid, edges } = grid.lines[k];
  const high = FACE_AXIS[face].sign > 0;
  const at = (c: number) => Math.floor(c / grid.stride[k]) % grid.count[k];
  let end = high ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  for (let c = 0; c < stock.length; c++)
    if (work[c]) end = high ? Math.min(end, edges[at(c)]!) : Math.max(end, edges[at(c) + 1]!);
  for (let c = 0; c < stock.length; c++) {
    const x = mid[at(c)]!;
    if (high ? x > end + long : x < end - long) work[c] = 0;
  }
}

/** Cells of a broken edge that lie at both of the faces named. */
function filedCells(
  field: Field,
  { of, edges, size }: { of: string; edges: readonly string[]; size: number },
  part: Part,
): number[] {
  const near = (c: number, face: Face) => {
    const k = axisOf(face);
    const i = Math.floor(c / field.grid.stride[k]) % field.grid.count[k];
    const x = field.grid.lines[k].mid[i]!;
    const plane = face === 'right' || face === 'back' || face === 'top' ? part.size[k]! : 0;
    return Math.abs(x - plane) < 1.8 * size;
  };
  const pairs = edges.map((e) => e.split('/') as [Face, Face]);
  return [...(field.cellsOf.get(of) ?? [])].filter((c) => pairs.some((p) => p.every((f) => near(c, f))));
}
