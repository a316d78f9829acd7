/**
 * What else would do: a bar that is thicker on one side, so that the work is held by what is cut off in the end; another
 * machine of the shop. Each is planned anew, and told only where it saves something.
 */

import { FACE_AXIS, type Face, OPPOSITE, type Part } from '../model/model';
import type { Machine, Vise } from '../model/shop-model';
import type { ReadPart } from '../rules/judging';
import type { Finding } from '../rules/kit/rule';
import { DIRECTIONS, facesOf, fewestDirections, maskOf } from './directions';
import { needed } from './item';
import { on, refusedOn } from './on-machine';
import { type Plan, planOf } from './plan';
import { OTHER_WAYS, type OtherWay } from './poses';
import { fewerThan } from './reasons';
import { batchMinutes, type Minutes, timeOf } from './times';

interface ThickerStock {
  readonly face: Face;
  /** Material outside that face, mm. */
  readonly extraMm: number;
  readonly plan: Plan;
}

/** Enough for the jaws to hold, and a cut above them. Common practice, no source: 5 mm of grip and one to part it off. */
const HELD_BY_MM = 6;

/**
 * Stock left on one more face, where that makes a whole plan of what was none, or saves a setup. Fewest setups first. Planned
 * anew only where it can save anything: more stock is one more face to mill, and never lowers the bound.
 */
export function thickerStock(checked: ReadPart, plan: Plan): readonly ThickerStock[] {
  const { part } = checked;
  if (
    part.stock.form === 'round-bar' ||
    part.stock.section ||
    ['blank', 'casting'].includes(part.stock.form) ||
    !part.body
  )
    return [];
  const whole = plan.uncut.length === 0;
  if (whole && plan.setups.length <= plan.bound) return [];
  const found: ThickerStock[] = [];
  for (const face of whole ? DIRECTIONS : worthKeeping(plan)) {
    const extraMm = Math.max(HELD_BY_MM, part.stock.extra[face]?.mm ?? 0);
    if ((part.stock.extra[face]?.mm ?? 0) >= extraMm) continue;
    const needs = [
      ...needed(plan.items).map((i) => i.from),
      maskOf([face, ...DIRECTIONS.filter((d) => FACE_AXIS[d].axis !== FACE_AXIS[face].axis)]),
    ];
    if (whole && fewestDirections(needs).count >= plan.setups.length) continue;
    const changed = { ...checked, part: withExtra(part, face, extraMm) };
    const other = planOf(changed, whole ? fewerThan(plan) : { mostAttempts: MOST_ATTEMPTS });
    if (!other || other.uncut.length > 0) continue;
    if (!whole || other.setups.length < plan.setups.length) found.push({ face, extraMm, plan: other });
    if (other.setups.length <= other.bound) break;
  }
  return found.sort((a, b) => a.plan.setups.length - b.plan.setups.length);
}

/** A way of holding besides vises with which fewer set-ups do, and the plan in which they do. */
interface HeldOtherwise {
  /** Undefined: several ways together. */
  readonly way?: OtherWay;
  readonly plan: Plan;
}

/**
 * Fewer set-ups than vises need: planned with each other way of holding besides them, those that take the least time first;
 * with all of them together where none alone does. Never more than as many attempts each.
 */
export function heldOtherwise(checked: ReadPart, plan: Plan): readonly HeldOtherwise[] {
  const inVises = plan.setups.every((s) => s.setup.hold?.vise !== undefined);
  if (plan.uncut.length > 0 || !inVises || plan.setups.length <= plan.bound) return [];
  const fewer = (anyWay: OtherWay | true, mostAttempts: number) => {
    const other = planOf(checked, { ...fewerThan(plan), mostAttempts, inVises: false, anyWay });
    return other && other.uncut.length === 0 && other.setups.length < plan.setups.length ? other : undefined;
  };
  const ways = OTHER_WAYS.filter(
    (w) => w !== 'v-block' && (w !== 'angle-plate' || checked.shop.anglePlates.length > 0),
  );
  const found = ways.flatMap((way): HeldOtherwise[] => {
    const other = fewer(way, MOST_ATTEMPTS);
    return other ? [{ way, plan: other }] : [];
  });
  if (found.length > 0) return found.sort((a, b) => wholeTime(a.plan, checked) - wholeTime(b.plan, checked));
  const together = fewer(true, 2 * MOST_ATTEMPTS);
  return together ? [{ plan: together }] : [];
}

/** Of all pieces of the batch. */
function wholeTime({ time }: Plan, { part }: ReadPart): number {
  return middle(batchMinutes(time, part.quantity));
}

/** What the work is held by lies below what could not be cut. */
function worthKeeping({ uncut: left }: Plan): readonly Face[] {
  const below = left.flatMap(({ item }) => (item.from === 0 ? [] : facesOf(item.from).map((up) => OPPOSITE[up])));
  return DIRECTIONS.filter((face) => below.includes(face));
}

/** Looked for so long, each. */
const MOST_ATTEMPTS = 100;

function withExtra(part: Part, face: Face, mm: number): Part {
  const { span } = part.stock;
  const length = { mm, text: String(mm), span };
  return { ...part, stock: { ...part.stock, written: true, extra: { ...part.stock.extra, [face]: length } } };
}

interface OnMachine {
  readonly machine: Machine;
  /** What it cannot do of the plan: travel, load, revolutions. Empty: it would do. */
  readonly cannot: readonly Finding[];
  readonly firstPiece: Minutes;
  readonly eachFurther: Minutes;
}

/** The plan on each machine of the shop: those that would do first, the quickest of them first. One entry where there is one machine. */
export function onEachMachine(checked: ReadPart, plan: Plan): readonly OnMachine[] {
  const { part, shop } = checked;
  return shop.machines
    .map((machine) => {
      const setups = on(machine, plan, part);
      const { firstPiece, eachFurther } = timeOf(setups, { ...checked, part: { ...part, setups } });
      return { machine, cannot: refusedOn(machine, plan, checked), firstPiece, eachFurther };
    })
    .sort((a, b) => a.cannot.length - b.cannot.length || middle(a.firstPiece) - middle(b.firstPiece));
}

interface InVise {
  readonly vise: Vise;
  /** With that vise alone. */
  readonly plan: Plan;
}

/** Planned with each vise of the shop alone; whole plans first, then the fewest set-ups, those in plain jaws, the quickest. None where there is one vise. */
export function inEachVise(checked: ReadPart): readonly InVise[] {
  const { shop } = checked;
  if (shop.vises.length < 2) return [];
  return shop.vises
    .flatMap((vise) => {
      const plan = planOf({ ...checked, shop: { ...shop, vises: [vise] } });
      return plan ? [{ vise, plan }] : [];
    })
    .sort(
      (a, b) =>
        a.plan.uncut.length - b.plan.uncut.length ||
        a.plan.setups.length - b.plan.setups.length ||
        besides(a.plan) - besides(b.plan) ||
        middle(a.plan.time.firstPiece) - middle(b.plan.time.firstPiece),
    );
}

/** Set-ups that the vise does not hold. */
function besides({ setups }: Plan): number {
  return setups.filter((s) => s.setup.hold?.type !== 'vise').length;
}

function middle([low, high]: Minutes): number {
  return (low + high) / 2;
}
