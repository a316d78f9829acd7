import type { TextTree } from '../text/tree';
import type { Finding } from './kit/rule';
import { brieflySaid } from './shown-few';

/** Findings by place, then by rule: a stable order for reading and for comparing. */
export function inTextOrder(findings: readonly Finding[], tree: TextTree): readonly Finding[] {
  return findings
    .map((finding, index) => ({ finding: brieflySaid(finding), index, start: tree.locate(finding.span).start }))
    .sort((a, b) => a.start - b.start || a.index - b.index)
    .map((f) => f.finding);
}
