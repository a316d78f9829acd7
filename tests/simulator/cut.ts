/**
 * One cut in its set-up: the tools that are handed in, or every tool of the shop that could do it, tried one after the
 * other, largest first, until nothing is left to take.
 */
import type { Contour, Feature, Hole, Part } from '../../server/src/model/model';
import type { Shop, Tool } from '../../server/src/model/shop-model';
import { plunging, sameThread, toolsFor } from './choose';
import { discOf, takenBeside } from './disc';
import type { Field } from './field';
import { type Block, lowestOf } from './fixture';
import { axisOf, type Frame, planeOf } from './frame';
import { LeaningMill } from './lean';
import { bottomsOf, floorsOf, layersIn } from './levels';
import { type Limit, Milling, type Task } from './mill';
import { deepestAlong, plunge, plungeAlong } from './plunge';
import { cuttersOf, goRound, turnsOf } from './thread';
import { type Body, bodyOf, setTo } from './tools';
import type { View } from './view';

/** A tool chosen for a cut: by name, or in numbers. */
export interface Chosen {
  readonly cut: string;
  readonly tools: readonly string[];
}
export interface CutResult {
  readonly cut: string;
  readonly tools: readonly string[];
  /** What was cut away for it, mm³. */
  readonly removed: number[];
  /** Cells that should stay and were cut. */
  readonly gouged: number[];
  /** What kept the tools that would reach from what is left of it. */
  readonly met: readonly Limit[];
  /** Its own cells that are still there. */
  readonly left: number[];
}

/** Of a head on a neck: on each border of layers, and with its upper side at one. */
function underOverhangs(layers: readonly number[], height: number, low: number): readonly number[] {
  return [...layers, ...layers.map((h) => h - height).filter((h) => h > low)];
}

const EVERY: readonly Limit[] = ['shank', 'holder', 'jaw', 'parallel', 'stop', 'bed', 'clamp', 'screw', 'piece'];
const NONE: ReadonlySet<Limit> = new Set();
const NOTHING = { blocks: [], margin: 0 };
const MOST_TOOLS = 3;
/** A plane is as even as the cells are, mm. */
const UNEVEN_MM = 1;
/** A mill goes so far on below what it cuts through. Common practice, no source. */
const THROUGH_MM = 0.1;

export interface Site {
  readonly part: Part;
  readonly shop: Shop;
  readonly field: Field;
  readonly view: View;
  readonly blocks: readonly Block[];
  /** Of work held at an angle, the axis that leans in it. */
  readonly lean?: Frame;
  /** So far every tool keeps from steel, mm. */
  readonly margin: number;
  /** Whether what is left lies no deeper than the field can tell. */
  readonly done: (cells: readonly number[]) => boolean;
  /** Of the bar beyond an end that is sawn off, what no cut takes. */
  readonly kept?: (cell: number) => boolean;
  readonly volume: (cells: readonly number[]) => number;
}

/** `stop`: no deeper than there, along the spindle's axis. */
export function makeCut(site: Site, name: string, chosen?: readonly string[], stop?: number): CutResult {
  const { view, field, part, shop } = site;
  const cells = (field.cellsOf.get(name) ?? new Int32Array()).map(view.local);
  const feature = part.featureByName.get(name);
  const floor = stop === undefined ? Number.NEGATIVE_INFINITY : stop * view.sign;
  const above = (c: number) => view.mid[Math.floor(c / (view.na * view.nb))]! > floor;
  const work = new Cutting(
    site,
    cells.filter((c) => view.work[c] && above(c) && !site.kept?.(c)),
    floor,
  );
  const offered = chosen ? shop.tools.filter((t) => chosen.includes(t.name)) : shop.tools;
  if (feature?.kind === 'hole') work.hole(feature, offered);
  if (fromBeside(feature, view)) work.beside(offered, heightsOf(view, cells));
  const mills = toolsFor(feature, name, view, offered).map((t) => bodyOf(t, shop));
  // A plane is cut by the end of a flat mill, all of it at one depth: so it tells whether the work leans as it should.
  const level = feature?.kind === 'slope';
  const ends = level ? mills.filter((m) => m.tipHeight === 0 && !m.head) : mills;
  if (site.lean && feature?.kind !== 'hole') work.leaningMilled(ends, site.lean, level);
  for (let n = 0; !site.lean && n < MOST_TOOLS && (n === 0 || !work.finished()); n++) {
    // An edge in the shade of the part is cut in another set-up: there is nothing to be said of it here.
    if (!work.mill(mills, feature)) break;
  }
  if (feature?.kind === 'hole') work.threaded(feature, offered);
  if (feature?.kind === 'contour' && feature.thread && !site.lean) work.boss(feature, offered);
  return {
    cut: name,
    tools: work.used,
    removed: work.removed,
    gouged: work.gouged,
    met: [...work.met],
    left: work.left(),
  };
}

