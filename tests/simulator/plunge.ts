/** A tool that goes straight down at one place: drills, reamers, bores, taps, countersinks. */
import type { Block } from './fixture';
import type { Frame } from './frame';
import { isSteel, keptOff, type Limit, RUB_MM, stoodBetween, tipStages } from './mill';
import type { Body } from './tools';
import { toPart, type View } from './view';

interface Plunged {
  /** Cells of the workpiece within the tool that are to go, and those that should stay. */
  readonly taken: number[];
  readonly gouged: number[];
  readonly met: Limit[];
}
/** A drill that much over its hole's size is not told as cutting into what stays, mm. */
const OVER_MM = 0.03;
const TOUCH_MM = 0.01;

/** What stands round the work, and so far everything keeps from what of it is steel, mm. */
interface Round {
  readonly blocks: readonly Block[];
  readonly margin: number;
  /** What is cut here anyway, by whichever tool: beside it no shank rubs. */
  readonly own?: ReadonlySet<number>;
}

export function plunge(
  view: View,
  tool: Body,
  a: number,
  b: number,
  tip: number,
  { blocks, margin, own }: Round,
): Plunged {
  const taken: number[] = [];
  const gouged: number[] = [];
  const met = new Set<Limit>();
  const wide = Math.max(tool.radius, tool.shankRadius + RUB_MM, tool.holder?.radius ?? 0);
  const { sheet, na, nb } = view;
  for (let k = 0; k < view.layers; k++) {
    const h = view.mid[k]! - tip;
    if (h <= 0) break;
    const cut = h <= tool.reach ? tool.profile(h) : 0;
    // Beside the head of the hole that it makes itself nothing is met: only what stands there otherwise.
    const shank = h > tool.reach ? tool.shankRadius + RUB_MM : 0;
    const holder = tool.holder && h > tool.holder.out ? tool.holder.radius : 0;
    const most = Math.max(cut, shank, holder);
    if (most > wide) continue;
    for (let j = 0; j < nb; j++) {
      const db = sheet.b[j]! - b;
      if (Math.abs(db) > most) continue;
      for (let i = 0; i < na; i++) {
        const da = sheet.a[i]! - a;
        if (Math.abs(da) > most) continue;
        const c = i + j * na + k * na * nb;
        if (!view.work[c]) continue;
        const d = Math.hypot(da, db);
        if (d < cut) {
          if (!view.finished[c]) taken.push(c);
          else if (d < cut - OVER_MM) gouged.push(c);
        } else if (d < holder) met.add('holder');
        // What is under the tool's own cut would be gone by then.
        else if (d < shank && d >= tool.profile(tool.tipHeight) && !own?.has(c)) met.add('shank');
      }
    }
  }
  for (const {
    what,
    a: [a0, a1],
    b: [b0, b1],
    h,
  } of blocks) {
    const above = h[1] - tip;
    if (above <= TOUCH_MM) continue;
    let radius = tool.profile(Math.min(above, tool.tipHeight));
    if (above > tool.reach + TOUCH_MM) radius = Math.max(radius, tool.shankRadius);
    if (tool.holder && above > tool.holder.out + TOUCH_MM) radius = Math.max(radius, tool.holder.radius);
    const d = Math.hypot(Math.max(a0 - a, a - a1, 0), Math.max(b0 - b, b - b1, 0));
    if (d < radius - TOUCH_MM) met.add(what);
  }
  if (margin > 0)
    for (const block of blocks)
      if (isSteel(block) && tooNear(view, tool, [a, b, tip], block, margin)) met.add(block.what);
  return { taken, gouged, met: [...met] };
}

function tooNear(
  view: View,
  tool: Body,
  [x, y, tip]: readonly [number, number, number],
  block: Block,
  margin: number,
): boolean {
  const { a, b, h } = block;
  const off = Math.hypot(Math.max(a[0] - x, x - a[1], 0), Math.max(b[0] - y, y - b[1], 0));
  const stages: (readonly [number, number])[] = [
    ...tipStages(tool),
    [tool.tipHeight, tool.radius],
    [tool.reach, tool.shankRadius],
    ...(tool.holder ? [[tool.holder.out, tool.holder.radius] as const] : []),
  ];
  return stages.some(([from, radius]) => {
    const wide = keptOff(tip + from - h[1], margin);
    if (wide === undefined || off >= radius + wide - TOUCH_MM) return false;
    const k = layerAt(view, Math.max(tip + from, h[0]) + TOUCH_MM);
    return tip + from >= h[1] - TOUCH_MM || k < 0 || !stoodBetween(view, block, x, y, radius, k);
  });
}

