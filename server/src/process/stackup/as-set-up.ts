/**
 * The chain as set up. What a set-up cuts is off from its zero by the cut; the zero is off from what it was found from;
 * and that was cut in a set-up before, or is the bar as it came. Two ends are followed down until they meet: what they
 * have in common moves both and drops out.
 */

import type { Solid } from '../../geometry/types';
import { featureNameOf } from '../../model/member-name';
import { type Axis, FACE_AXIS, type Face, OPPOSITE, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { pressOf } from '../made-on';
import { operationsOf } from '../operations';
import type { Operation } from '../operations/types';
import type { PartInShop } from '../part-in-shop';
import { timelineOf } from '../stock';
import type { SetupInTime } from '../stock/types';
import { barOff, hasSides } from '../supplied';
import { isFace, stateOf } from '../workholding/references';
import { dimensioned, LOW } from './drawn';
import { errorOf } from './errors';
import type { Link } from './types';
import { zeroOf } from './zeros';

/** A plane or a zero that the chain passes, by a name of its own; and the links down to the next. */
interface Step {
  readonly at: string;
  readonly links: readonly Link[];
}

interface World {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  readonly setups: readonly SetupInTime[];
  /** Which set-ups cut a feature or a face, in order. */
  readonly cutIn: ReadonlyMap<string, readonly number[]>;
  /** What was followed down already, by end, set-up and axis. */
  readonly followed: Map<string, readonly Step[] | undefined>;
  readonly bars: Map<Face, Link | undefined>;
}

/** How the ends of dimensions stand to each other, asked of one part as it is set up. Undefined without set-ups. */
export function setUpChains({
  part,
  solid,
  shop,
}: PartInShop): ((ends: readonly [string, string], axis: Axis) => readonly Link[] | undefined) | undefined {
  if (!part.setups || part.setups.length === 0) return undefined;
  const { setups } = timelineOf(part, solid);
  const cutIn = new Map<string, number[]>();
  for (const s of setups) {
    for (const c of s.cuts) {
      const known = cutIn.get(c.name);
      if (!known) cutIn.set(c.name, [s.index]);
      else if (known.at(-1) !== s.index) known.push(s.index);
    }
  }
  const world: World = { part, solid, shop, setups, cutIn, followed: new Map(), bars: new Map() };
  return (ends, axis) => between(ends, axis, world);
}

/** Undefined where an end is cut in none, or where the ends do not meet in anything that is known. */
function between(ends: readonly [string, string], axis: Axis, world: World): readonly Link[] | undefined {
  // `mount[2]` is cut where `mount` is.
  const [a, b] = ends.map((name) => world.cutIn.get(featureNameOf(name)) ?? []) as [
    readonly number[],
    readonly number[],
  ];
  // Cut from both sides: where a set-up cuts both ends, there they stand to each other.
  const both = a.find((i) => b.includes(i));
  const one = downFrom(ends[0], both ?? a.at(-1), axis, world);
  const other = downFrom(ends[1], both ?? b.at(-1), axis, world);
  return one && other && meeting(one, other, axis, world);
}

function downFrom(name: string, setup: number | undefined, axis: Axis, world: World): readonly Step[] | undefined {
  const key = `${name} ${setup} ${axis}`;
  if (!world.followed.has(key)) world.followed.set(key, follow(name, setup, axis, world));
  return world.followed.get(key);
}

/** From an end down: cut, zero, what zero was found from, and on. The first step has no links. */
function follow(name: string, setup: number | undefined, axis: Axis, world: World): readonly Step[] | undefined {
  const marked = setup === undefined ? markedOut(name, axis, world) : undefined;
  if (marked) return marked;
  if (setup === undefined) return isFace(name) ? [{ at: raw(name), links: [] }] : undefined;
  const cut = errorOf('cut', world.shop);
  const what = `${name} cut in ${world.setups[setup]!.setup.name}`;
  return [
    { at: `${name} in ${setup}`, links: [] },
    {
      at: `zero of ${setup}`,
      links: [{ what, halfMm: cut.mm, source: cut.source, by: 'cut', end: name }, ...wandering(name, axis, world)],
    },
    ...belowZero(setup, axis, world),
  ];
}

/** Made on a drill press: marked out from the face that its place is given from, as that stands in the end. */
function markedOut(name: string, axis: Axis, world: World): readonly Step[] | undefined {
  const { part, shop } = world;
  const hole = part.featureByName.get(featureNameOf(name));
  const press = hole?.kind === 'hole' ? pressOf(hole, shop) : undefined;
  if (!hole || !press || FACE_AXIS[hole.face].axis === axis) return undefined;
  const from = dimensioned(hole.name, axis, part)?.from ?? 'middle';
  const face = from === 'middle' ? LOW[axis] : from;
  const what = `${name} marked out and drilled on ${press.name}`;
  const [first, ...rest] = downFrom(face, world.cutIn.get(face)?.at(-1), axis, world) ?? [];
  const link: Link = { what, halfMm: press.placeMm, source: `place error of ${press.name}`, by: 'cut', end: name };
  return first && [{ at: `${name} marked out`, links: [] }, { at: first.at, links: [link] }, ...rest];
}

/** A drill starts a little beside its place, and a reamer follows it. Across its axis only. */
function wandering(name: string, axis: Axis, inShop: World): readonly Link[] {
  const { part, shop } = inShop;
  const hole = part.featureByName.get(featureNameOf(name));
  if (hole?.kind !== 'hole' || FACE_AXIS[hole.face].axis === axis) return [];
  const made = operationsOf(hole, inShop);
  if (!made.some((o) => o.does === 'drill') || made.some((o) => TRUED.has(o.does))) return [];
  const drilled = errorOf(made.some((o) => o.does === 'spot') ? 'drilled' : 'unspotted', shop);
  return [
    { what: `the drill starting beside ${name}`, halfMm: drilled.mm, source: drilled.source, by: 'cut', end: name },
  ];
}
/** Cuts that put a hole where the spindle is, whatever was drilled before. */
const TRUED: ReadonlySet<Operation['does']> = new Set(['bore', 'rough', 'finish']);

/** From a set-up's zero down; the same for all that it cuts. */
function belowZero(setup: number, axis: Axis, world: World): readonly Step[] {
  const key = `zero of ${setup} ${axis}`;
  const known = world.followed.get(key);
  if (known) return known;
  const steps: Step[] = [];
  const s = world.setups[setup]!;
  const zero = zeroOf(s, axis, world.part, world.shop);
  // Cut here, and zero set on it then: nothing goes further down.
  if (zero && !s.cuts.some((c) => c.name === zero.from && c.removes.length > 0)) {
    const from = (world.cutIn.get(zero.from) ?? []).findLast((i) => i < setup);
    // Each turn goes to an earlier set-up.
    const [first, ...rest] = downFrom(zero.from, from, axis, world) ?? [];
    if (first) steps.push({ at: first.at, links: zero.links }, ...rest);
  }
  world.followed.set(key, steps);
  return steps;
}

function raw(face: Face): string {
  return `${face} as supplied`;
}

/** The links down both ways to where they meet first; through the bar, where they end on its two sides. */
function meeting(one: readonly Step[], other: readonly Step[], axis: Axis, world: World): readonly Link[] | undefined {
  const linksTo = (steps: readonly Step[], to: number) => steps.slice(0, to + 1).flatMap((s) => s.links);
  for (const [i, step] of one.entries()) {
    const j = other.findIndex((s) => s.at === step.at);
    if (j >= 0) return [...linksTo(one, i), ...linksTo(other, j).reverse()];
  }
  const faces = [one, other].map((steps) => faceAsItCame(steps.at(-1)!.at));
  const [a, b] = faces;
  const bar = a && b && OPPOSITE[a] === b ? barBetween(a, axis, world) : undefined;
  return bar && [...linksTo(one, one.length), bar, ...linksTo(other, other.length).reverse()];
}

function faceAsItCame(at: string): Face | undefined {
  const name = at.replace(/ as supplied$/, '');
  return name !== at && isFace(name) ? name : undefined;
}

function barBetween(face: Face, axis: Axis, world: World): Link | undefined {
  if (!world.bars.has(face)) world.bars.set(face, barLink(face, axis, world));
  return world.bars.get(face);
}

/** Between the two sides of the bar as it came. */
function barLink(face: Face, axis: Axis, { part, solid, shop, setups }: World): Link | undefined {
  if (!hasSides(part)) return undefined;
  const first = setups[0];
  const what = `the bar from ${face} to ${OPPOSITE[face]}`;
  if (!first) return undefined;
  if ([face, OPPOSITE[face]].some((f) => stateOf(f, first, 0, part, solid) === 'sawn')) {
    const sawn = errorOf('sawn', shop);
    return {
      what: `the sawn length from ${face} to ${OPPOSITE[face]}`,
      halfMm: sawn.mm,
      source: `sawn, ${sawn.source}`,
      by: 'bar',
    };
  }
  const off = barOff(part, FACE_AXIS[face].axis, shop);
  return off && axis === FACE_AXIS[face].axis
    ? { what, halfMm: (off.upperMm - off.lowerMm) / 2, source: off.source, by: 'bar' }
    : undefined;
}
