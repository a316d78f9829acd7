/** What the hole rules share: every bore of the part, and where a hole's size is written. */

import type { Hole } from '../../model/model';
import { type Bored, boresOf } from '../../process/drilling';
import { type BoredInSetup, boresInSetup } from '../../process/drilling-in-setup';
import { leaningBores } from '../../process/tilted/bores';
import type { Span } from '../../text/tree';
import { memberOf } from '../kit/message';
import type { RuleContext } from '../kit/rule';

/** Every hole with its bores. */
export function* holes({ part, solid }: RuleContext): Generator<readonly [Hole, readonly Bored[]]> {
  for (const feature of part.features) {
    if (feature.kind !== 'hole') continue;
    const bores = boresOf(feature, part, solid);
    if (bores.length > 0) yield [feature, bores];
  }
}

/** Every hole with its bores as they are when it is drilled; those that lean, on the finished part. */
export function* holesInSetup(context: RuleContext): Generator<readonly [Hole, readonly BoredInSetup[]]> {
  const { part, solid } = context;
  for (const hole of part.features) {
    if (hole.kind !== 'hole') continue;
    const bores = hole.tilt
      ? leaningBores(hole, solid).map((b) => ({ b, place: solid }))
      : boresInSetup(hole, part, solid);
    if (bores.length > 0) yield [hole, bores];
  }
}

/** The hole's name; members' names where only some of a pattern are meant. */
export function namesOf(hole: Hole, bad: readonly Bored[]): readonly string[] {
  return bad.length < hole.places.length ? bad.map((b) => memberOf(b.of)) : [hole.name];
}

/** Where the size is written: the diameter, or the thread that it follows from. */
export function sizeSpan(hole: Hole): Span {
  return hole.diameterGiven ? hole.diameter.span : (hole.thread?.span ?? hole.diameter.span);
}

/** A hole nothing must fit in: its size may change without changing what it is for. */
export function isFree(hole: Hole): boolean {
  return !hole.thread && !hole.diameter.tolerance && hole.diameterGiven;
}

/** How many of the opposite two faces set-ups cut it from: drilled from both, each side drills half. */
export function sides(b: Bored, { part }: RuleContext): 1 | 2 {
  if (!part.setups || b.faces.length < 2) return 1;
  const ups = part.setups.filter((s) => s.cuts.some((c) => c.name === b.hole.name)).map((s) => s.up?.name);
  return b.faces.filter((f) => ups.includes(f)).length > 1 ? 2 : 1;
}