class Cutting {
  readonly used: string[] = [];
  readonly removed: number[] = [];
  readonly gouged: number[] = [];
  readonly met = new Set<Limit>();

  constructor(
    private readonly site: Site,
    private readonly cells: Int32Array,
    /** Height below which nothing is cut here. */
    private readonly stop: number,
  ) {}

  left(): number[] {
    const { work } = this.site.view;
    const out: number[] = [];
    for (const c of this.cells) if (work[c]) out.push(c);
    return out;
  }
  /** What nothing finished stands over. */
  private inSight(cells: readonly number[]): number[] {
    const { finished, na, nb } = this.site.view;
    const n = na * nb;
    const first = new Int32Array(n).fill(-2);
    return cells.filter((c) => {
      const column = c % n;
      if (first[column] === -2) {
        let k = column;
        while (k < finished.length && !finished[k]) k += n;
        first[column] = k < finished.length ? Math.floor(k / n) : 1e6;
      }
      return Math.floor(c / n) < first[column]!;
    });
  }
  finished(): boolean {
    return this.site.done(this.left());
  }

  private clear(cells: readonly number[]): void {
    for (const c of cells) this.site.view.work[c] = 0;
    for (const c of cells) this.removed.push(c);
  }

  /** The mill that takes the most of what is left; false where none takes anything to speak of. */
  mill(tools: readonly Body[], feature: Feature | undefined): boolean {
    const all = this.left();
    const heads = tools.some((t) => t.head);
    const left = heads ? all : this.inSight(all);
    if (left.length === 0) return false;
    const before = this.site.volume(left);
    let best: { tool: Body; cells: number[]; volume: number } | undefined;
    const taskOf = this.taskFor(left, feature);
    let done = false;
    for (const tool of tools) {
      const { cells } = taskOf(tool).milling.take(tool, NONE);
      const volume = this.site.volume(cells);
      if (!best || volume > best.volume * 1.0001) best = { tool, cells, volume };
      if (volume > 0.5 * before && this.site.done(without(left, cells))) {
        best = { tool, cells, volume };
        done = true;
        break;
      }
    }
    if (!best) return false;
    const some = best.volume >= Math.max(0.005, before * 0.002);
    if (some) {
      this.clear(best.cells);
      this.used.push(best.tool.tool);
    }
    this.met.clear();
    if (done && this.rubs(best.tool, taskOf, best.volume)) this.met.add('shank');
    if (!done) this.whatIsInTheWay(tools, taskOf, best.volume);
    return some;
  }

  /** All is taken but for what the room that the shank needs leaves on the walls: too thin to be seen as left. */
  private rubs(tool: Body, taskOf: ReturnType<Cutting['taskFor']>, taken: number): boolean {
    const { milling, task } = taskOf(tool);
    if (!matters('shank', tool, task)) return false;
    return this.site.volume(milling.take(tool, new Set<Limit>(['shank'])).cells) > taken + 0.01;
  }

