/** The commands that a person calls from the palette, a menu or a link. Every one is declared in package.json. */
import { commands, type Disposable, type ExtensionContext, languages, Uri, window } from 'vscode';
import { isOurs } from './documents';
import { exportPart } from './export-part';
import { importTools } from './import-tools';
import { newJob } from './new-job';
import { newPart } from './new-part';
import { newRecord } from './new-record';
import { newShop } from './new-shop';
import { inform, warn } from './notices';
import { openRulePage, ruleNames } from './rule-pages';
import type { ServerLink } from './server-link';

export function registerCommands(context: ExtensionContext, link: ServerLink): Disposable[] {
  return [
    commands.registerCommand('scribeline.explainRule', (rule?: unknown) => explainRule(context.extensionUri, rule)),
    commands.registerCommand('scribeline.restartServer', () => link.restart()),
    commands.registerCommand('scribeline.newPart', (folder?: Uri) => newPart(link, folder)),
    commands.registerCommand('scribeline.newShop', (folder?: Uri) => newShop(context.extensionUri, folder)),
    commands.registerCommand('scribeline.newJob', (folder?: Uri) => newJob(folder)),
    commands.registerCommand('scribeline.newRecord', (part?: Uri) => newRecord(link, part)),
    commands.registerCommand('scribeline.importTools', (shop?: Uri, list?: unknown) =>
      importTools(link, shop, list instanceof Uri ? list : undefined),
    ),
    commands.registerCommand('scribeline.exportPart', (part?: Uri, to?: unknown) =>
      exportPart(link, part, to instanceof Uri ? to : undefined),
    ),
    commands.registerCommand('scribeline.exportDrawing', (part?: Uri, to?: unknown) =>
      exportPart(link, part, to instanceof Uri ? to : undefined, true),
    ),
    commands.registerCommand('scribeline.fixAll', fixAll),
    commands.registerCommand('scribeline.showLog', () => link.showLog()),
  ];
}

/** The rule given, else that of the finding at the cursor, else one chosen from the list. */
async function explainRule(extension: Uri, given: unknown): Promise<void> {
  const rule = typeof given === 'string' ? given : (ruleAtCursor() ?? (await chooseRule(extension)));
  if (rule === undefined) return;
  if (!(await openRulePage(extension, rule))) void warn(`There is no page for a rule “${rule}”.`);
}

function ruleAtCursor(): string | undefined {
  const editor = window.activeTextEditor;
  if (!editor || !isOurs(editor.document.languageId)) return undefined;
  const here = languages
    .getDiagnostics(editor.document.uri)
    .filter((d) => d.source === 'scribeline' && d.range.contains(editor.selection.active));
  // Errors first: of several findings at one place that is the one asked about.
  const code = here.sort((a, b) => a.severity - b.severity)[0]?.code;
  const value = typeof code === 'object' ? code.value : code;
  return typeof value === 'string' ? value : undefined;
}

async function chooseRule(extension: Uri): Promise<string | undefined> {
  return window.showQuickPick(ruleNames(extension), { placeHolder: 'Which rule?', matchOnDescription: true });
}

/** Applies the safe fixes of the document in view: those that leave the part what its author meant. */
async function fixAll(): Promise<void> {
  const editor = window.activeTextEditor;
  if (!editor || !isOurs(editor.document.languageId)) {
    void inform('Open a part, shop or job file first.');
    return;
  }
  await commands.executeCommand('editor.action.sourceAction', { kind: 'source.fixAll.scribeline', apply: 'first' });
}
