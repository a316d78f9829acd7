/** What is found of features that another part's file brings: where they stand there is told beside the entry here. */
import { featureNameOf } from '../../model/member-name';
import type { Part } from '../../model/model';
import { isElsewhere } from '../../text/tree';
import type { Finding } from './rule';

export function withHomes(findings: readonly Finding[], part: Part): readonly Finding[] {
  if (!part.features.some((f) => f.included)) return findings;
  return findings.map((finding) => (isElsewhere(finding.span) ? withHome(finding, part) : finding));
}

function withHome(finding: Finding, part: Part): Finding {
  const homes = finding.of.flatMap((name) => part.featureByName.get(featureNameOf(name))?.included ?? []);
  const known = finding.related.some((r) => r.elsewhere);
  if (homes.length === 0 || known) return finding;
  const related = homes.map(({ name, file, range }) => ({
    span: finding.span,
    message: `\`${name}\` in ${file}`,
    elsewhere: { file, span: { block: '', from: 0, to: 0 }, range },
  }));
  // What stands beside it there says nothing here.
  const own = finding.related.filter((r) => !isElsewhere(r.span));
  return { ...finding, related: [...own, ...related] };
}
