/**
 * What a STEP file says of one part, read by the tests' own reader: product, units, and the boundary with every edge
 * walked; its volume by the divergence theorem over its own faces.
 */

import { type Entity, type ExchangeFile, type Ref, readExchangeFile, type Typed, type Value } from './part21-reader';
import { type Axes, type Curve, edgeCurve, inner, outer, type P3, plus, size, unit } from './step-curves';
import { GAUSS, surfaceOf } from './step-surfaces';

export class Step {
  readonly file: ExchangeFile;

  constructor(text: string) {
    this.file = readExchangeFile(text);
  }

  /** A simple entity. */
  entity(id: number): Typed {
    const found = this.file.entities.get(id);
    if (found?.parts.length !== 1) throw new Error(`#${id} is no simple entity`);
    return found.parts[0]!;
  }
  entityOf(value: unknown): Typed {
    return this.entity((value as Ref).ref);
  }
  all(kind: string): readonly (Typed & { readonly id: number })[] {
    return [...this.file.entities.values()].flatMap((e) =>
      e.parts.filter((p) => p.kind === kind).map((p) => ({ ...p, id: e.id })),
    );
  }
  only(kind: string): Typed & { readonly id: number } {
    const found = this.all(kind);
    if (found.length !== 1) throw new Error(`${found.length} × ${kind}`);
    return found[0]!;
  }

  point(value: unknown): P3 {
    return this.entityOf(value).args[1] as unknown as P3;
  }
  direction(value: unknown): P3 {
    return this.entityOf(value).args[1] as unknown as P3;
  }
  /** AXIS2_PLACEMENT_3D: z as given, x made square to it (ISO 10303-42, build_axes). */
  axes(value: unknown): Axes {
    const [, o, axis, ref] = this.entityOf(value).args;
    const z = axis === null ? ([0, 0, 1] as const) : unit(this.direction(axis));
    const x0 = ref === null ? ([1, 0, 0] as const) : this.direction(ref);
    const x = unit(plus(x0, z, -inner(x0, z)));
    return { o: this.point(o), x, y: outer(z, x), z };
  }

  /** The text of a descriptive item by its name. */
  described(name: string): string | undefined {
    return this.all('DESCRIPTIVE_REPRESENTATION_ITEM').find((e) => e.args[0] === name)?.args[1] as string | undefined;
  }

  /** Millimetres in one unit of length of the shape's context. */
  get lengthUnitMm(): number {
    const context = [...this.file.entities.values()].find((e) => part(e, 'GLOBAL_UNIT_ASSIGNED_CONTEXT'));
    for (const ref of part(context!, 'GLOBAL_UNIT_ASSIGNED_CONTEXT')!.args[0] as readonly Ref[]) {
      const unitOf = this.file.entities.get(ref.ref)!;
      if (!part(unitOf, 'LENGTH_UNIT')) continue;
      const [prefix, name] = part(unitOf, 'SI_UNIT')!.args as readonly ({ enum: string } | null)[];
      if (name?.enum !== 'METRE') throw new Error('no metres');
      return { MILLI: 1, CENTI: 10, none: 1000 }[prefix?.enum ?? 'none']!;
    }
    throw new Error('no unit of length');
  }
}

function part(e: Entity, kind: string): Typed | undefined {
  return e.parts.find((p) => p.kind === kind);
}

interface Boundary {
  readonly solids: number;
  readonly volume: number;
  /** Faces by the kind of their surface. */
  readonly faces: Readonly<Record<string, number>>;
  /** What is wrong: edges not used twice in opposite senses, loops that do not close, points off their surface. */
  readonly faults: readonly string[];
}

/** Walks every face of every closed shell. */
export function boundaryOf(step: Step): Boundary {
  const faults: string[] = [];
  const faces: Record<string, number> = {};
  const uses = new Map<number, string>();
  let volume = 0;
  for (const shell of step.all('CLOSED_SHELL')) {
    for (const face of shell.args[1] as readonly Ref[]) {
      const [, bounds, surface] = step.entityOf(face).args;
      const kind = step.entityOf(surface).kind;
      faces[kind] = (faces[kind] ?? 0) + 1;
      volume += faceVolume(step, bounds as readonly Ref[], (surface as Ref).ref, uses, faults);
    }
  }
  for (const [edge, senses] of uses)
    if (senses.length !== 2 || senses[0] === senses[1]) faults.push(`edge #${edge} is used ${senses}`);
  const solids = step.all('MANIFOLD_SOLID_BREP').length + step.all('BREP_WITH_VOIDS').length;
  return { solids, volume: volume / 3, faces, faults };
}