  /** Limits that, left out one at a time, would let a tool take more than the best can. */
  private whatIsInTheWay(tools: readonly Body[], taskOf: ReturnType<Cutting['taskFor']>, best: number): void {
    const enough = best * 1.002 + 0.02;
    for (const tool of tools) {
      const { milling, task } = taskOf(tool);
      const matter = EVERY.filter((limit) => matters(limit, tool, task));
      if (matter.length === 0 || this.site.volume(milling.take(tool, new Set(matter)).cells) <= enough) continue;
      const single = matter.filter((limit) => this.site.volume(milling.take(tool, new Set([limit])).cells) > enough);
      for (const limit of single.length > 0 ? single : matter) this.met.add(limit);
      return;
    }
  }

  private taskFor(left: readonly number[], feature: Feature | undefined) {
    const { view, field, blocks, margin } = this.site;
    const n = view.na * view.nb;
    let [k0, k1] = [view.layers, 0];
    for (const c of left) {
      const k = Math.floor(c / n);
      if (k < k0) k0 = k;
      if (k > k1) k1 = k;
    }
    const [high, low] = [view.top[k0]!, view.bottom[k1]!];
    const taken = feature ? field.takenOf.get(feature.name)! : [];
    const slanted = taken.some((t) => t.outline.slanted) || feature?.tilt !== undefined;
    const slack = slanted ? field.grid.fine / 2 : 0.021;
    // What ends at the workpiece's underside is cut through: the tip goes on a little.
    const under = lowestOf(view) + 1e-6;
    const text = floorsOf(taken, view, low, high);
    // Through a workpiece with steps in its underside: no deeper anywhere than there is something to cut.
    const steps = low < under ? bottomsOf(left, view) : [];
    const floors = [...text, ...steps].map((h) => (h < under ? h - THROUGH_MM : h));
    const layers = layersIn(view, low, high);
    const made = new Map<string, { milling: Milling; task: Task }>();
    return (tool: Body) => {
      const cone = tool.kind === 'chamfer-mill' || tool.kind === 'countersink';
      const tips = cone
        ? [0.1, 0.5, 1.5].map((d) => low - d)
        : tool.kind === 'corner-rounder'
          ? [low]
          : tool.head
            ? underOverhangs(layers, tool.head.height, low)
            : floors;
      const reach = Math.max(
        tool.radius,
        tool.shankRadius + 0.1,
        tool.holder && low + tool.holder.out < view.top[0]! ? tool.holder.radius : 0,
      );
      const key = `${tool.radius} ${reach} ${tips.join()}`;
      let known = made.get(key);
      if (!known) {
        const task: Task = { view, cells: Int32Array.from(left), tips: [...new Set(tips)], blocks, slack, margin };
        known = { milling: new Milling(task, tool.radius + reach + 4), task };
        made.set(key, known);
      }
      return known;
    };
  }

  /** Discs, the thickest first: each takes what it can, until nothing is left. */
  beside(offered: readonly Tool[], between: readonly [number, number]): void {
    const { view, blocks, margin, shop, volume } = this.site;
    const discs = offered.flatMap((t) => discOf(t, shop) ?? []).sort((x, y) => y.thick - x.thick);
    for (const disc of discs) {
      const left = this.left();
      if (left.length === 0 || this.finished()) return;
      const taking = (limits: ReadonlySet<Limit>) => takenBeside({ view, disc, blocks, between, margin }, left, limits);
      const taken = taking(NONE);
      if (this.site.done(without(left, taken))) {
        this.met.clear();
        this.clear(taken);
        this.used.push(disc.tool);
        return;
      }
      // Only what would do it alone is worth a word: another disc may be the one for it.
      if (!this.site.done(without(left, taking(new Set(EVERY))))) continue;
      const enough = volume(taken) * 1.002 + 0.02;
      const about = EVERY.filter((l) => l === 'shank' || l === 'holder' || blocks.some((b) => b.what === l));
      const single = about.filter((limit) => volume(taking(new Set([limit]))) > enough);
      for (const limit of single.length > 0 ? single : about) this.met.add(limit);
    }
  }

