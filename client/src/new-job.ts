/** Starting a job: asks which of the folder's parts are made together, writes them down, and opens the file. */
import { type Uri, window, workspace } from 'vscode';
import { starterJob } from '../../server/src/service/starter/job';
import { askName, begin, folderInView } from './new-document';

/** Lists that are longer are cut: nobody ticks more. */
const MOST_PARTS = 500;

/** The parts of the folder, all ticked. */
export async function newJob(folder?: Uri): Promise<void> {
  const where = folder ?? folderInView();
  const name = await askName('New job', 'What the parts are made for', 'flight-set');
  if (name === undefined) return;
  const found = where ? await workspace.findFiles('**/*.part.{yaml,yml}', '**/node_modules/**', MOST_PARTS) : [];
  const specs = found.flatMap((uri) => relativeTo(where!, uri) ?? []).sort();
  const chosen =
    specs.length === 0
      ? []
      : await window.showQuickPick(
          specs.map((label) => ({ label, picked: true })),
          { title: 'Which parts are made together?', canPickMany: true, ignoreFocusOut: true },
        );
  if (!chosen) return;
  await begin(
    where,
    `${name}.job.yaml`,
    starterJob(
      name,
      chosen.map(({ label }) => label),
    ),
  );
}

/** A file's path from a folder that it is in. */
function relativeTo(folder: Uri, file: Uri): string | undefined {
  const base = `${folder.path.replace(/\/$/, '')}/`;
  return file.path.startsWith(base) ? file.path.slice(base.length) : undefined;
}
