/**
 * What is drawn in the middle of the body, or in line with another, without a tolerance of its own: ISO 2768-2 asks
 * symmetry and run-out of it, and the zeros and cuts of the set-ups put it there or do not.
 */

import type { Solid } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { type FeatureForm, homeOf } from '../../model/feature-kinds';
import { featureNameOf } from '../../model/member-name';
import { type Axis, FACE_AXIS, FACE_PLANE, type Feature, type Part } from '../../model/model';
import { type GeometricClass, generalGeometric, parseGeneralTolerance } from '../../tables/general-tolerances';
import { SAME } from '../../tolerance';
import type { PartInShop } from '../part-in-shop';
import { setUpChains } from './as-set-up';
import { HIGH, LOW } from './drawn';
import { type Adding, budgetMm, type Link } from './types';

export interface Centred {
  readonly characteristic: 'symmetry' | 'run-out';
  readonly feature: Feature;
  /** `left and right`, or the feature that it is in line with. */
  readonly to: string;
  /** The whole zone, mm, and its source. */
  readonly zoneMm: number;
  readonly source: string;
  /** How far the middle may be off, mm: each link with its share of it. Of run-out along two axes. */
  readonly chains: readonly (readonly Link[])[];
}

/** Twice how far the middle is off, which is how both zones are measured. */
export function zoneTaken({ chains }: Pick<Centred, 'chains'>, adding: Adding): number {
  return 2 * Math.hypot(...chains.map((chain) => budgetMm(chain, adding)));
}

/** Undefined zones and chains are left out; none without a class of ISO 2768-2, or without set-ups. */
export function* centredOf(inShop: PartInShop): Generator<Centred> {
  const { part, solid } = inShop;
  const of = part.tolerance && parseGeneralTolerance(part.tolerance.name)?.geometric;
  const chain = of && setUpChains(inShop);
  if (!of || !chain || part.body?.form !== 'box') return;
  for (const feature of part.features) {
    if (UNASKED.has(homeOf(feature).form) || (feature.tilt && feature.tilt.angle.deg !== 0)) continue;
    yield* symmetric({ feature, part, solid, of, chain });
  }
  yield* inLine({ part, of, chain });
}

/** A broken edge lies where its edge does; letters are nowhere in particular. */
const UNASKED: ReadonlySet<FeatureForm> = new Set(['edge', 'letters']);

type Chain = NonNullable<ReturnType<typeof setUpChains>>;
interface Asked {
  readonly part: Part;
  readonly of: GeometricClass;
  readonly chain: Chain;
}

function* symmetric(asked: Asked & { readonly feature: Feature; readonly solid: Solid }): Generator<Centred> {
  const { feature, part, solid, of, chain } = asked;
  for (const axis of FACE_PLANE[feature.face]) {
    const i = AXIS_INDEX[axis];
    const span = spanOf(feature, i, solid);
    const sizeMm = part.size[i]!;
    if (!span || span[0] < SAME || Math.abs(span[0] + span[1] - sizeMm) > SAME) continue;
    if (ownTolerance(feature.name, axis, part)) continue;
    const [low, high] = [LOW[axis], HIGH[axis]];
    const [down, up] = [chain([low, feature.name], axis), chain([feature.name, high], axis)];
    const zone = generalGeometric('symmetry', Math.min(span[1] - span[0], sizeMm), of);
    if (!down || !up || !zone) continue;
    const to = `${low} and ${high}`;
    const chains = [offMiddle(down, up)];
    yield { characteristic: 'symmetry', feature, to, zoneMm: zone.value, source: zone.source, chains };
  }
}

/** Of all its members together, along an axis. */
function spanOf(feature: Feature, i: AxisIndex, solid: Solid): readonly [number, number] | undefined {
  const bounds = solid.voidsOf(feature.name).map((v) => v.bounds);
  if (bounds.length === 0) return undefined;
  return [Math.min(...bounds.map((b) => b.min[i])), Math.max(...bounds.map((b) => b.max[i]))];
}

/**
 * From the middle of two faces: what moves the feature alone counts in full, what moves one of the faces counts half. The
 * chains to both faces have in common what moves the feature.
 */
function offMiddle(down: readonly Link[], up: readonly Link[]): readonly Link[] {
  const both = (l: Link, other: readonly Link[]) => other.some((o) => o.what === l.what);
  const half = (l: Link): Link => ({ ...l, halfMm: l.halfMm / 2 });
  return [...down.map((l) => (both(l, up) ? l : half(l))), ...up.filter((l) => !both(l, down)).map(half)];
}

function ownTolerance(name: string, axis: Axis, part: Part): boolean {
  return part.tolerances.some(
    (t) => t.of.some((o) => featureNameOf(o.name) === name) && (t.axis === undefined || t.axis === axis),
  );
}

/** Round holes on one axis, each against the first. */
function* inLine({ part, of, chain }: Asked): Generator<Centred> {
  const holes = part.features.filter((f) => f.kind === 'hole' && f.places.length === 1 && !f.tilt);
  const zone = generalGeometric('runout', Math.max(...part.size), of);
  if (!zone) return;
  for (const [k, feature] of holes.entries()) {
    const first = holes.slice(0, k).find((other) => onOneAxis(feature, other));
    if (!first || ownTolerance(feature.name, FACE_AXIS[feature.face].axis, part)) continue;
    const chains = FACE_PLANE[feature.face].map((axis) => chain([first.name, feature.name], axis));
    // Drilled one after the other where the spindle stands: the second goes where the first is.
    if (!chains.every((c) => c?.some((l) => l.by === 'zero'))) continue;
    const to = first.name;
    const found = chains.filter((c) => c !== undefined);
    yield { characteristic: 'run-out', feature, to, zoneMm: zone.value, source: zone.source, chains: found };
  }
}

function onOneAxis(a: Feature, b: Feature): boolean {
  if (FACE_AXIS[a.face].axis !== FACE_AXIS[b.face].axis) return false;
  const [p, q] = [a.places[0], b.places[0]];
  return !!p && !!q && Math.abs(p.u - q.u) < SAME && Math.abs(p.v - q.v) < SAME;
}
