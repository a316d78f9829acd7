/** What the rules on reaching share where set-ups are written: each cut's verdict, and what would do instead. */

import type { Feature } from '../../model/model';
import { type Verdict, verdictsOf } from '../../process/access';
import { elsewhere } from '../../process/access/elsewhere';
import { timelineOf } from '../../process/stock';
import type { SetupInTime } from '../../process/stock/types';
import { type Span, samePlace } from '../../text/tree';
import { change } from './changes';
import { list } from './message';
import { moveCut } from './moves';
import type { Fix, RuleContext, Saying, Severity } from './rule';

/** Verdicts of all cuts; none without set-ups. */
export function verdictsIn(context: RuleContext): readonly Verdict[] {
  const { part } = context;
  return part.setups ? verdictsOf(context) : [];
}

/** A set-up lists it and something could be said: it is judged there, not on its own. */
export function isJudgedInSetup(feature: Feature, context: RuleContext): boolean {
  return verdictsIn(context).some((v) => v.cut.feature === feature);
}

export function setupOf({ cut }: Verdict, { part, solid }: RuleContext): SetupInTime {
  return timelineOf(part, solid).setups[cut.setup]!;
}

/** Set-ups in which it would do, made last. */
function placesFor(v: Verdict, context: RuleContext): readonly SetupInTime[] {
  return elsewhere(v.cut, context);
}

/** `Cut last in first it would do.` or nothing. */
export function placesTold(v: Verdict, context: RuleContext): string {
  // To look where else a cut would do is a long way.
  if (context.counting) return '';
  const places = placesFor(v, context);
  if (places.length === 0) return '';
  const own = places.find((s) => s.index === v.cut.setup);
  if (own) return ` Cut it last in ${own.setup.name}.`;
  return ` Cut it in ${list(
    places.map((s) => s.setup.name),
    'or',
  )}.`;
}

/** The cut moved to where it would do. */
export function* movesFor(v: Verdict, context: RuleContext): Generator<Fix | undefined> {
  const from = context.part.setups?.[v.cut.setup];
  if (!from) return;
  for (const { setup } of placesFor(v, context)) {
    const title = setup === from ? `Cut it last in ${setup.name}` : `Cut it in ${setup.name}`;
    yield change(title, moveCut(context, from, setup, v.cut.name));
  }
}

/** That nothing on hand gets down into the corners of a feature: told once, and not again where it was accepted. */
export function saysOfCorners(feature: string, severity: Severity): Saying {
  return { of: `corners of ${feature}`, severity, asks: 0, evenAccepted: true };
}

/** A cut by where it is listed: plain data, to be kept with a finding. */
export interface ListedCut {
  readonly name: string;
  readonly span: Span;
}

export function cutOf({ cut: { name, span } }: Verdict): ListedCut {
  return { name, span };
}

export function verdictAt({ name, span }: ListedCut, context: RuleContext): Verdict | undefined {
  return verdictsIn(context).find((v) => v.cut.name === name && samePlace(v.cut.span, span));
}
