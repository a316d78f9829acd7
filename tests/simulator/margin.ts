/** What the rules say of how a part lies that comes out right only so. */
import type { Finding } from '../../server/src/rules/kit/rule';

/** Common practice, no source: what `access/jaw` says where a shop says nothing. */
export const MARGIN_MM = 1;

/** How far tools keep from jaws, stop and clamps on the field: the rules' own margin, where none of them says that it is not kept. */
export function marginFor(findings: readonly Finding[]): number {
  return findings.some((f) => f.rule === 'access/jaw') ? 0 : MARGIN_MM;
}

/** How far the parallels are moved in, where that is said. */
export function inwardFor(findings: readonly Finding[]): ReadonlyMap<string, readonly [number, number]> {
  return new Map(
    findings
      .filter((f) => f.rule === 'hold/drills-the-parallels' && f.facts.fixed_mm !== undefined)
      .map(({ facts }) => [String(facts.set_up), [Number(facts.fixed_mm), Number(facts.moving_mm)] as const]),
  );
}