function layerAt(view: View, height: number): number {
  for (let k = view.layers - 1; k >= 0; k--) if (view.mid[k]! > height) return k;
  return -1;
}

/** How deep along a leaning axis work stands within a radius of it; undefined where none does. */
export function deepestAlong(view: View, { origin, w }: Frame, radius: number): number | undefined {
  let most: number | undefined;
  const n = view.na * view.nb;
  for (let c = 0; c < view.work.length; c++) {
    if (!view.work[c]) continue;
    const [i, j, k] = [c % view.na, Math.floor(c / view.na) % view.nb, Math.floor(c / n)];
    const at = toPart(view, view.sheet.a[i]!, view.sheet.b[j]!, view.mid[k]!);
    const p = [at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]] as const;
    const deep = p[0] * w[0] + p[1] * w[1] + p[2] * w[2];
    if (deep <= (most ?? 0)) continue;
    if (Math.hypot(p[0] - deep * w[0], p[1] - deep * w[1], p[2] - deep * w[2]) < radius) most = deep;
  }
  return most;
}

/** The same along an axis that leans in the view; `tip` is its depth along the axis. What holds the work leans with it. */
export function plungeAlong(
  view: View,
  tool: Body,
  { origin, w }: Frame,
  tip: number,
  blocks: readonly Block[],
): Plunged {
  const taken: number[] = [];
  const gouged: number[] = [];
  const met = new Set<Limit>();
  const n = view.na * view.nb;
  /** Height over the tip, and distance from the axis. */
  const seen = (a: number, b: number, height: number): readonly [number, number] => {
    const at = toPart(view, a, b, height);
    const p = [at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]] as const;
    const deep = p[0] * w[0] + p[1] * w[1] + p[2] * w[2];
    return [tip - deep, Math.hypot(p[0] - deep * w[0], p[1] - deep * w[1], p[2] - deep * w[2])];
  };
  for (let c = 0; c < view.work.length; c++) {
    if (!view.work[c]) continue;
    const [h, d] = seen(
      view.sheet.a[c % view.na]!,
      view.sheet.b[Math.floor(c / view.na) % view.nb]!,
      view.mid[Math.floor(c / n)]!,
    );
    if (h <= 0) continue;
    const cut = h <= tool.reach ? tool.profile(h) : 0;
    if (d < cut) {
      if (!view.finished[c]) taken.push(c);
      else if (d < cut - OVER_MM) gouged.push(c);
    } else if (tool.holder && h > tool.holder.out && d < tool.holder.radius) met.add('holder');
    else if (h > tool.reach && d < tool.shankRadius + RUB_MM && d >= tool.profile(tool.tipHeight)) met.add('shank');
  }
  for (const block of blocks)
    for (const [a, b, height] of pointsOf(block)) {
      const [h, d] = seen(a, b, height);
      const holder = tool.holder && h > tool.holder.out ? tool.holder.radius : 0;
      if (h > TOUCH_MM && d < Math.max(h <= tool.reach ? tool.profile(h) : tool.shankRadius, holder) - TOUCH_MM)
        met.add(block.what);
    }
  return { taken, gouged, met: [...met] };
}

const BLOCK_STEP_MM = 1.5;

/** Places all through a block, its corners among them; none of a bed without end. */
export function pointsOf({ a, b, h }: Block): readonly (readonly [number, number, number])[] {
  if (a[1] - a[0] > 1e4) return [];
  const along = ([from, to]: readonly [number, number]) => {
    const n = Math.max(1, Math.ceil((to - from) / BLOCK_STEP_MM));
    return Array.from({ length: n + 1 }, (_, k) => from + ((to - from) * k) / n);
  };
  const [bs, hs] = [along(b), along(h)];
  return along(a).flatMap((x) => bs.flatMap((y) => hs.map((z) => [x, y, z] as const)));
}
