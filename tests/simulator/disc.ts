/**
 * A disc that cuts a channel from beside: it comes straight in along either axis of the sheet until its rim touches what
 * stays, or neck, nut, shank or holder touch work that it does not take, or what holds the work. Where it stands is worked
 * out, not looked for among the cells: its axis is out in the open, where those are coarse.
 */
import type { Shop, Tool } from '../../server/src/model/shop-model';
import type { Block } from './fixture';
import { isSteel, keptOff, type Limit, RUB_MM } from './mill';
import { bodyOf } from './tools';
import type { View } from './view';

/** What goes about the spindle between two heights over the tip, mm. */
interface Ring {
  readonly what: 'rim' | 'shank' | 'holder';
  readonly from: number;
  readonly to: number;
  readonly radius: number;
}
interface DiscBody {
  readonly tool: string;
  readonly radius: number;
  readonly thick: number;
  readonly rings: readonly Ring[];
}

export function discOf(t: Tool, shop: Shop): DiscBody | undefined {
  if (t.kind !== 'slitting-saw' && t.kind !== 'tee-cutter') return undefined;
  const { holder } = bodyOf(t, shop);
  const below = t.kind === 'slitting-saw' ? t.belowMm : 0;
  const [radius, thick, neck] = [t.diameterMm / 2, t.thicknessMm, t.neckMm / 2];
  const far = holder?.out ?? 1e4;
  const rings: Ring[] = [
    { what: 'rim', from: 0, to: thick, radius },
    { what: 'shank', from: -below, to: 0, radius: neck },
    { what: 'shank', from: thick, to: t.reachMm, radius: neck },
    // How thick what begins there is is not said: as wide as the disc, at most.
    { what: 'shank', from: t.reachMm, to: far, radius },
  ];
  if (holder) rings.push({ what: 'holder', from: far, to: 1e4, radius: holder.radius });
  return { tool: t.name, radius, thick, rings };
}

/** A way in: along one axis of the sheet, from one end; `s` across it. */
interface Way {
  readonly onA: boolean;
  readonly sign: 1 | -1;
}
const WAYS: readonly Way[] = [true, false].flatMap((onA) => ([1, -1] as const).map((sign): Way => ({ onA, sign })));
/** Rounding of sampled places: a rim may be so much larger than its cut. */
const SLACK_MM = 0.021;

interface Beside {
  readonly view: View;
  readonly disc: DiscBody;
  readonly blocks: readonly Block[];
  readonly margin: number;
  /** Lower and upper side of the channel. */
  readonly between: readonly [number, number];
}

/** The cells that it takes; `ignoring` tells which limits are left out. */
export function takenBeside(
  { view, disc, blocks, margin, between: [low, high] }: Beside,
  cells: readonly number[],
  ignoring: ReadonlySet<Limit>,
): readonly number[] {
  const own = new Uint8Array(view.work.length);
  for (const c of cells) own[c] = 1;
  const taken = new Set<number>();
  for (const tip of passes(low, high, disc.thick))
    for (const way of WAYS) {
      const pass = new Pass(view, disc, tip, way, own);
      pass.meet(blocks, margin, ignoring);
      for (const c of pass.take(cells)) taken.add(c);
    }
  return [...taken];
}

function passes(low: number, high: number, thick: number): readonly number[] {
  const out = [low];
  for (let tip = low + thick; tip < high - 1e-6; tip += thick) out.push(Math.max(low, Math.min(tip, high - thick)));
  return out;
}

/** One way in at one height. `t` runs the way that it goes in. */
class Pass {
  private readonly across: Float64Array;
  private readonly along: Float64Array;
  /** Of each ring: where the first that it must not touch stands, at each place across. */
  private readonly first: { readonly ring: Ring; readonly at: Float64Array }[] = [];
  private readonly walls: { readonly radius: number; readonly s: readonly [number, number]; readonly t: number }[] = [];