  hole(hole: Hole, offered: readonly Tool[]): void {
    const { view, part, shop, field } = this.site;
    if (hole.tilt) {
      this.leaning(hole, offered);
      return;
    }
    if (axisOf(hole.face) !== view.axes[2]) return;
    const c = view.axes[2];
    const taken = field.takenOf.get(hole.name)!;
    const fromFace = taken[0]!.frame.w[c] * view.sign < 0;
    if (!fromFace && !hole.depth.through) return;
    const r = hole.diameter.mm / 2;
    const height = (depth: number) => (taken[0]!.frame.origin[c] + depth * taken[0]!.frame.w[c]) * view.sign;
    const far = height(hole.depth.through ? part.size[c] : hole.startMm + hole.depth.mm);
    const all = fromFace ? far : Math.min(height(hole.startMm), far);
    const floor = Math.max(all, this.stop);
    const places = placesOf(hole, view);
    const blind = !hole.depth.through && floor === all;
    for (const tool of plunging(hole, offered)) {
      let body = bodyOf(tool, shop);
      if (tool.kind === 'boring-head') body = setTo(body, r);
      const sinks = tool.kind === 'countersink' || tool.kind === 'chamfer-mill';
      let tip =
        floor -
        (blind && hole.bottom === 'flat' ? 0 : blind && hole.bottom === 'cone' ? body.tipHeight : body.tipHeight);
      if (sinks && hole.countersink) {
        if (!fromFace) continue;
        const t = Math.tan((hole.countersink.angle.deg / 2) * (Math.PI / 180));
        const cb =
          hole.counterbore && hole.counterbore.diameter.mm >= hole.countersink.diameter.mm
            ? hole.counterbore.depth.mm
            : 0;
        tip =
          height(hole.startMm + cb) - (hole.countersink.diameter.mm / 2 - ('tipMm' in tool ? tool.tipMm / 2 : 0)) / t;
      } else if (tool.kind === 'counterbore-cutter' && hole.counterbore)
        tip = height(hole.startMm + hole.counterbore.depth.mm);
      let did = false;
      for (const [a, b] of places) did = this.down(body, a, b, tip) || did;
      if (did) this.used.push(tool.name);
      if (this.finished()) break;
    }
  }

  /** After all that opens the hole: what a mill clears says nothing of the tap. */
  threaded(hole: Hole, offered: readonly Tool[]): void {
    const { view, part, field } = this.site;
    const c = view.axes[2];
    if (!hole.thread || hole.tilt || axisOf(hole.face) !== c) return;
    const { frame } = field.takenOf.get(hole.name)![0]!;
    if (frame.w[c] * view.sign >= 0 && !hole.depth.through) return;
    const height = (depth: number) => (frame.origin[c] + depth * frame.w[c]) * view.sign;
    const floor = Math.max(height(hole.depth.through ? part.size[c] : hole.startMm + hole.depth.mm), this.stop);
    this.tap(hole, offered, placesOf(hole, view), height(hole.startMm), floor);
  }

  /** Work turned until the hole stands upright: each drill goes down its axis. */
  private leaning(hole: Hole, offered: readonly Tool[]): void {
    const { field, view, shop } = this.site;
    const blind = !hole.depth.through;
    for (const tool of plunging(hole, offered)) {
      const body = bodyOf(tool, shop);
      let did = false;
      for (const t of field.takenOf.get(hole.name)!) {
        if (t.what !== 'bore') continue;
        const to = blind ? t.to : (deepestAlong(view, t.frame, body.radius) ?? 0);
        const tip = to + (blind && hole.bottom === 'flat' ? 0 : body.tipHeight);
        const { taken, gouged, met } = plungeAlong(view, body, t.frame, tip, this.site.blocks);
        for (const m of met) this.met.add(m);
        if (met.length > 0 || taken.length === 0) continue;
        this.clear(taken);
        this.clear(gouged);
        this.gouged.push(...gouged);
        did = true;
      }
      if (did) this.used.push(tool.name);
      if (this.finished()) break;
    }
  }

