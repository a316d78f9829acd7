/**
 * The chain as set up. What a set-up cuts is off from its zero by the cut; the zero is off from what it was found from;
 * and that was cut in a set-up before, or is the bar as it came. Two ends are followed down until they meet: what they
 * have in common moves both and drops out.
 */
import type { Solid } from '../../geometry/types';
import { barDeviation } from '../../reference/bar-tolerances';
import { findMaterial } from '../../reference/materials';
import { type Axis, FACE_AXIS, type Face, OPPOSITE, type Part } from '../../spec/model';
import type { Shop } from '../../spec/shop-model';
import { stockSizeMm } from '../../spec/stock';
import { isFace, stateOf } from '../holding/references';
import { timelineOf } from '../workpiece';
import type { SetupInTime } from '../workpiece/types';
import { errorOf } from './errors';
import type { Link } from './types';
import { zeroOf } from './zeros';

interface World {
  readonly axis: Axis;
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  readonly setups: readonly SetupInTime[];
}

/** A plane or a zero that the chain passes, by a name of its own; and the links down to the next. */
interface Step {
  readonly at: string;
  readonly links: readonly Link[];
}

/** Undefined without set-ups, where an end is cut in none, or where the ends do not meet in anything that is known. */
export function chainAsSetUp(
  ends: readonly [string, string],
  axis: Axis,
  part: Part,
  solid: Solid,
  shop: Shop,
): readonly Link[] | undefined {
  if (!part.setups || part.setups.length === 0) return undefined;
  const world: World = { axis, part, solid, shop, setups: timelineOf(part, solid).setups };
  const [a, b] = [setupsOf(ends[0], world), setupsOf(ends[1], world)];
  // Cut from both sides: where a set-up cuts both ends, there they stand to each other.
  const both = a.find((i) => b.includes(i));
  const one = downFrom(ends[0], both ?? a.at(-1), world);
  const other = downFrom(ends[1], both ?? b.at(-1), world);
  return one && other && meeting(one, other, world);
}

function setupsOf(name: string, { setups }: World): readonly number[] {
  return setups.filter((s) => s.cuts.some((c) => c.name === name)).map((s) => s.index);
}

/** From an end down: cut, zero, what zero was found from, and on. The first step has no links. */
function downFrom(name: string, setup: number | undefined, world: World): readonly Step[] | undefined {
  if (setup === undefined) return isFace(name) ? [{ at: raw(name), links: [] }] : undefined;
  const steps: Step[] = [{ at: `${name} in ${setup}`, links: [] }];
  let [what, index] = [name, setup];
  // Each turn goes to an earlier set-up.
  for (;;) {
    const s = world.setups[index]!;
    const cut = errorOf('cut', world.shop);
    steps.push({
      at: `zero of ${index}`,
      links: [{ what: `${what} cut in ${s.setup.name}`, halfMm: cut.mm, source: cut.source, by: 'cut' }],
    });
    const zero = zeroOf(s, world.axis, world.part, world.shop);
    if (!zero) return steps;
    const before = setupsOf(zero.from, world).filter((i) => i < index);
    const here = s.cuts.some((c) => c.name === zero.from && c.removes.length > 0);
    // Cut here, and zero set on it then: nothing goes further down.
    if (here) return steps;
    const from = before.at(-1);
    if (from === undefined) {
      if (isFace(zero.from)) steps.push({ at: raw(zero.from), links: zero.links });
      return steps;
    }
    steps.push({ at: `${zero.from} in ${from}`, links: zero.links });
    [what, index] = [zero.from, from];
  }
}

function raw(face: Face): string {
  return `${face} as it came`;
}

/** The links down both ways to where they meet first; through the bar, where they end on its two sides. */
function meeting(one: readonly Step[], other: readonly Step[], world: World): readonly Link[] | undefined {
  const linksTo = (steps: readonly Step[], to: number) => steps.slice(0, to + 1).flatMap((s) => s.links);
  for (const [i, step] of one.entries()) {
    const j = other.findIndex((s) => s.at === step.at);
    if (j >= 0) return [...linksTo(one, i), ...linksTo(other, j).reverse()];
  }
  const faces = [one, other].map((steps) => faceAsItCame(steps.at(-1)!.at));
  const [a, b] = faces;
  const bar = a && b && OPPOSITE[a] === b ? barLink(a, world) : undefined;
  return bar && [...linksTo(one, one.length), bar, ...linksTo(other, other.length).reverse()];
}

function faceAsItCame(at: string): Face | undefined {
  const name = at.replace(/ as it came$/, '');
  return name !== at && isFace(name) ? name : undefined;
}

/** Between the two sides of the bar as it came. */
function barLink(face: Face, { part, solid, shop, axis }: World): Link | undefined {
  const { stock, material } = part;
  if (!stock.written || (stock.form !== 'flat-bar' && stock.form !== 'square-bar')) return undefined;
  const setups = timelineOf(part, solid).setups;
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
  const family = material && findMaterial(material.name)?.family;
  const off = family && barDeviation(stockSizeMm(part)['xyz'.indexOf(FACE_AXIS[face].axis)]!, family);
  return off && axis === FACE_AXIS[face].axis
    ? { what, halfMm: (off.upperMm - off.lowerMm) / 2, source: off.source, by: 'bar' }
    : undefined;
}
