/** What layout finds of a text on the way down: edits, and where its lines go. */
import type { TextEdit, TextTree } from '../tree';

export interface Layout {
  /** Blanks a level. */
  readonly step: number;
  /** Keys whose entries stand on lines of their own, be they written in braces. */
  readonly open: readonly string[];
}

/** What was found on the way down. */
export interface Plan {
  readonly tree: TextTree;
  readonly layout: Layout;
  readonly edits: TextEdit[];
  /** By the offset at which a line begins that an entry or an item begins: its column now, and its column to be. */
  readonly columns: Map<number, readonly [was: number, is: number]>;
  /** Line starts whose blanks are settled: of lines inside braces and texts of several lines. */
  readonly taken: Set<number>;
  /** From, to: texts of several lines, whose ends of lines belong to them. */
  readonly kept: (readonly [number, number])[];
}

export function lineAt(text: string, at: number): number {
  const start = at <= 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1;
  return start === 0 && text.charCodeAt(0) === 0xfeff ? 1 : start;
}