  /** Work turned until the axis stands upright: mills, each where the ones before left something, the widest first. */
  leaningMilled(tools: readonly Body[], frame: Frame, isLevel: boolean): void {
    const { view, blocks, volume } = this.site;
    if (tools.length === 0 || this.finished()) return;
    const floor = new LeaningMill({ view, frame, blocks, cells: this.left() }).deepest();
    const level = isLevel ? { level: floor - UNEVEN_MM } : {};
    for (let n = 0; n < MOST_TOOLS && !this.finished(); n++) {
      const left = this.left();
      const mill = new LeaningMill({ view, frame, blocks, cells: left, ...level });
      const tried = tools.map((tool) => ({ tool, ...mill.take(tool) }));
      const whole = tried.find((t) => this.site.done(without(left, t.cells)));
      const best = whole ?? tried.reduce((a, b) => (volume(b.cells) > volume(a.cells) * 1.001 ? b : a), tried[0]!);
      this.met.clear();
      if (!whole) for (const m of best?.met ?? []) this.met.add(m);
      if (!best || best.cells.length === 0) return;
      this.clear(best.cells);
      this.used.push(best.tool.tool);
    }
  }

  /** As deep as shank and holder let it; nothing is done where it would cut what stays or meet what holds the work. */
  private down(body: Body, a: number, b: number, wanted: number): boolean {
    const { view } = this.site;
    const met = new Set<Limit>();
    const own = new Set(this.cells);
    for (const tip of [wanted, ...[...view.bottom].filter((h) => h > wanted).sort((x, y) => x - y)]) {
      const p = plunge(view, body, a, b, tip, { ...this.site, own });
      if (p.met.length > 0) {
        // Higher up other things are met: told is what is in the way of the whole depth.
        if (tip === wanted) for (const m of p.met) met.add(m);
        continue;
      }
      if (p.taken.length === 0) break;
      this.clear(p.taken);
      for (const c of p.gouged) {
        view.work[c] = 0;
        this.gouged.push(c);
      }
      // What is deeper was gone before: it need not go down there.
      if (tip === wanted || !this.leftAt(a, b, body.radius)) return true;
      break;
    }
    for (const m of met) this.met.add(m);
    return false;
  }

  private leftAt(a: number, b: number, radius: number): boolean {
    const { work, na, nb, sheet } = this.site.view;
    return this.cells.some(
      (c) => work[c] && Math.hypot(sheet.a[c % na]! - a, sheet.b[Math.floor(c / na) % nb]! - b) < radius,
    );
  }

  /** The thread of a boss, where no die is there for it. */
  boss(boss: Contour, offered: readonly Tool[]): void {
    const { view, shop, field } = this.site;
    const { spec, deep } = boss.thread!;
    const c = view.axes[2];
    const [taken] = field.takenOf.get(boss.name)!;
    if (shop.dies?.some((d) => sameThread(d, spec.designation)) || taken!.frame.w[c] * view.sign >= 0) return;
    const end = (taken!.frame.origin[c] + boss.startMm * taken!.frame.w[c]) * view.sign;
    this.round(boss, cuttersOf(boss, offered), placesOf(boss, view), end - deep.mm - TOOTH * spec.pitchMm);
  }

