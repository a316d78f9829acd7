/** What a kind of feature says of itself on this floor: its home has all of it, or does not compile. */
import type * as z from 'zod/mini';
import type { MapNode, Span } from '../../text/tree';
import type { AnyFeature, Length, Named, PathCorner, Shape, Stands } from '../base';
import type { Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';

/**
 * A size: a hole or gap, something that stands, or neither (a depth, a shoulder). `bore`: a round opening; `mill`: the
 * side or end of a mill; `form`: the shape of its own cutter, the drill's stop, the bar. Of a round opening: how deep it is.
 */
export type SizeOf = readonly [
  what: string,
  length: Length | undefined,
  side: 'inside' | 'outside' | 'neither',
  made: 'bore' | 'mill' | 'form',
  deepMm?: number | undefined,
];

/** An outline, island or centre line, with where it is written. */
export interface WrittenPath {
  readonly corners: readonly PathCorner[];
  readonly closed: boolean;
  readonly span: Span;
}

/** What it is in metal, whatever it is for: kinds of one form have one volume, and are cut alike. */
export type FeatureForm =
  | 'hole'
  | 'opening'
  | 'channel'
  | 'shoulder'
  | 'outside'
  | 'edge'
  | 'ring'
  | 'letters'
  | 'slope';

export interface FeatureKindHome<F extends AnyFeature, Form extends FeatureForm = FeatureForm> {
  readonly form: Form;
  /** As written: a strict map. */
  readonly schema: z.ZodMiniObject;
  /** Undefined where it could not be understood; then `work` says why. */
  resolve(work: Evaluation, head: Head, map: MapNode): F | undefined;
  /** Several of them, in a sentence. */
  readonly plural: string;
  /** Whole features to fill in; `$1` and the like are the editor's stops. */
  readonly snippets: readonly (readonly [label: string, detail: string, lines: readonly string[]])[];
  stands(feature: F): Stands;
  /** Every size that may carry a tolerance, in the order of a drawing. */
  sizes(feature: F): Iterable<SizeOf>;
  /** Sizes between walls, or from a wall to a face: not depths, nor places. */
  across(feature: F): readonly Length[];
  /** The outlines that bound it, without its islands. */
  shapes(feature: F): readonly Shape[];
  paths(feature: F): readonly WrittenPath[];
  /** Features that it lies in or whose rims it breaks. */
  needs(feature: F): readonly Named[];
}

export function closedPaths(shape: Shape): readonly WrittenPath[] {
  return shape.type === 'path' ? [{ corners: shape.corners, closed: true, span: shape.span }] : [];
}

export function* shapeSizes(shape: Shape, side: 'inside' | 'outside', deepMm?: number): Generator<SizeOf> {
  if (shape.type === 'circle') yield ['diameter', shape.diameter, side, side === 'inside' ? 'bore' : 'mill', deepMm];
  if (shape.type !== 'rectangle') return;
  yield ['size', shape.u, side, 'mill'];
  yield ['size', shape.v, side, 'mill'];
}

export function shapeWidths(shape: Shape): readonly Length[] {
  return shape.type === 'rectangle' ? [shape.u, shape.v] : shape.type === 'circle' ? [shape.diameter] : [];
}
