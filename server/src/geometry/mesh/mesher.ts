/**
 * From a body and what is removed from it to a mesh of what is left. Keeps the meshes of volumes that did not change, by
 * object identity, so that an edit of one feature costs that feature and what touches it. What is built does not depend
 * on what was built before.
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

export interface MesherOptions {
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

/** Volumes that touch, as one. */
export interface Group {
  readonly units: readonly Unit[];
  readonly handle: Manifold;
  readonly origins: readonly (readonly [number, Origin])[];
}

/** The body less what touches many. */
export interface Base {
  readonly handle: Manifold;
  readonly origins: ReadonlyMap<number, Origin>;
}

/** What is left is the base less all groups, which do not touch each other. */
interface Parts {
  readonly base: Base;
  readonly groups: readonly Group[];
  readonly missing: readonly Void[];
}

interface DrawnBody {
  readonly shape: BodyShape;
  readonly options: SweepOptions;
  readonly handle: Manifold;
  readonly id: number;
  readonly origin: Origin;
}

export class Mesher {
  readonly #kernel: Kernel;
  readonly #chordMm: number;
  #body: DrawnBody | undefined;
  #units = new Map<Void, Unit>();
  #groups = new Map<Unit, Group>();
  #base: (Base & { readonly units: readonly Unit[] }) | undefined;
  #result: Manifold | undefined;

  constructor(kernel: Kernel, options: MesherOptions = {}) {
    this.#kernel = kernel;
    this.#chordMm = options.chordMm ?? CHORD_MM;
  }

  build(body: BodyShape, voids: readonly Void[]): Built | undefined {
    const parts = this.parts(body, voids);
    if (!parts) return undefined;
    const { base, groups, missing } = parts;
    this.#result?.delete();
    this.#result = undefined;
    if (groups.length > 0) {
      const cutter = this.#kernel.Manifold.compose(groups.map((g) => g.handle));
      this.#result = base.handle.subtract(cutter);
      this.#result.numTri(); // worked out now, not when it is looked at
      cutter.delete();
    }
    const origins = new Map([...base.origins, ...groups.flatMap((g) => g.origins)]);
    return { handle: this.#result ?? base.handle, origins, missing };
  }

  /** The same before it is put together. Handles are the mesher's; what did not change since the last is the same object. */
  parts(body: BodyShape, voids: readonly Void[]): Parts | undefined {
    const drawnBody = this.#bodyOf(body);
    if (!drawnBody) return undefined;
    const units = this.#unitsOf(voids, drawnBody.options);
    const { wide, groups } = grouped(units.filter((u) => u.handle));
    return {
      base: this.#baseOf(drawnBody, wide),
      groups: this.#groupsOf(groups),
      missing: units.filter((u) => !u.handle).flatMap((u) => u.voids),
    };
  }

  /** Gives everything up. */
  dispose(): void {
    this.#result?.delete();
    this.#result = undefined;
    this.#forget();
    this.#body?.handle.delete();
    this.#body = undefined;
  }

  #forget(): void {
    this.#dropBase();
    for (const g of this.#groups.values()) dropGroup(g);
    this.#groups.clear();
    for (const u of this.#units.values()) u.handle?.delete();
    this.#units.clear();
  }

  #bodyOf(shape: BodyShape): DrawnBody | undefined {
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

  #baseOf(body: DrawnBody, wide: readonly Unit[]): Base {
    if (this.#base && sameList(this.#base.units, wide)) return this.#base;
    this.#dropBase();
    const origins = new Map([[body.id, body.origin], ...wide.flatMap((u) => u.origins)]);
    let { handle } = body;
    if (wide.length > 0) {
      const cutter = this.#kernel.Manifold.union(wide.map((u) => u.handle!));
      handle = handle.subtract(cutter);
      handle.numTri();
      cutter.delete();
    }
    this.#base = { units: wide, handle, origins };
    return this.#base;
  }

  #dropBase(): void {
    if (this.#base && this.#base.units.length > 0) this.#base.handle.delete();
    this.#base = undefined;
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
      groups.set(first, { units, handle, origins: units.flatMap((u) => u.origins) });
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