  /** The first cutter that gets round, else what is in the way of the last; none is not told. */
  private round(
    feature: Hole | Contour,
    cutters: ReturnType<typeof cuttersOf>,
    places: readonly (readonly [number, number])[],
    tip: number,
  ): void {
    const { view, shop, blocks, field } = this.site;
    const turns = turnsOf(feature);
    if (!turns) return;
    const slack = 0.02 + field.grid.fine;
    let last: ReturnType<typeof goRound> | undefined;
    for (const tool of cutters) {
      const helix = { tool: bodyOf(tool, shop), teeth: tool.fluteLengthMm, tip };
      const tried = places.map(([a, b]) =>
        goRound(view, helix, { a, b, ...turns, inside: feature.kind === 'hole' }, blocks, slack),
      );
      last = { gouged: tried.flatMap((t) => t.gouged), met: new Set(tried.flatMap((t) => [...t.met])) };
      if (last.gouged.length > 0 || last.met.size > 0) continue;
      this.used.push(tool.name);
      return;
    }
    for (const m of last?.met ?? []) this.met.add(m);
    for (const c of last?.gouged ?? []) {
      view.work[c] = 0;
      this.gouged.push(c);
    }
  }

  /** A tap cuts nothing that the field shows; it must get down, and have room for its lead below the thread. */
  private tap(
    hole: Hole,
    offered: readonly Tool[],
    places: readonly (readonly [number, number])[],
    mouth: number,
    floor: number,
  ): void {
    const taps = offered.filter((t) => t.kind === 'tap' && sameThread(t.thread, hole.thread!.designation));
    const { view, shop } = this.site;
    const depth = hole.threadDepth?.mm ?? (hole.depth.through ? Math.abs(mouth - floor) : 0);
    if (taps.length === 0) {
      this.round(hole, cuttersOf(hole, offered), places, mouth - depth);
      return;
    }
    const ok = taps.some((tool) => {
      const body = bodyOf(tool, shop);
      return places.every(([a, b]) => {
        const p = plunge(view, { ...body, profile: () => 0, shankRadius: body.radius }, a, b, mouth - depth, NOTHING);
        return !p.met.includes('holder') && depth <= body.reach;
      });
    });
    if (!ok) this.met.add('holder');
    else this.used.push(taps[0]!.name);
  }
}

/** Half a tooth under the last full turn of a boss. */
const TOOTH = 0.5;

/** Of all that a feature takes, whatever of it is gone. */
function heightsOf(view: View, cells: Int32Array): readonly [number, number] {
  const layers = [...new Set(cells.map((c) => Math.floor(c / (view.na * view.nb))))];
  return [Math.min(...layers.map((k) => view.bottom[k]!)), Math.max(...layers.map((k) => view.top[k]!))];
}

/** Of holes and bosses, as the view has them. */
function placesOf({ places, face }: Hole | Contour, view: View): readonly (readonly [number, number])[] {
  return places.map((p) => {
    const at = [0, 0, 0];
    at[axisOf(face) === 0 ? 1 : 0] = p.u;
    at[axisOf(face) === 2 ? 1 : 2] = p.v;
    return [at[view.axes[0]]!, at[view.axes[1]]!] as const;
  });
}

/** A channel whose width lies along the spindle. */
function fromBeside(feature: Feature | undefined, view: View): boolean {
  if (feature?.kind !== 'slot' && feature?.kind !== 'keyway') return false;
  const [p, q] = feature.line;
  if (!p || !q || feature.line.length !== 2 || feature.tee || feature.dovetail || feature.tilt) return false;
  const [a, b] = planeOf(feature.face);
  return (p.v === q.v && view.axes[2] === b) || (p.u === q.u && view.axes[2] === a);
}

function without(cells: readonly number[], gone: readonly number[]): number[] {
  const last = cells.reduce((most, c) => Math.max(most, c), 0);
  const marked = new Uint8Array(last + 1);
  for (const c of gone) marked[c] = 1;
  return cells.filter((c) => !marked[c]);
}

function matters(limit: Limit, tool: Body, task: Task): boolean {
  if (limit === 'shank') return Math.min(...task.tips) + tool.reach < task.view.top[0]!;
  if (limit === 'holder')
    return tool.holder !== undefined && Math.min(...task.tips) + tool.holder.out < task.view.top[0]! + 40;
  return task.blocks.some((b) => b.what === limit && b.h[1] > Math.min(...task.tips));
}
