/** Which errors of geometry the field can tell: how far two things run into each other is seen down to its cells. */
import type { Finding } from '../../server/src/rules/kit/rule';

const GEOMETRY = /^(access\/(jaw|reach|holder|covered|undercut|no-setup|no-tool)|hold\/(in-the-cut|cut-free))$/;
/**
 * Twice what is left or cut away unseen at cells of half a millimetre; twice that where a cutter runs into something, for a
 * thinner one than the rule tells of runs into it half as far at a slanted wall.
 */
const SEEN_MM: Readonly<Record<string, number>> = { overlap_mm: 1.6, missing_mm: 0.8, below_mm: 0.8 };

export function isGeometry({ rule }: Finding): boolean {
  return GEOMETRY.test(rule);
}

export function isSeen({ rule, facts }: Finding): boolean {
  // A shank no thicker than its cutter only rubs, which is finer than the cells.
  if (rule === 'access/reach' && facts.tool !== 'em-3') return false;
  // The other piece is no steel: the field asks for no margin beside it.
  if (facts.meets === 'other piece') return Number(facts.overlap_mm) - thicker(String(facts.tool)) >= 0.8;
  return Object.entries(SEEN_MM).every(([key, mm]) => facts[key] === undefined || Number(facts[key]) >= mm);
}

/** The thinnest mill of the shop runs out by so much less than the one that is told of, mm. */
function thicker(tool: string): number {
  return (Number(/\d+/.exec(tool)?.[0] ?? 3) - 3) / 2;
}
