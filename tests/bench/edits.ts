/** Each number of a text changed, one by one. */

interface NumberEdit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** Each number of a text, comments and names left out, and what it is changed to: a count by one, a length by a tenth. */
export function numberEdits(text: string): readonly NumberEdit[] {
  const edits: NumberEdit[] = [];
  for (const match of text.matchAll(/(?<![\w.\-#])\d+(?:\.\d+)?(?![\w.-])/g)) {
    const line = text.slice(text.lastIndexOf('\n', match.index) + 1, match.index);
    if (/(^|\s)#/.test(line) || /^\s*(?:part|title|revision|tolerance):/.test(line)) continue;
    const counted = /(?:count|quantity): $/.test(line);
    const value = Number(match[0]) + (counted ? 1 : 0.1);
    edits.push({ start: match.index, end: match.index + match[0].length, newText: String(Number(value.toFixed(4))) });
  }
  return edits;
}

interface Named {
  readonly name: string;
  readonly text: string;
}

export const after = ({ text }: Named, { start, end, newText }: NumberEdit): string =>
  text.slice(0, start) + newText + text.slice(end);

export const named = ({ name, text }: Named, { start, end, newText }: NumberEdit): string =>
  `${name}: ${text.slice(text.lastIndexOf('\n', start) + 1, end).trim()} → ${newText}`;