interface Walked {
  readonly curve: Curve & { readonly t0: number; readonly t1: number };
  readonly forward: boolean;
}

function faceVolume(
  step: Step,
  bounds: readonly Ref[],
  surfaceId: number,
  uses: Map<number, string>,
  faults: string[],
): number {
  const walks = bounds.flatMap((bound) => {
    const [, loop, sense] = step.entityOf(bound).args;
    const { kind, args } = step.entityOf(loop);
    if (kind === 'VERTEX_LOOP') return [];
    const forward = (sense as { enum: string }).enum === 'T';
    return walk(step, args[1] as readonly Ref[], forward, uses, faults, `loop of face on #${surfaceId}`);
  });
  const within = walks.flatMap(({ curve: { at, t0, t1 } }) => [0, 0.3, 0.7, 1].map((s) => at(t0 + (t1 - t0) * s)));
  const surface = surfaceOf(step, surfaceId, within);
  let sum = 0;
  for (const { curve, forward } of walks) {
    const worst = [0, 0.3, 0.5, 0.8, 1].reduce(
      (most, s) => Math.max(most, surface.off(curve.at(curve.t0 + (curve.t1 - curve.t0) * s))),
      0,
    );
    if (worst > 1e-5) faults.push(`an edge lies ${worst} off its ${surface.kind} #${surfaceId}`);
    sum += (forward ? 1 : -1) * integral(curve, (t) => -surface.sweep(curve.at(t), curve.along(t)));
  }
  return sum;
}

/** The edges of a loop in order, each with the sense it is walked in. */
function walk(
  step: Step,
  loop: readonly Ref[],
  outward: boolean,
  uses: Map<number, string>,
  faults: string[],
  where: string,
): Walked[] {
  const ends: (readonly [P3, P3])[] = [];
  const walked = loop.map((oriented) => {
    const [, , , edge, sense] = step.entityOf(oriented).args;
    const id = (edge as Ref).ref;
    const [, from, to, geometry, same] = step.entity(id).args;
    const forward = (sense as { enum: string }).enum === 'T';
    uses.set(id, (uses.get(id) ?? '') + (forward === outward ? '+' : '-'));
    const place = (v: Value) => step.point(step.entityOf(v).args[1]);
    const [a, b] = [place(from!), place(to!)];
    const closed = (from as Ref).ref === (to as Ref).ref;
    const curve = edgeCurve(step, (geometry as Ref).ref, a, b, closed, (same as { enum: string }).enum === 'T');
    for (const [t, p] of [
      [curve.t0, a],
      [curve.t1, b],
    ] as const)
      if (size(plus(curve.at(t), p, -1)) > 1e-5) faults.push(`${where}: an edge misses its vertex`);
    ends.push(forward ? [a, b] : [b, a]);
    return { curve, forward: forward === outward };
  });
  ends.forEach(([, b], i) => {
    if (size(plus(b, ends[(i + 1) % ends.length]![0], -1)) > 1e-6) faults.push(`${where} does not close`);
  });
  return walked;
}

function integral(curve: Curve & { readonly t0: number; readonly t1: number }, f: (t: number) => number): number {
  const [low, high] = curve.t0 < curve.t1 ? [curve.t0, curve.t1] : [curve.t1, curve.t0];
  const stops = [low, ...curve.breaks.filter((b) => b > low && b < high), high];
  let sum = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const parts = stops.length > 2 ? 1 : 8;
    const h = (stops[i + 1]! - stops[i]!) / parts;
    for (let k = 0; k < parts; k++)
      for (const [g, w] of GAUSS) sum += (w * h * f(stops[i]! + h * (k + (g + 1) / 2))) / 2;
  }
  return curve.t0 < curve.t1 ? sum : -sum;
}
