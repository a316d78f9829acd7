/** Hovers on joints: in the job what stands behind one, in a part what a feature meets. */
import { jointLines, metLines } from '../report/joints';
import { jointContext } from '../rules/joints';
import { messageMarkdown } from '../text/markdown';
import { type Cursor, cursorAt } from './cursor';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import type { JobRead, JobSnapshot, PartSnapshot } from './snapshot';

const listed = (lines: readonly string[]) =>
  lines.length > 0 ? [lines.map((l) => `- ${messageMarkdown(l)}`).join('\n')] : [];

/** Anywhere in a joint. */
export function jointText({ checked: { job }, pieces }: JobSnapshot, { path }: Cursor): readonly string[] {
  const joint = path[0] === 'joints' ? job.joints.find((j) => j.name === path[1]) : undefined;
  return joint ? listed(jointLines(joint, jointContext(job, pieces))) : [];
}

/** On a feature of a part, in each job that makes it. */
export function metText(
  { checked, path: home }: PartSnapshot,
  offset: number,
  jobs: readonly JobRead[],
): readonly string[] {
  const { path, onKey } = cursorAt(checked.tree, offset);
  const [section, name, field] = path;
  const isAsked =
    section === 'features' &&
    ((path.length === 2 && onKey) || (path.length === 3 && MEETS.has(String(field)) && !onKey));
  if (!isAsked) return [];
  return jobs.flatMap(({ path: of, checked: { job }, pieces }) => {
    const piece = pieces.find((p) => resolvePath(of, p.entry.spec.name) === keyOf(home));
    return piece ? listed(metLines(piece.entry.name, String(name), jointContext(job, pieces))) : [];
  });
}
/** The fields that say what a hole is for. */
const MEETS: ReadonlySet<string> = new Set(['kind', 'thread', 'clearance', 'diameter', 'counterbore', 'countersink']);
