/** The difference of two texts, line by line. */
import type { TextEdit } from './tree';

/** The lines that differ, as few edits as a longest common subsequence gives. None where the texts are equal. */
export function lineEdits(before: string, after: string): readonly TextEdit[] {
  const a = before.split(/(?<=\n)/);
  const b = after.split(/(?<=\n)/);
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const was = a.slice(head, a.length - tail);
  const is = b.slice(head, b.length - tail);
  const common = longestCommon(was, is);
  const edits: TextEdit[] = [];
  let offset = a.slice(0, head).join('').length;
  let [i, j] = [0, 0];
  for (const [si, sj] of [...common, [was.length, is.length] as const]) {
    const gone = was.slice(i, si).join('');
    const come = is.slice(j, sj).join('');
    if (gone !== come) edits.push({ start: offset, end: offset + gone.length, newText: come });
    offset += gone.length + (was[si]?.length ?? 0);
    [i, j] = [si + 1, sj + 1];
  }
  return edits;
}

function longestCommon(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const length = Array.from({ length: a.length + 1 }, () => new Int32Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      length[i]![j] = a[i] === b[j] ? length[i + 1]![j + 1]! + 1 : Math.max(length[i + 1]![j]!, length[i]![j + 1]!);
    }
  }
  const pairs: [number, number][] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    if (a[i] === b[j]) pairs.push([i++, j++]);
    else if (length[i + 1]![j]! >= length[i]![j + 1]!) i++;
    else j++;
  }
  return pairs;
}
