/**
 * How many of a document's findings are shown, and how much of its text a message quotes: a quote left open can answer
 * with a hundred thousand findings, and nobody reads the second hundred of one kind.
 */
import type { Finding } from './kit/rule';

/** Of one rule in one document. */
const MOST_OF_ONE_RULE = 100;

/** What is not shown of a rule. */
export interface LeftOut {
  readonly rule: string;
  readonly severity: Finding['severity'];
  readonly count: number;
  /** The last one that is shown. */
  readonly after: Finding;
}

/** The first findings of each rule, in the order given, and how many more there are. */
export function firstOfEach(findings: readonly Finding[]): {
  readonly shown: readonly Finding[];
  readonly leftOut: readonly LeftOut[];
} {
  if (findings.length <= MOST_OF_ONE_RULE) return { shown: findings, leftOut: [] };
  const seen = new Map<string, { count: number; last: Finding }>();
  const shown = findings.filter((finding) => {
    const key = `${finding.rule} ${finding.severity}`;
    const of = seen.get(key);
    if (!of) seen.set(key, { count: 1, last: finding });
    else if (++of.count <= MOST_OF_ONE_RULE) of.last = finding;
    return (of?.count ?? 1) <= MOST_OF_ONE_RULE;
  });
  const leftOut = [...seen.values()]
    .filter(({ count }) => count > MOST_OF_ONE_RULE)
    .map(({ count, last }) => ({
      rule: last.rule,
      severity: last.severity,
      count: count - MOST_OF_ONE_RULE,
      after: last,
    }));
  return { shown, leftOut };
}

/** `and 99,600 more` */
export function andMore({ count, rule }: Pick<LeftOut, 'count' | 'rule'>): string {
  return `and ${count.toLocaleString('en-US')} more of ${rule}, not shown`;
}

/** The longest quotation in a message, characters. */
const LONGEST = 80;

/** A message whose quotations of the text are cut to a length that can be read, on one line. */
export function brief(message: string): string {
  if (message.length <= LONGEST) return message;
  return message.replace(/`([^`]*)`/g, (quoted, words: string) => {
    if (words.length <= LONGEST && !/[\r\n]/.test(words)) return quoted;
    const line = words.replace(/\s*[\r\n]\s*/g, ' ');
    return line.length <= LONGEST ? `\`${line}\`` : `\`${line.slice(0, LONGEST - 20)}…${line.slice(-15)}\``;
  });
}

/** The same finding, briefly said. */
export function brieflySaid(finding: Finding): Finding {
  const message = brief(finding.message);
  const related = finding.related.map((r) => ({ ...r, message: brief(r.message) }));
  const same = message === finding.message && related.every((r, i) => r.message === finding.related[i]!.message);
  return same ? finding : { ...finding, message, related };
}
