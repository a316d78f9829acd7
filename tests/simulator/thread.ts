/**
 * Threads that are milled: a cutter goes round in a bored hole or round a boss, down to the thread's depth. The field shows no
 * threads; what is looked at is the way: into the hole, all round at the deepest turn, and out. Profiles of threads are not
 * looked at, but for the flanks and the pitch by which a cutter is chosen. Heights of teeth: ISO 68-1, ISO 228-1, ASME B1.20.1,
 * ISO 2904, from memory.
 */
import type { Feature } from '../../server/src/model/model';
import type { Tool } from '../../server/src/model/shop-model';
import type { Block } from './fixture';
import type { Limit } from './mill';
import { RUB_MM } from './mill';
import type { Body } from './tools';
import type { View } from './view';

/** Where a thread is, in the view: its axis, and from which radius to which its turns reach. */
interface Turned {
  readonly a: number;
  readonly b: number;
  readonly from: number;
  readonly to: number;
  /** Inside a hole, or round a boss. */
  readonly inside: boolean;
}
interface Helix {
  readonly tool: Body;
  /** Length of its teeth: above them its neck is thinner than they are. */
  readonly teeth: number;
  /** Deepest place of its tip. */
  readonly tip: number;
}
interface Met {
  /** Cells that should stay and are cut. */
  readonly gouged: number[];
  readonly met: ReadonlySet<Limit>;
}

const TURNS = 24;
/** A cell that is cut by less than this is not told, mm. */
const OVER_MM = 0.05;
const TOUCH_MM = 0.01;

type Threaded = Extract<Feature, { kind: 'hole' | 'contour' }>;

/** Least and largest radius of the turns; undefined where it has no thread that is known. */
export function turnsOf(feature: Threaded): { readonly from: number; readonly to: number } | undefined {
  const spec = feature.thread?.spec;
  if (!spec) return undefined;
  const { series, pitchMm: p, diameterMm: d } = spec;
  if (feature.kind === 'contour') return { from: d / 2 - 0.6134 * p, to: d / 2 };
  const clearance = p <= 1.5 ? 0.15 : p <= 5 ? 0.25 : p <= 12 ? 0.5 : 1;
  return { from: feature.diameter.mm / 2, to: d / 2 + (series === 'Tr' ? clearance : 0) };
}

/** Those of its pitch, flanks and cone, the thickest first. */
export function cuttersOf(feature: Threaded, tools: readonly Tool[]) {
  const spec = feature.thread?.spec;
  if (!spec) return [];
  const flanks = /^(G|Rp|Rc)$/.test(spec.series) ? 55 : spec.series === 'Tr' ? 30 : 60;
  const cone = spec.series === 'Rc' || spec.series === 'NPT';
  return tools
    .flatMap((t) => (t.kind === 'thread-mill' ? [t] : []))
    .filter((t) => t.flanksDeg === flanks && (t.tapered === true) === cone)
    .filter(({ pitchMm: [least, most] }) => spec.pitchMm > least - 0.002 && spec.pitchMm < most + 0.002)
    .sort((x, y) => y.diameterMm - x.diameterMm);
}

/** Down the axis of the hole, or beside the boss, and once round at the deepest turn. */
export function goRound(
  view: View,
  { tool, teeth, tip }: Helix,
  turned: Turned,
  blocks: readonly Block[],
  slack: number,
): Met {
  const { a, b, from, to, inside } = turned;
  const off = inside ? to - tool.radius : from + tool.radius;
  const gouged = new Set<number>();
  const met = new Set<Limit>();
  const stands: (readonly [number, number])[] = Array.from({ length: TURNS }, (_, k) => {
    const turn = (2 * Math.PI * k) / TURNS;
    return [a + off * Math.cos(turn), b + off * Math.sin(turn)];
  });
  const own = (c: number, clear: number) => {
    const d = Math.hypot(view.sheet.a[c % view.na]! - a, view.sheet.b[Math.floor(c / view.na) % view.nb]! - b);
    return d > from - clear && d < to + clear;
  };
  for (const [x, y] of stands) along(view, { tool, teeth, tip }, x, y, (c) => own(c, slack), gouged, met, blocks);
  // In on the hole's axis, where nothing is its own to cut yet.
  if (inside && tool.radius > from + OVER_MM) along(view, { tool, teeth, tip }, a, b, () => false, gouged, met, blocks);
  return { gouged: [...gouged], met };
}

function along(
  view: View,
  { tool, teeth, tip }: Helix,
  x: number,
  y: number,
  own: (cell: number) => boolean,
  gouged: Set<number>,
  met: Set<Limit>,
  blocks: readonly Block[],
): void {
  const { sheet, na, nb } = view;
  const shank = tool.shankRadius + RUB_MM;
  const most = Math.max(tool.radius, shank, tool.holder?.radius ?? 0);
  for (let k = 0; k < view.layers; k++) {
    const [top, bottom] = [view.top[k]! - tip, view.bottom[k]! - tip];
    if (top <= OVER_MM) break;
    for (let j = 0; j < nb; j++) {
      if (Math.abs(sheet.b[j]! - y) > most) continue;
      for (let i = 0; i < na; i++) {
        const c = i + j * na + k * na * nb;
        if (!view.work[c]) continue;
        const d = Math.hypot(sheet.a[i]! - x, sheet.b[j]! - y);
        if (bottom < teeth && d < tool.radius - OVER_MM && !own(c)) gouged.add(c);
        if (top > tool.reach + OVER_MM && d < shank) met.add('shank');
        if (tool.holder && top > tool.holder.out + OVER_MM && d < tool.holder.radius) met.add('holder');
      }
    }
  }
  for (const { what, a, b, h } of blocks) {
    const above = h[1] - tip;
    if (above <= TOUCH_MM) continue;
    let radius = tool.radius;
    if (above > tool.reach + TOUCH_MM) radius = Math.max(radius, tool.shankRadius);
    if (tool.holder && above > tool.holder.out + TOUCH_MM) radius = Math.max(radius, tool.holder.radius);
    if (Math.hypot(Math.max(a[0] - x, x - a[1], 0), Math.max(b[0] - y, y - b[1], 0)) < radius - TOUCH_MM) met.add(what);
  }
}
