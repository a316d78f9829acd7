/** Walls as rules see them: which count, how they are named, and which text is pointed at. */

import { isNeverThere } from '../../geometry/solid/stock-body';
import type { Frame, Solid, Vec3, Void, Wall } from '../../geometry/types';
import { STANDS } from '../../geometry/walls/order';
import { memo } from '../../memo';
import { type ByForm, type FeatureForm, homeOf, ofForm } from '../../model/feature-kinds';
import type { Face, Feature, Part } from '../../model/model';
import { overFace } from '../../process/stock';
import type { Span } from '../../text/tree';
import { SAME } from '../../tolerance';
import type { Told } from '../kit/define';
import { memberOf, memberPhrase, spanOf } from '../kit/message';
import type { RuleContext, Saying, Severity } from '../kit/rule';
import { dot, minus } from '../kit/voids';

/** A removed volume as one side of a wall: whose it is, and how it lies. */
export interface CutSide extends Pick<Void, 'feature' | 'member' | 'role'> {
  readonly frame: Frame;
}

/** A wall between two cuts, or between a cut and a face of the body, as its finding keeps it. */
export interface WallBetween extends Omit<Wall, 'a' | 'b'> {
  readonly a: CutSide;
  readonly b: CutSide | Face;
}

/** Whether a side of a wall is a cut, and no face of the body. */
export function isVoid<T extends CutSide>(side: T | Face): side is T {
  return typeof side !== 'string';
}

/** A wall as its finding carries it: without the volumes themselves. */
export function seenAs({ a, b, ...wall }: Wall): WallBetween {
  return { ...wall, a: cutSide(a), b: isVoid(b) ? cutSide(b) : b };
}

export function cutSide({ feature, member, role, frame }: Void): CutSide {
  return { feature, member, role, frame };
}

/** That a wall has to be so thick: of one wall, the graver of two rules says it. */
export function saysOf({ a, b, type, thicknessMm }: Wall, severity: Severity, asksMm: number): Saying {
  const names = [a, b].map((v) => (isVoid(v) ? `${memberOf(v)} ${v.role}` : v));
  return { of: `${type} ${names.join(' ')} ${thicknessMm.toFixed(3)}`, severity, asks: asksMm };
}

/** Ratios for which one search for walls serves every rule of this topic, at their default limits. */
const STEEPEST = 8;
const WIDEST = 40;
const LEAST_MM = 1.5;
/** What bends is looked at up to here. */
export const BENDS_MM = 3;

/**
 * The counted walls thinner than so much. The search is the costly part and is made once for all the rules of this
 * topic: no wall is higher than the deepest cut, no floor wider than the widest. `bending`: only walls that can bend, and
 * floors, are asked for; others may be missing.
 */
export function wallsBelow(
  { solid, part }: Pick<RuleContext, 'solid' | 'part'>,
  mm: number,
  { bending = false } = {},
): readonly Wall[] {
  const walls = counted(solid.walls(...searchedTo(solid, mm, bending)), part);
  return walls.filter((w) => w.thicknessMm < mm - SAME && w.thicknessMm > 0);
}

/** Between how many pairs of volumes that search did not look, as too many run into each other. */
export function unjudgedBelow(solid: Solid, mm: number): number {
  return solid.unjudgedWalls(...searchedTo(solid, mm, false));
}

function searchedTo(solid: Solid, mm: number, bending: boolean): readonly [belowMm: number, heldMm: number] {
  return [Math.max(mm, reachOf(solid)), bending ? LEAST_MM : Math.max(mm, LEAST_MM)];
}

const reachOf = memo((solid: Solid): number =>
  Math.max(BENDS_MM, deepestMm(solid) / STEEPEST, widestMm(solid) / WIDEST),
);

/** Whether both sides of a wall are such that it can bend. */
export function canBend({ a, b, type }: Wall): boolean {
  return type === 'wall' && STANDS.has(a.role) && (!isVoid(b) || STANDS.has(b.role));
}

/** How deep the deepest cut that leaves standing walls goes in the body, along its own depth. */
export function deepestMm({ voids, body }: Solid): number {
  let deepest = 0;
  for (const v of voids) {
    if (!STANDS.has(v.role)) continue;
    const i = mainAxis(v);
    const inBody = Math.min(v.bounds.max[i], body.box.max[i]) - Math.max(v.bounds.min[i], body.box.min[i]);
    deepest = Math.max(deepest, inBody);
  }
  return deepest;
}

/** How wide the widest cut with a floor is across, at most. */
export function widestMm({ voids, body }: Solid): number {
  let widest = 0;
  for (const v of voids) {
    if (v.through || !STANDS.has(v.role)) continue;
    const across = AXES.filter((i) => i !== mainAxis(v)).map(
      (i) => Math.min(v.bounds.max[i], body.box.max[i]) - Math.max(v.bounds.min[i], body.box.min[i]),
    );
    widest = Math.max(widest, Math.min(...across));
  }
  return widest;
}

const AXES = [0, 1, 2] as const;
function mainAxis(v: Void): 0 | 1 | 2 {
  return AXES.reduce<0 | 1 | 2>((best, i) => (Math.abs(v.frame.w[i]) > Math.abs(v.frame.w[best]) ? i : best), 0);
}

/** Walls that a cutter could break; letters of one engraving, and broken edges, are none. Nor is the bar's own wall. */
function counted(walls: readonly Wall[], part: Part): readonly Wall[] {
  return walls.filter(({ a, b }) => {
    if (isNeverThere(a) && (isVoid(b) ? isNeverThere(b) : overFace(b, part) === 0)) return false;
    return !(isVoid(b) && a.feature === b.feature && a.role === 'engraving');
  });
}

