/** What of a hole is done by hand at the bench, after its set-up. */
import type { Hole } from '../../model/model';
import { isAtBench } from '../made-on';
import type { Operation } from './types';

/** What hands do to a hole that was drilled. */
export const BY_HAND: ReadonlySet<Operation['does']> = new Set(['tap', 'ream']);

/** Of a hole's cuts those that its set-up makes. */
export function onMill(hole: Hole, all: readonly Operation[]): readonly Operation[] {
  return isAtBench(hole) ? all.filter((o) => !BY_HAND.has(o.does)) : all;
}
