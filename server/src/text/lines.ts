/**
 * Offsets and line/character places, as the language server protocol counts them: lines from 0, characters in UTF-16
 * units from 0, a line ends at `\n`, `\r\n` or a lone `\r`.
 */

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Lines {
  /** How many lines: one more than there are line ends. */
  readonly count: number;
  /** The place of an offset; offsets outside the text answer its nearest end, one inside a line end the line's end. */
  position(offset: number): Position;
  /** The offset of a place; a character beyond the line answers the line's end (before its line end). */
  offset(position: Position): number;
}

/** A line table for one text, built in one pass when it is first asked. */
export function linesOf(text: string): Lines {
  let table: Int32Array | undefined;
  const starts = () => {
    table ??= startsOf(text);
    return table;
  };
  const endOf = (line: number) => {
    let end = starts()[line + 1] ?? text.length;
    if (line + 1 >= starts().length) return end;
    if (text.charCodeAt(end - 1) === LF) end--;
    if (text.charCodeAt(end - 1) === CR && end > starts()[line]!) end--;
    return end;
  };
  return {
    get count() {
      return starts().length;
    },
    position(offset) {
      const at = Math.max(0, Math.min(offset, text.length));
      const line = lineAt(starts(), at);
      return { line, character: Math.min(at, endOf(line)) - starts()[line]! };
    },
    offset({ line, character }) {
      if (line < 0) return 0;
      const start = starts()[line];
      if (start === undefined) return text.length;
      return Math.min(start + Math.max(0, character), endOf(line));
    },
  };
}

const LF = 10;
const CR = 13;

function startsOf(text: string): Int32Array {
  const starts = [0];
  if (!text.includes('\r')) {
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  } else {
    for (let i = 0; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (c === LF || (c === CR && text.charCodeAt(i + 1) !== LF)) starts.push(i + 1);
    }
  }
  return Int32Array.from(starts);
}

/** The last line that starts at or before `offset`. */
function lineAt(starts: Int32Array, offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