/** Walls that the bar came with: between what its section lacks and a side of it. Nothing cut them. */
export function ownWalls({ solid }: Pick<RuleContext, 'solid'>, mm: number): readonly Wall[] {
  return solid
    .walls(...searchedTo(solid, mm, true))
    .filter((w) => w.type === 'wall' && isNeverThere(w.a) && !isVoid(w.b) && w.thicknessMm < mm - SAME);
}

/** Of the walls of one type between two features, or a feature and a face: the one for which `rank` is least, and all. */
export interface Pair {
  readonly wall: Wall;
  readonly all: readonly Wall[];
}

export function pairsOf(walls: readonly Wall[], rank: (wall: Wall) => number): readonly Pair[] {
  const pairs = new Map<string, { wall: Wall; all: Wall[] }>();
  for (const wall of walls) {
    const other = isVoid(wall.b) ? wall.b.feature : `face ${wall.b}`;
    const names = isVoid(wall.b) ? [wall.a.feature, other].sort() : [wall.a.feature, other];
    const key = `${wall.type} ${names.join(' ')}`;
    const known = pairs.get(key);
    if (!known) pairs.set(key, { wall, all: [wall] });
    else {
      known.all.push(wall);
      if (rank(wall) < rank(known.wall)) known.wall = wall;
    }
  }
  return [...pairs.values()];
}

/** `between pocket a and slot b`, `between pocket a and the top face`, `between two sides of pocket a`. */
export function whereOf({ a, b }: WallBetween, part: Part): string {
  const one = memberPhrase(part, memberOf(a));
  if (!isVoid(b)) return `between ${one} and the ${b} face`;
  if (memberOf(a) === memberOf(b)) return `between two sides of ${one}`;
  return `between ${one} and ${memberPhrase(part, memberOf(b))}`;
}

function namesOf({ a, b }: WallBetween): readonly string[] {
  const cut = (isVoid(b) ? [a, b] : [a]).filter((v) => !isNeverThere(v));
  return [...new Set(cut.map(memberOf))];
}

/** Rather a pocket is changed than a hole, and a hole rather than a bore with a fit: what is easier to give way first. */
const GIVES_WAY: readonly FeatureForm[] = [
  'letters',
  'opening',
  'channel',
  'ring',
  'shoulder',
  'slope',
  'outside',
  'hole',
  'edge',
];

/** The volumes of a wall, the one that gives way first first, each with its feature and the way out of the wall. */
export function sidesOf(wall: WallBetween, part: Part): readonly WallSide[] {
  const [pa, pb] = wall.at;
  const length = Math.hypot(...minus(pb, pa)) || 1;
  const toB = minus(pb, pa).map((c) => c / length) as unknown as Vec3;
  const sides: WallSide[] = [];
  for (const [v, towards] of [[wall.a, toB] as const, [wall.b, minus([0, 0, 0], toB)] as const]) {
    const feature = isVoid(v) ? part.featureByName.get(v.feature) : undefined;
    if (isVoid(v) && feature) sides.push({ v, feature, towards });
  }
  const order = (s: WallSide) => GIVES_WAY.indexOf(homeOf(s.feature).form) + (fitted(s.feature) ? 20 : 0);
  return sides.sort((one, two) => order(one) - order(two));
}

export interface WallSide {
  readonly v: CutSide;
  readonly feature: Feature;
  /** From this volume through the material: a unit vector. */
  readonly towards: Vec3;
}

function fitted(feature: Feature): boolean {
  return feature.kind === 'hole' && (feature.diameter.tolerance?.fit !== undefined || feature.thread !== undefined);
}

/** The narrowest text that decides where this side of the wall is. */
function decisiveSpan({ v, feature, towards }: WallSide): Span {
  const along = Math.abs(dot(towards, v.frame.w)) > 0.7;
  if (along) return spanOf(feature, 'depth', 'size');
  return ofForm(DECISIVE, feature, v, towards);
}

const DECISIVE: ByForm<[v: CutSide, towards: Vec3], Span> = {
  opening: ({ shape }, v, towards) => {
    if (shape.type !== 'rectangle' || shape.rotateDeg !== 0)
      return shape.type === 'circle' ? shape.diameter.span : shape.span;
    const size = Math.abs(dot(towards, v.frame.u)) > 0.7 ? shape.u : shape.v;
    return size.from ? shape.span : size.span;
  },
  channel: (channel) => spanOf(channel, 'width'),
  shoulder: ({ widths, nameSpan }) => widths[0]?.span ?? nameSpan,
  hole: (hole, v) => {
    if (v.role === 'counterbore' && hole.counterbore) return hole.counterbore.span;
    if (v.role === 'countersink' && hole.countersink) return hole.countersink.span;
    return hole.diameterGiven ? spanOf(hole, 'diameter') : spanOf(hole, 'at');
  },
  edge: (edge) => spanOf(edge, 'size', 'radius'),
  outside: byPlace,
  ring: byPlace,
  letters: byPlace,
  slope: byPlace,
};

function byPlace(feature: Feature): Span {
  return spanOf(feature, 'diameter', 'at', 'name');
}

/** Where the finding points, and what it is related to. */
export function placesOf(wall: WallBetween, part: Part): Pick<Told, 'span' | 'related' | 'at' | 'of'> {
  const sides = sidesOf(wall, part);
  const [first, second] = sides;
  const span = first ? decisiveSpan(first) : part.nameSpan;
  const related =
    second && second.feature !== first?.feature
      ? [{ span: decisiveSpan(second), message: `the other side of the wall: ${memberOf(second.v)}` }]
      : !isVoid(wall.b) && part.body
        ? [{ span: part.body.span, message: `the ${wall.b} face` }]
        : [];
  return { span, related, at: wall.at, of: namesOf(wall) };
}
