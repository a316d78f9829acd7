/** What the working out of one piece of a document may look at besides its own text, and what it sees there. */
import type { Quantity } from '../../text/expression';
import type { AnyFeature, Stands } from '../base';

/**
 * What was looked at: the size of the body, a parameter, another feature, only whether a feature is there; or which names
 * there are, where a message says what is known.
 */
export type Dependency = ValueDependency | NamesDependency;
export interface ValueDependency {
  readonly kind: 'size' | 'parameter' | 'feature' | 'mention';
  readonly name: string;
  readonly saw: Value;
}
export interface NamesDependency {
  readonly kind: 'names';
  readonly name: 'parameters' | 'features';
  readonly saw: readonly string[];
}

export type Found<T> = T | 'unknown' | 'broken' | 'circle';
/** A quantity or a feature; for a mention, how many members the feature's pattern has. */
export type Value = Found<Quantity | AnyFeature | number>;

/** How the document answers what a cell asks. Set by `part.ts`, which knows the text. */
export interface Answers {
  parameter(name: string): Found<Quantity>;
  /** `x`, `y`, `z`: the body's extent along it, as a length. */
  size(axis: string): Found<Quantity>;
  feature(name: string): Found<AnyFeature>;
  stands(feature: AnyFeature): Stands;
  parameterNames(): Iterable<string>;
  featureNames(): Iterable<string>;
  /** The field of `body` that gives the extent along an axis. */
  extentKey(axis: string): string;
}
