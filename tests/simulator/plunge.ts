/** A tool that goes straight down at one place: drills, reamers, bores, taps, countersinks. */
import type { Block } from './fixture';
import type { Frame } from './frame';
import { type Limit, RUB_MM } from './mill';
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

export function plunge(view: View, tool: Body, a: number, b: number, tip: number, blocks: readonly Block[]): Plunged {
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
        else if (d < shank && d >= tool.profile(tool.tipHeight)) met.add('shank');
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
  return { taken, gouged, met: [...met] };
}

/** The same along an axis that leans in the view; `tip` is its depth along the axis. What holds the work is not met. */
export function plungeAlong(view: View, tool: Body, { origin, w }: Frame, tip: number): Plunged {
  const taken: number[] = [];
  const gouged: number[] = [];
  const met = new Set<Limit>();
  const n = view.na * view.nb;
  for (let c = 0; c < view.work.length; c++) {
    if (!view.work[c]) continue;
    const at = toPart(
      view,
      view.sheet.a[c % view.na]!,
      view.sheet.b[Math.floor(c / view.na) % view.nb]!,
      view.mid[Math.floor(c / n)]!,
    );
    const p = [at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]] as const;
    const deep = p[0] * w[0] + p[1] * w[1] + p[2] * w[2];
    const h = tip - deep;
    if (h <= 0) continue;
    const d = Math.hypot(p[0] - deep * w[0], p[1] - deep * w[1], p[2] - deep * w[2]);
    const cut = h <= tool.reach ? tool.profile(h) : 0;
    if (d < cut) {
      if (!view.finished[c]) taken.push(c);
      else if (d < cut - OVER_MM) gouged.push(c);
    } else if (tool.holder && h > tool.holder.out && d < tool.holder.radius) met.add('holder');
    else if (h > tool.reach && d < tool.shankRadius + RUB_MM && d >= tool.profile(tool.tipHeight)) met.add('shank');
  }
  return { taken, gouged, met: [...met] };
}
