/**
 * From text to tree.
 */
import { parsePiece } from './piece';
import type { Span, TextTree } from './tree';
import { MESSAGES } from './wording';

/** Characters; a part with a thousand features has a fifth of it. */
export const MAX_LENGTH = 2_000_000;

/** Reads a document. Never throws; what is wrong is in `problems`. `before` lends the blocks that did not change. */
export function readText(text: string, before?: TextTree): TextTree {
  if (before?.text === text) return before;
  const blocks = new Map([['', 0]]);
  const locate = (span: Span) => {
    const at = blocks.get(span.block);
    return at === undefined ? { start: 0, end: 0 } : { start: at + span.from, end: at + span.to };
  };
  if (text.length > MAX_LENGTH) {
    const message = MESSAGES.tooLarge(text.length, MAX_LENGTH);
    return {
      text,
      root: undefined,
      problems: [{ code: 'too-large', message, span: { block: '', from: 0, to: 1 } }],
      blocks,
      locate,
    };
  }
  const piece = parsePiece('', text);
  return { text, root: piece.node?.type === 'map' ? piece.node : undefined, problems: piece.problems, blocks, locate };
}
