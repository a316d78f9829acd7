/** What of a text cannot be read: it is told, and what stands there is not compared. */
import type { Finding } from '../rules/kit/rule';
import { linesOf } from '../text/lines';
import { entry, type TextNode, type TextTree } from '../text/tree';
import type { Difference } from './meaning';

export interface Unread {
  readonly side: 'before' | 'after';
  /** Nothing of it can be compared. */
  readonly whole: boolean;
  readonly faults: readonly UnreadFault[];
}
interface UnreadFault {
  /** From 1. */
  readonly line: number;
  readonly message: string;
  readonly finding: Finding;
}

/** Raised of a text alone, where it does not say what was meant. */
const RULES: ReadonlySet<string> = new Set([
  'form/schema',
  'form/unit',
  'form/unknown-name',
  'form/hash-comment',
  'thread/unknown',
]);

interface Read {
  readonly tree: TextTree;
  readonly findings: readonly Finding[];
}

/** `isEmpty`: nothing came of it. */
export function unreadOf({ tree, findings }: Read, side: Unread['side'], isEmpty: boolean): readonly Unread[] {
  const lines = linesOf(tree.text);
  const faults = faultsOf({ tree, findings }).map((finding) => ({
    line: lines.position(tree.locate(finding.span).start).line + 1,
    message: finding.message,
    finding,
  }));
  return faults.length > 0 ? [{ side, whole: isEmpty, faults }] : [];
}

function faultsOf({ findings }: Read): readonly Finding[] {
  return findings.filter((f) => f.severity === 'error' && RULES.has(f.rule));
}

/** Whether what stands at a path of a text, if anything does, has a fault in it. */
export function hides({ tree, findings }: Read): (path: readonly string[]) => boolean {
  const faults = faultsOf({ tree, findings }).map((f) => tree.locate(f.span).start);
  return (path) => {
    if (faults.length === 0) return false;
    let node: TextNode | undefined = tree.root;
    for (const key of path) {
      const found = entry(node, key);
      // An entry above it that is no list of names hides all that it would have.
      if (!found) return node !== tree.root && node?.type !== 'map' && isIn(node, tree, faults);
      if (path.at(-1) === key) return faults.some((at) => within(tree, found.span, at));
      node = found.value;
    }
    return false;
  };
}

function isIn(node: TextNode | undefined, tree: TextTree, faults: readonly number[]): boolean {
  return node === undefined || faults.some((at) => within(tree, node.span, at));
}

function within(tree: TextTree, span: Parameters<TextTree['locate']>[0], at: number): boolean {
  const { start, end } = tree.locate(span);
  return at >= start && at <= end;
}

/** Without what only one side says, where the other says something that cannot be read. */
export function comparable(
  found: readonly Difference[],
  isHidden: (side: Unread['side'], difference: Difference) => boolean,
): readonly Difference[] {
  return found.filter(
    (d) => !(d.before === undefined && isHidden('before', d)) && !(d.after === undefined && isHidden('after', d)),
  );
}

/** `line 3 of the old text cannot be read: …`. */
export function unreadTexts(
  unread: readonly Unread[] = [],
): readonly { readonly text: string; readonly at: Unread['side']; readonly of: Finding }[] {
  return unread.flatMap(({ side, faults }) =>
    faults.map(({ line, message, finding }) => ({
      text: `line ${line} of the ${OLD[side]} text cannot be read: ${message}`,
      at: side,
      of: finding,
    })),
  );
}
const OLD = { before: 'old', after: 'new' } as const;

/** In the place of a count of changes; undefined where something was compared. */
export function unreadVerdict(unread: readonly Unread[] = []): string | undefined {
  const [first, ...more] = unread.filter((u) => u.whole);
  if (!first) return undefined;
  const which = more.length > 0 ? 'neither text can be read' : `the ${OLD[first.side]} text cannot be read`;
  return `${which}: nothing of it is compared`;
}

export function unreadJson(unread: readonly Unread[]): object {
  return Object.fromEntries(
    unread.map(({ side, whole, faults }) => [
      OLD[side],
      { whole, faults: faults.map(({ line, message }) => ({ line, message })) },
    ]),
  );
}
