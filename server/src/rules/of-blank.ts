/** What is not said of features that a blank has already: how they are made is judged where its own file is. */
import { featureNameOf } from '../model/member-name';
import { comesCut } from '../process/stock/brought';
import type { Finding, RuleContext } from './kit/rule';

/** They judge how a feature is cut here, and with what. */
const OF_MAKING = /^(?:access|corner|hole|thread|cost)\//;

export function withoutBrought(
  found: readonly Finding[],
  { part, solid }: Pick<RuleContext, 'part' | 'solid'>,
): readonly Finding[] {
  if (!part.stock.blank) return found;
  const comes = (of: string) => comesCut({ name: featureNameOf(of) }, part, solid);
  return found.filter((f) => !OF_MAKING.test(f.rule) || f.of.length === 0 || !f.of.every(comes));
}
