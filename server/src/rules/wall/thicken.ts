/** Fixes that give a wall more material: smaller, shallower or moved features, another pitch, a larger body. */

import { isChannel } from '../../model/feature-kinds';
import { type Axis, FACE_AXIS, type Face, type Feature, type Length, type Part } from '../../model/model';
import { SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { moveFeature, nodeAt, placeAfter, setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { roundDown, roundUp } from '../kit/message';
import type { Fix, RuleContext } from '../kit/rule';
import { dot } from '../kit/voids';
import { isVoid, sidesOf, type WallBetween, type WallSide } from './walls';

/** Ways to make a wall `wanted` thick, the least change to the part first. None is certain to do; each is tried. */
export function* thicken(wall: WallBetween, wantedMm: number, context: RuleContext): Iterable<Fix | undefined> {
  const missing = wantedMm - wall.thicknessMm;
  if (missing <= 0) return;
  const by = roundUp(missing, context.part.units);
  const sides = sidesOf(wall, context.part);
  const pattern = samePattern(wall) && sides[0];
  if (pattern) yield* otherPitch(pattern.feature, by, context);
  else if (!isVoid(wall.b)) yield* narrower(wall, wall.b, missing, context);
  for (const side of sides) {
    yield* smaller(side, by, context);
    if (!pattern) yield* moved(side, by, context);
  }
  if (!isVoid(wall.b)) yield* largerBody(wall, by, context);
}

function samePattern({ a, b }: WallBetween): boolean {
  return isVoid(b) && a.feature === b.feature && a.member !== b.member;
}

const title = (feature: Feature, what: string) => `Make ${feature.name}${what.startsWith('’') ? '' : ' '}${what}`;

function* smaller({ v, feature, towards }: WallSide, by: number, context: RuleContext): Iterable<Fix | undefined> {
  const { part, length } = context;
  const set = (l: Length | undefined, less: number, word: (to: string) => string) => {
    const to = l ? roundDown(l.mm - less, part.units) : 0;
    return change(title(feature, word(length(to))), to > 0 ? setLength(l, to, part) : undefined);
  };
  const down = Math.abs(dot(towards, v.frame.w)) > 0.7;
  if (down) {
    if (v.role === 'counterbore' && feature.kind === 'hole') {
      yield set(feature.counterbore?.depth, by, (to) => `’s counterbore ${to} deep`);
    } else if ('depth' in feature && feature.depth && !feature.depth.through) {
      yield set(feature.depth.length, by, (to) => `${to} deep`);
    }
    return;
  }
  const alongU = Math.abs(dot(towards, v.frame.u)) > 0.7;
  if (feature.kind === 'pocket') {
    const { shape } = feature;
    if (shape.type === 'circle') yield set(shape.diameter, 2 * by, (to) => `${to} in diameter`);
    if (shape.type === 'rectangle') {
      const side = alongU ? shape.u : shape.v;
      yield* oneSide({ v, feature, towards }, side, alongU, by, context);
      yield set(side, 2 * by, (to) => `${to} wide`);
    }
  } else if (isChannel(feature)) {
    yield set(feature.width, 2 * by, (to) => `${to} wide`);
  } else if (feature.kind === 'step') {
    yield set(feature.widths[0], by, (to) => `${to} wide`);
  } else if (feature.kind === 'groove') {
    yield set(feature.diameter, 2 * by, (to) => `${to} in diameter`);
  } else if (feature.kind === 'hole' && v.role === 'counterbore') {
    yield set(feature.counterbore?.diameter, 2 * by, (to) => `’s counterbore ${to} in diameter`);
  } else if (feature.kind === 'hole' && v.role === 'bore' && feature.diameterGiven && !feature.diameter.tolerance) {
    yield set(feature.diameter, 2 * by, (to) => `${to} in diameter`);
  }
}

/** A pocket loses `by` on the wall's side only: smaller, and its centre half of that away. */
function* oneSide(
  { v, feature, towards }: WallSide,
  size: Length,
  alongU: boolean,
  by: number,
  { part, tree, length }: RuleContext,
): Iterable<Fix | undefined> {
  if (feature.pattern || feature.kind !== 'pocket' || (feature.shape.type === 'rectangle' && feature.shape.rotateDeg))
    return;
  const to = roundDown(size.mm - by, part.units);
  const edit = to > 0 ? setLength(size, to, part) : undefined;
  const sign = Math.sign(dot(towards, alongU ? v.frame.u : v.frame.v));
  const shift = (-sign * (size.mm - to)) / 2;
  const move = moveFeature({ tree, part }, feature, [alongU ? shift : 0, alongU ? 0 : shift], v.member);
  yield change(title(feature, `${length(to)} wide, its other side where it is`), together(edit, move));
}

function* moved({ v, feature, towards }: WallSide, by: number, { part, tree }: RuleContext): Iterable<Fix | undefined> {
  const [u, w] = [-dot(towards, v.frame.u) * by, -dot(towards, v.frame.v) * by];
  const away = (n: number) => Math.sign(n) * (Math.abs(n) < 0.02 ? 0 : roundUp(Math.abs(n), part.units));
  const [du, dv] = [away(u), away(w)];
  const what =
    feature.pattern && feature.pattern.type !== 'places' ? `the whole pattern ${feature.name}` : feature.name;
  const to = placeAfter({ tree, part }, feature, [du, dv], v.member);
  yield change(
    `Move ${what} to ${to}`,
    to === undefined ? undefined : moveFeature({ tree, part }, feature, [du, dv], v.member),
  );
}

/** A pattern draws in from a face: its outermost members move by half of what all its steps lose, on both sides alike. */
function* narrower(wall: WallBetween, face: Face, by: number, context: RuleContext): Iterable<Fix | undefined> {
  const feature = context.part.featureByName.get(wall.a.feature);
  if (!feature?.pattern) return;
  const { axis } = FACE_AXIS[face];
  const steps = valuesOf(feature, axis).length - 1;
  if (steps > 0) yield* otherPitch(feature, (-2 * by) / steps, context, axis);
}

/** The pitch of a line or grid whose members stand too near to each other, or (`by` < 0) reach too far out. */
function* otherPitch(
  feature: Feature,
  by: number,
  { part, tree, length, write }: RuleContext,
  only?: Axis,
): Iterable<Fix | undefined> {
  const type = feature.pattern?.type;
  if (type !== 'line' && type !== 'grid') return;
  for (const axis of only ? [only] : (['x', 'y', 'z'] as Axis[])) {
    const node =
      type === 'line'
        ? nodeAt(tree, feature.name, 'pattern', 'line', axis)
        : nodeAt(tree, feature.name, 'pattern', 'grid', axis, 'pitch');
    const pitch = node && pitchOf(feature, part, axis);
    if (!node || !pitch) continue;
    const to = (by < 0 ? roundDown : roundUp)(Math.abs(pitch) + by, part.units) * Math.sign(pitch);
    if (to === 0) continue;
    yield change(title(feature, `’s pitch along ${axis} ${length(to)}`), { span: node.span, newText: write(to) });
  }
}

/** Where members stand along an axis, each place once. */
function valuesOf(feature: Feature, axis: Axis): readonly number[] {
  const normal = FACE_AXIS[feature.face].axis;
  const plane = (['x', 'y', 'z'] as Axis[]).filter((a) => a !== normal);
  if (!plane.includes(axis)) return [];
  const values = feature.places.map((p) => (plane[0] === axis ? p.u : p.v)).sort((a, b) => a - b);
  return values.filter((value, i) => i === 0 || value - values[i - 1]! > SAME);
}

/** The least distance between members along an axis. */
function pitchOf(feature: Feature, part: Part, axis: Axis): number {
  const values = valuesOf(feature, axis);
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  return steps.length > 0 && part.size.length > 0 ? Math.min(...steps) : 0;
}

function* largerBody({ a, b }: WallBetween, by: number, { part, length }: RuleContext): Iterable<Fix | undefined> {
  if (isVoid(b) || part.body?.form !== 'box' || !a) return;
  const { axis } = FACE_AXIS[b];
  const size = part.body[axis];
  const to = roundUp(size.mm + by, part.units);
  yield change(`Make the body ${length(to)} along ${axis}`, setLength(size, to, part));
}
