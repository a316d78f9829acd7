/**
 * From a body and what is removed from it to a mesh of what is left. Keeps the meshes of volumes that did not change, by
 * object identity, so that an edit of one feature costs that feature and what touches it.
 *
 * Volumes that touch are united in groups; groups do not touch each other, so that they are put side by side without
 * any work. A volume that touches many others (a contour, the break of a whole face's edges) is taken from the body
 * before the groups are.
 */
import { bodyPrism } from '../solid/body';
import type { BodyShape, Void } from '../types';
import { type Difference, difference } from './carve';
import { grouped, stacks } from './groups';
import { handleOf, type Kernel, type Manifold, placed, triangulator, united } from './handles';
import type { Side } from './sides';
import { turnedShape } from './surface';
import { isAligned, type SweepOptions, sweep } from './sweep';

interface MesherOptions {
  /** How far a chord may stray from its arc, mm. */
  readonly chordMm?: number;
}

const CHORD_MM = 0.03;

/** One volume as a mesh, and the exact surfaces of its triangles. `void` is absent for the body. */
export interface Origin {
  readonly void?: Void;
  readonly sides: readonly Side[];
}

/** What is left of the body. The handle belongs to the mesher: it is good until the next `build` or `dispose`. */
export interface Built {
  readonly handle: Manifold;
  /** For each original id that the handle's triangles answer to. */
  readonly origins: ReadonlyMap<number, Origin>;
  /** Volumes that could not be drawn; they are missing from the mesh. */
  readonly missing: readonly Void[];
}

/** What is drawn together. No handle where it could not be drawn. */
interface Unit {
  readonly voids: readonly Void[];
  readonly handle: Manifold | undefined;
  readonly origins: readonly (readonly [number, Origin])[];
}

interface Group {
  readonly units: readonly Unit[];
  readonly handle: Manifold;
}

export class Mesher {
  readonly #kernel: Kernel;
  readonly #chordMm: number;
  #body: { shape: BodyShape; options: SweepOptions; handle: Manifold; id: number; origin: Origin } | undefined;
  #units = new Map<Void, Unit>();
  #groups = new Map<Unit, Group>();
  /** The body less what touches many. */
  #base: { units: readonly Unit[]; handle: Manifold } | undefined;
  /** The base less all groups that the last edits left alone. */
  #rest: { from: Manifold; groups: readonly Group[]; handle: Manifold } | undefined;
  #last: readonly Group[] = [];
  /** The rest less the groups under edit; undefined where there are none. */
  #edited: Manifold | undefined;

  constructor(kernel: Kernel, options: MesherOptions = {}) {
    this.#kernel = kernel;
    this.#chordMm = options.chordMm ?? CHORD_MM;
  }

  build(body: BodyShape, voids: readonly Void[]): Built | undefined {
    const base = this.#bodyOf(body);
    if (!base) return undefined;
    const units = this.#unitsOf(voids, base.options);
    const drawn = units.filter((u) => u.handle);
    const { wide, groups } = grouped(drawn);
    const from = this.#baseOf(base.handle, wide);
    const side = this.#groupsOf(groups);
    const result = this.#result(from, side);
    const origins = new Map<number, Origin>([[base.id, base.origin]]);
    for (const u of units) for (const [id, origin] of u.origins) origins.set(id, origin);
    return { handle: result, origins, missing: units.filter((u) => !u.handle).flatMap((u) => u.voids) };
  }

  /** Gives everything up. */
  dispose(): void {
    this.#edited?.delete();
    this.#edited = undefined;
    this.#forget();
    this.#body?.handle.delete();
    this.#body = undefined;
  }

