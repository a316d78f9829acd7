/** The joints of a workspace's jobs that a change of a part reaches. */
import type { PartChange } from '../compare/part';
import { type Touched, touchedBy } from '../compare/touches';
import { resolvePath } from './documents';
import type { Workspace } from './workspace';

/** `isChanged`: whether the part of another file was changed as well; undefined where that is not known. */
export async function touchesOf(
  change: PartChange,
  path: string,
  workspace: Workspace,
  isChanged: (path: string) => Promise<boolean | undefined>,
): Promise<readonly Touched[]> {
  const found: Touched[] = [];
  for (const { path: home, checked, pieces } of await workspace.jobsOf(path)) {
    const { job } = checked;
    const as = job.parts.filter((p) => resolvePath(home, p.spec.name) === path).map((p) => p.name);
    const changed = new Map<string, boolean | undefined>();
    for (const { name, spec } of job.parts) changed.set(name, await isChanged(resolvePath(home, spec.name)));
    found.push(...touchedBy(change, { job, pieces, as }, (name) => changed.get(name)));
  }
  return found;
}