  constructor(
    private readonly view: View,
    private readonly disc: DiscBody,
    private readonly tip: number,
    private readonly way: Way,
    private readonly own: Uint8Array,
  ) {
    const { a, b } = view.sheet;
    this.across = way.onA ? b : a;
    this.along = (way.onA ? a : b).map((x) => x * way.sign);
  }

  meet(blocks: readonly Block[], margin: number, ignoring: ReadonlySet<Limit>): void {
    for (const ring of this.disc.rings) {
      if (ring.what === 'rim' || !ignoring.has(ring.what)) this.first.push({ ring, at: this.firstOf(ring) });
      for (const block of blocks) {
        const { what, a, b, h } = block;
        const wide = keptOff(this.tip + ring.from - h[1], isSteel(block) ? margin : 0);
        if (ignoring.has(what) || wide === undefined || h[0] >= this.tip + ring.to - 0.01) continue;
        const [s, t] = this.way.onA ? [b, a] : [a, b];
        this.walls.push({ radius: ring.radius + Math.max(0, wide - 0.01), s, t: this.way.sign > 0 ? t[0] : -t[1] });
      }
    }
  }

  private firstOf({ what, from, to }: Ring): Float64Array {
    const { view, own } = this;
    const at = new Float64Array(this.across.length).fill(Number.POSITIVE_INFINITY);
    for (let k = 0; k < view.layers; k++) {
      const h = view.mid[k]! - this.tip;
      if (h <= from || h >= to) continue;
      for (let j = 0; j < view.nb; j++)
        for (let i = 0; i < view.na; i++) {
          const c = i + (j + k * view.nb) * view.na;
          if (what === 'rim' ? !view.finished[c] : !view.work[c] || own[c]) continue;
          const [s, t] = this.way.onA ? [j, this.along[i]!] : [i, this.along[j]!];
          if (t < at[s]!) at[s] = t;
        }
    }
    return at;
  }

  /** How far in its axis comes at a place across. */
  private stop(s: number): number {
    let most = Number.POSITIVE_INFINITY;
    for (const { ring, at } of this.first) {
      const r = ring.what === 'rim' ? ring.radius - SLACK_MM : ring.radius + RUB_MM;
      for (let j = 0; j < at.length; j++) {
        const d = this.across[j]! - s;
        if (Math.abs(d) < r) most = Math.min(most, at[j]! - Math.sqrt(r * r - d * d));
      }
    }
    for (const {
      radius,
      s: [s0, s1],
      t,
    } of this.walls) {
      const d = Math.max(s0 - s, s - s1, 0);
      if (d < radius) most = Math.min(most, t - Math.sqrt(radius * radius - d * d));
    }
    return most;
  }

  take(cells: readonly number[]): readonly number[] {
    const { view, tip } = this;
    const r = this.disc.radius;
    const n = view.na * view.nb;
    const here = cells.filter((c) => {
      const h = view.mid[Math.floor(c / n)]! - tip;
      return h > -1e-9 && h < this.disc.thick + 1e-9;
    });
    const placeOf = (c: number): readonly [number, number] => {
      const [i, j] = [c % view.na, Math.floor(c / view.na) % view.nb];
      return this.way.onA ? [j, this.along[i]!] : [i, this.along[j]!];
    };
    const rows = [...new Set(here.map((c) => placeOf(c)[0]))];
    const wide = rows.map((j) => this.across[j]!);
    const deep = new Map(rows.map((j) => [j, Number.NEGATIVE_INFINITY]));
    for (const s of [...wide, ...stands(Math.min(...wide) - r, Math.max(...wide) + r)]) {
      const stop = this.stop(s);
      for (const j of rows) {
        const d = this.across[j]! - s;
        if (Math.abs(d) < r) deep.set(j, Math.max(deep.get(j)!, stop + Math.sqrt(r * r - d * d)));
      }
    }
    return here.filter((c) => {
      const [j, t] = placeOf(c);
      return t < deep.get(j)!;
    });
  }
}

const STEP_MM = 0.25;
function stands(low: number, high: number): readonly number[] {
  return Array.from({ length: Math.ceil((high - low) / STEP_MM) }, (_, n) => low + n * STEP_MM);
}
