/** Hovers on threads, clearances and recesses: the numbers that a screw's name stands for, with their tables. */

import type { Hole } from '../model/feature-kinds/hole';
import { bossThreadLines, clearanceLines, recessLines, threadLines } from '../report/screws';
import { messageMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import type { PartSnapshot } from './snapshot';

/** On a thread, or where a screw is named: the numbers that it stands for, and their tables. */
export function screwText({ checked }: PartSnapshot, cursor: Cursor): string[] {
  const [section, name, field] = cursor.path;
  const found = section === 'features' ? checked.part.featureByName.get(String(name)) : undefined;
  if (cursor.onKey || cursor.path.length !== 3 || !found) return [];
  const isThread = field === 'thread' || field === 'thread-depth';
  const lines =
    found.kind === 'hole' ? holeLines(found, field, checked) : isThread ? bossThreadLines(found, checked) : [];
  return lines.length > 0 ? [lines.map((l) => `- ${messageMarkdown(l)}`).join('\n')] : [];
}

function holeLines(hole: Hole, field: unknown, checked: PartSnapshot['checked']): readonly string[] {
  return field === 'thread' || field === 'thread-depth'
    ? threadLines(hole, checked)
    : field === 'clearance'
      ? clearanceLines(hole)
      : field === 'counterbore' || field === 'countersink'
        ? [...recessLines(hole, field), ...(hole.clearance?.span === hole[field]?.span ? clearanceLines(hole) : [])]
        : [];
}
