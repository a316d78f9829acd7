/**
 * How a sheet says that the work is held, and what of that a tool meets on the way that is printed: jaws, parallels, stop and
 * bed where the sheet puts them; clamps and heads of screws at the places that it gives.
 */
import { FACE_AXIS, type Face, OPPOSITE, type Part, type Setup } from '../../server/src/model/model';
import type { Shop, Tool } from '../../server/src/model/shop-model';
import { discOf } from './disc';
import { type Block, heldBy, type Slide } from './fixture';
import { axisOf } from './frame';
import { isSteel, keptOff, stoodBetween, tipStages } from './mill';
import { type PrintedTabs, readTabs } from './printed-tabs';
import type { Body } from './tools';
import type { View } from './view';

type Point = readonly [number, number];

export interface PrintedHold {
  readonly fixed?: Face;
  readonly stop?: Face;
  /** Of the part as it leaves the vise. */
  readonly outs: readonly { readonly face: Face; readonly mm: number }[];
  readonly parallelsMm: number;
  readonly gripMm?: number;
  readonly tabs?: PrintedTabs;
  /** Read-out values of clamps, screws or tabs. */
  readonly places: readonly Point[];
}

/** From the words of a set-up, without the marks of the Markdown. */
export function readHold(words: string): PrintedHold {
  const told = words.slice(words.indexOf('### Hold'), words.indexOf('### Zero'));
  const face = (of: RegExp) => of.exec(told)?.[1]?.toLowerCase() as Face | undefined;
  const [fixed, stop] = [face(/^- \[ \] (\w+) .*to the fixed jaw/m), face(/^- \[ \] (\w+) .*to the stop/m)];
  const grip = /^- \[ \] ([\d.]+) in the jaws/m.exec(told);
  const tabs = readTabs(told);
  const places = /^- \[ \] .* at (X .*)$/m.exec(told)?.[1] ?? '';
  return {
    ...(fixed && { fixed }),
    ...(stop && { stop }),
    outs: [...told.matchAll(/^- \[ \] (\w+) end ([\d.]+) out of the jaws/gm)].map((m) => ({
      face: m[1]!.toLowerCase() as Face,
      mm: Number(m[2]),
    })),
    parallelsMm: Number(/on parallels of ([\d.]+)/.exec(told)?.[1] ?? 0),
    ...(grip && { gripMm: Number(grip[1]) }),
    ...(tabs && { tabs }),
    places: [...places.matchAll(/X (-?[\d.]+) Y (-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const),
  };
}

interface Standing {
  readonly view: View;
  readonly setup: Setup;
  readonly part: Part;
  readonly shop: Shop;
  /** Where the sheet's places for clamps lie in the plane of the view. */
  readonly pressed: readonly Point[];
}

/** What stands round the work; `ends`: how far the work reaches along the jaws as it leaves them. */
export function blocksOf(
  told: PrintedHold,
  { view, setup, part, shop, pressed }: Standing,
  ends: (axis: 0 | 1 | 2) => readonly [number, number],
): readonly Block[] {
  const { hold } = setup;
  if (!hold) return [];
  if (hold.type === 'clamps') {
    const clamps = pressed.map(([u, v]) => ({ u, v })) as unknown as typeof hold.clamps;
    return heldBy(view, { ...setup, hold: { ...hold, clamps } } as Setup, shop, part, { slide: 'middle' }).blocks;
  }
  if (!told.fixed || told.gripMm === undefined) return heldBy(view, setup, shop, part, { slide: 'middle' }).blocks;
  const length = (mm: number) => ({ ...hold.grip!, mm });
  const name = (f: Face) => ({ ...hold.jaws![0]!, name: f });
  const put = {
    ...hold,
    grip: length(told.gripMm),
    parallels: length(told.parallelsMm),
    jaws: [name(told.fixed), name(OPPOSITE[told.fixed])],
    stop: told.stop && name(told.stop),
    overhang: undefined,
  };
  const long = ([0, 1, 2] as const).find((k) => k !== view.axes[2] && k !== axisOf(told.fixed!))!;
  return heldBy(view, { ...setup, hold: put } as unknown as Setup, shop, part, {
    slide: jawsAlong(told, setup, shop, ends(long)),
  }).blocks;
}

function jawsAlong({ outs }: PrintedHold, { hold }: Setup, shop: Shop, [low, high]: readonly [number, number]): Slide {
  const vise = shop.vises.find((v) => v.name === hold?.vise?.name) ?? shop.vises[0]!;
  const [first] = outs;
  if (!first) return 'middle';
  const half = (vise.jawWidthMm + (hold?.apart?.mm ?? 0)) / 2;
  const middle = FACE_AXIS[first.face].sign > 0 ? high - first.mm - half : low + first.mm + half;
  return { at: [middle - vise.jawWidthMm / 2, middle + vise.jawWidthMm / 2] };
}

interface Stage {
  readonly from: number;
  readonly to: number;
  readonly radius: number;
}

function stagesOf(tool: Tool, body: Body, shop: Shop): readonly Stage[] {
  const disc = discOf(tool, shop);
  if (disc) return disc.rings;
  const cone = tipStages(body).map(([from, radius]) => ({ from, to: body.reach, radius }));
  const { holder, tipHeight, reach, radius, shankRadius } = body;
  return [
    ...cone,
    { from: tipHeight, to: reach, radius },
    { from: reach, to: holder?.out ?? 1e4, radius: shankRadius },
    ...(holder ? [{ from: holder.out, to: 1e4, radius: holder.radius }] : []),
  ];
}

export interface Moved {
  readonly tool: Tool;
  readonly body: Body;
  readonly lines: readonly (readonly Point[])[];
  /** Heights of the tip in the view. */
  readonly tips: readonly number[];
}

/** Places are printed to a hundredth. */
const PRINTED_MM = 0.03;
const STEP_MM = 0.25;

/** What is met, or passed nearer than the margin with no work between. */
export function metOn(
  { tool, body, lines, tips }: Moved,
  { view, blocks, marginMm }: { view: View; blocks: readonly Block[]; marginMm: number },
  shop: Shop,
): ReadonlySet<string> {
  const met = new Set<string>();
  const stages = stagesOf(tool, body, shop);
  const places = lines.flatMap((line) => sampled(line));
  for (const block of blocks)
    for (const tip of tips)
      for (const { from, to, radius } of stages) {
        const apart = Math.max(tip + from - block.h[1], block.h[0] - (tip + to));
        const keeps = isSteel(block) ? marginMm : 0;
        const wide = apart < -0.02 ? keeps : (keptOff(apart, keeps) ?? -1);
        if (wide < 0 || (apart >= -0.02 && keeps === 0)) continue;
        const k = layerOver(view, Math.max(tip + from, block.h[0]) + 0.01);
        for (const [x, y] of places) {
          const off = offBlock(block, x, y);
          if (off >= radius + wide - PRINTED_MM) continue;
          if (apart < -0.02 && off < radius - PRINTED_MM) met.add(block.what);
          else if (wide > 0 && !(k >= 0 && apart < -0.02 && stoodBetween(view, block, x, y, radius, k)))
            met.add(`near the ${block.what}`);
        }
      }
  return met;
}

function offBlock({ a, b }: Block, x: number, y: number): number {
  return Math.hypot(Math.max(a[0] - x, x - a[1], 0), Math.max(b[0] - y, y - b[1], 0));
}

function layerOver(view: View, height: number): number {
  for (let k = view.layers - 1; k >= 0; k--) if (view.mid[k]! > height) return k;
  return -1;
}

function sampled(line: readonly Point[]): readonly Point[] {
  return line.flatMap((p, n) => {
    const q = line[n + 1];
    if (!q) return [p];
    const steps = Math.max(1, Math.ceil(Math.hypot(q[0] - p[0], q[1] - p[1]) / STEP_MM));
    return Array.from(
      { length: steps },
      (_, k): Point => [p[0] + ((q[0] - p[0]) * k) / steps, p[1] + ((q[1] - p[1]) * k) / steps],
    );
  });
}
