/** Hovers on threads, clearances and recesses: the numbers that a screw's name stands for, with their tables. */
import { clearanceLines, recessLines, threadLines } from '../report/screws';
import { messageMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import type { PartSnapshot } from './snapshot';

/** On a thread, or where a screw is named: the numbers that it stands for, and their tables. */
export function screwText({ checked }: PartSnapshot, cursor: Cursor): string[] {
  const [section, name, field] = cursor.path;
  const hole = section === 'features' ? checked.part.featureByName.get(String(name)) : undefined;
  if (hole?.kind !== 'hole' || cursor.onKey || cursor.path.length !== 3) return [];
  const lines =
    field === 'thread' || field === 'thread-depth'
      ? threadLines(hole, checked)
      : field === 'clearance'
        ? clearanceLines(hole)
        : field === 'counterbore' || field === 'countersink'
          ? [...recessLines(hole, field), ...(hole.clearance?.span === hole[field]?.span ? clearanceLines(hole) : [])]
          : [];
  return lines.length > 0 ? [lines.map((l) => `- ${messageMarkdown(l)}`).join('\n')] : [];
}