  #forget(): void {
    this.#dropRest();
    this.#last = [];
    this.#base?.handle.delete();
    this.#base = undefined;
    for (const g of this.#groups.values()) dropGroup(g);
    this.#groups.clear();
    for (const u of this.#units.values()) u.handle?.delete();
    this.#units.clear();
  }

  #bodyOf(shape: BodyShape) {
    if (this.#body?.shape === shape) return this.#body;
    this.dispose();
    const options: SweepOptions = {
      chordMm: this.#chordMm,
      gridMm: gridFor(shape),
      triangulate: triangulator(this.#kernel),
    };
    const raw = sweep(bodyPrism(shape), options);
    const id = this.#kernel.Manifold.reserveIDs(1);
    const handle = raw && handleOf(this.#kernel, raw, id);
    if (!raw || !handle) return undefined;
    // outlines are drawn as what is removed: of the body, it is what stays
    const sides = raw.sides.map((s) => ({ ...s, shape: turnedShape(s.shape) }));
    this.#body = { shape, options: { ...options, body: shape }, handle, id, origin: { sides } };
    return this.#body;
  }

  #unitsOf(voids: readonly Void[], options: SweepOptions): readonly Unit[] {
    const units = new Map<Void, Unit>();
    for (const of of stacks(voids)) {
      const first = of[0]!;
      const known = this.#units.get(first);
      const same = known && sameList(known.voids, of);
      units.set(first, same ? known : this.#draw(of, options));
      if (same) this.#units.delete(first);
    }
    for (const gone of this.#units.values()) gone.handle?.delete();
    this.#units = units;
    return [...units.values()];
  }

  #draw(voids: readonly Void[], options: SweepOptions): Unit {
    const handles: Manifold[] = [];
    const origins: (readonly [number, Origin])[] = [];
    for (const v of voids) {
      const id = this.#kernel.Manifold.reserveIDs(1);
      const made = this.#drawn(v, options, id) ?? difference(this.#kernel, v, options, id);
      if (!made) continue;
      handles.push(made.handle);
      origins.push([id, { void: v, sides: made.sides }]);
    }
    if (handles.length < voids.length) {
      for (const h of handles) h.delete();
      return { voids, handle: undefined, origins: [] };
    }
    const whole = united(this.#kernel, handles);
    const { frame } = voids[0]!;
    return { voids, handle: isAligned(frame) ? whole : placed(whole, frame), origins };
  }

  /** The plain way, which does for nearly all. */
  #drawn(v: Void, options: SweepOptions, id: number): Difference | undefined {
    const raw = sweep(v, options);
    const handle = raw && handleOf(this.#kernel, raw, id);
    return handle && { handle, sides: raw.sides };
  }

  /** `groups` are all there are now; their handles are kept by identity. */
  #result(from: Manifold, groups: readonly Group[]): Manifold {
    this.#edited?.delete();
    this.#edited = undefined;
    const now = new Set(groups);
    if (!this.#rest || this.#rest.from !== from || !this.#rest.groups.every((g) => now.has(g))) {
      const before = new Set(this.#last);
      const stable = groups.filter((g) => before.has(g));
      this.#dropRest();
      const kept = stable.length > 0 ? stable : groups;
      this.#rest = { from, groups: kept, handle: this.#less(from, kept) };
    }
    this.#last = groups;
    const done = new Set(this.#rest.groups);
    const left = groups.filter((g) => !done.has(g));
    if (left.length === 0) return this.#rest.handle;
    this.#edited = this.#less(this.#rest.handle, left);
    return this.#edited;
  }

  #less(from: Manifold, groups: readonly Group[]): Manifold {
    const cutter = this.#kernel.Manifold.compose(groups.map((g) => g.handle));
    const left = from.subtract(cutter);
    left.numTri(); // worked out now, not when it is looked at
    cutter.delete();
    return left;
  }

  #dropRest(): void {
    this.#rest?.handle.delete();
    this.#rest = undefined;
  }

  #baseOf(body: Manifold, wide: readonly Unit[]): Manifold {
    if (this.#base && sameList(this.#base.units, wide)) return this.#base.handle;
    if (!this.#base && wide.length === 0) return body;
    this.#dropRest();
    this.#base?.handle.delete();
    this.#base = undefined;
    if (wide.length === 0) return body;
    const cutter = this.#kernel.Manifold.union(wide.map((u) => u.handle!));
    const handle = body.subtract(cutter);
    handle.numTri();
    cutter.delete();
    this.#base = { units: wide, handle };
    return handle;
  }

  #groupsOf(wanted: readonly (readonly Unit[])[]): readonly Group[] {
    const groups = new Map<Unit, Group>();
    for (const units of wanted) {
      const first = units[0]!;
      const known = this.#groups.get(first);
      if (known && sameList(known.units, units)) {
        groups.set(first, known);
        this.#groups.delete(first);
        continue;
      }
      // a lone volume is used as it is
      const handle = units.length === 1 ? first.handle! : this.#kernel.Manifold.union(units.map((u) => u.handle!));
      handle.numTri();
      groups.set(first, { units, handle });
    }
    for (const gone of this.#groups.values()) dropGroup(gone);
    this.#groups = groups;
    return [...groups.values()];
  }
}

function dropGroup(g: Group): void {
  if (g.units.length > 1) g.handle.delete();
}

/** Powers of two, so that single precision holds every point of the grid exactly. */
function gridFor({ box }: BodyShape): number {
  const reach = Math.max(1, ...box.max.map(Math.abs), ...box.min.map(Math.abs)) * 1.5 + 32;
  return 2 ** (Math.ceil(Math.log2(reach)) - 23);
}

function sameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}
