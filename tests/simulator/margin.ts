/** How far tools keep from jaws, stop and clamps on the field: the rules' own margin, where none of them says that it is not kept. */
import type { Finding } from '../../server/src/rules/kit/rule';

/** Common practice, no source: what `access/jaw` says where a shop says nothing. */
const MARGIN_MM = 1;

export function marginFor(findings: readonly Finding[]): number {
  return findings.some((f) => f.rule === 'access/jaw') ? 0 : MARGIN_MM;
}
