/** The rules' pages: Markdown files that come with the extension, one a rule, shown in the editor's own preview. */
import { commands, FileType, Uri, workspace } from 'vscode';

export function pagesFolder(extension: Uri): Uri {
  return Uri.joinPath(extension, 'schemas', 'rules');
}

/** Names of all rules that have a page, in order. */
export async function ruleNames(extension: Uri): Promise<string[]> {
  const folder = pagesFolder(extension);
  const names: string[] = [];
  for (const [topic, type] of await workspace.fs.readDirectory(folder)) {
    if (type !== FileType.Directory) continue;
    for (const [file] of await workspace.fs.readDirectory(Uri.joinPath(folder, topic))) {
      if (file.endsWith('.md')) names.push(`${topic}/${file.slice(0, -3)}`);
    }
  }
  return names.sort();
}

/** Opens a rule's page; answers false when there is none by that name. */
export async function openRulePage(extension: Uri, rule: string): Promise<boolean> {
  if (!/^[a-z0-9-]+\/[a-z0-9-]+$/.test(rule)) return false;
  const page = Uri.joinPath(pagesFolder(extension), `${rule}.md`);
  try {
    await workspace.fs.stat(page);
  } catch {
    return false;
  }
  await commands.executeCommand('markdown.showPreviewToSide', page);
  return true;
}
