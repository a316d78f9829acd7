/** What the rules on set-ups share: where a thing is cut, what stands under it, how well a set-up finds its zero. */

import { homeOf } from '../../model/feature-kinds';
import { type Axis, type CutEntry, FACE_AXIS, type Feature, type Named, type Setup } from '../../model/model';
import { timelineOf } from '../../process/stock';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { setText } from '../../text/edit';
import type { Span } from '../../text/tree';
import { setupMap } from './holds';
import { before, textOfCut } from './moves';
import type { RuleContext, Saying, SpanEdit } from './rule';

export function setupsIn({ part, solid }: RuleContext): readonly SetupInTime[] {
  return part.setups ? timelineOf(part, solid).setups : [];
}

/** Those that are to be judged one by one: all that are not settled. */
export function setupsToJudge(context: RuleContext): readonly SetupInTime[] {
  return setupsIn(context).slice(context.part.settled ?? 0);
}

/** That a toleranced distance is not held across set-ups: an error that was accepted is not told again as another. */
export function saysOfTolerance({ block, from }: Span): Saying {
  return { of: `tolerance ${block} ${from}`, severity: 'warning', asks: 0, evenAccepted: true };
}

/** Every cut of a name, in time. */
export function cutsNamed(name: string, context: RuleContext): readonly Cut[] {
  return setupsIn(context).flatMap((s) => s.cuts.filter((c) => c.name === name));
}

/** What must be there before a feature can be: what it starts on, lies in, or whose rim it breaks. */
export function standsOn(feature: Feature): readonly { readonly named: Named; readonly must: boolean }[] {
  const made: { named: Named; must: boolean }[] = [];
  if (feature.from) made.push({ named: feature.from, must: false });
  for (const named of homeOf(feature).needs(feature)) made.push({ named, must: true });
  return made;
}

/** What a set-up takes its height from: wherever `parallels` stands, else the axis that is up. */
export function heightZero({ setup, up }: SetupInTime): Named | undefined {
  const all = (['x', 'y', 'z'] as const).map((a) => setup.zero[a]);
  return all.find((n) => n?.name === 'parallels') ?? (up && setup.zero[FACE_AXIS[up].axis]);
}

/** `x: left` written under a set-up's `zero`. */
export function setZero(context: RuleContext, setup: Setup, axis: Axis, text: string): readonly SpanEdit[] | undefined {
  const map = setupMap(context, setup, 'zero');
  const edits = map ? setText(context.tree, map, axis, text) : [];
  return edits.length > 0 ? edits : undefined;
}

/** The same cuts in another order, each entry where another stood: layout and comments stay. */
export function reordered(
  setup: Setup,
  cuts: readonly CutEntry[],
  { tree }: RuleContext,
): readonly SpanEdit[] | undefined {
  if (cuts.length !== setup.cuts.length) return undefined;
  const edits = setup.cuts.flatMap((c, i) => {
    const newText = textOfCut(cuts[i]!, tree);
    return c === cuts[i] ? [] : [{ span: c.whole ?? c.span, newText }];
  });
  return edits.length > 0 ? edits : undefined;
}

/** A name put into a list of cuts, in brackets or lines, before one that stands there. */
export function insertBefore({ tree }: RuleContext, there: CutEntry, name: string): SpanEdit {
  return before(tree, tree.locate(there.whole ?? there.span).start, name);
}
