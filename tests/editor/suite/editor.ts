/** What a case does with the editor: opens a document, waits for findings, asks the editor's own commands. */
import { strict as assert } from 'node:assert';
import {
  type CodeAction,
  commands,
  type Diagnostic,
  type Hover,
  languages,
  MarkdownString,
  type Position,
  Range,
  type TextDocument,
  type TextEditor,
  Uri,
  window,
  workspace,
} from 'vscode';

/** The extension host is a worker of a page, not a process; `bundle.ts` says it. */
export const IN_BROWSER = process.env.SCRIBELINE_TEST_HOST === 'browser';

/** For a case that asks the pages and nothing that is another in a browser: it is left out there, for time, unless all are asked for. */
export const ofPages = (title: string, test: (this: Mocha.Context) => Promise<void> | void) => {
  if (!IN_BROWSER || process.env.SCRIBELINE_WEB === 'whole') it(title, test);
};

/** A file of the folder under test. */
export function file(path: string): Uri {
  const folder = workspace.workspaceFolders?.[0];
  assert.ok(folder, 'no folder is open');
  return Uri.joinPath(folder.uri, path);
}

/** Opens a file in the window; `at`: what the cursor stands in, put there before this returns. */
export async function show(path: string, at?: (document: TextDocument) => Position): Promise<TextEditor> {
  const document = await workspace.openTextDocument(file(path));
  const place = at?.(document);
  const selection = place && new Range(place, place);
  return window.showTextDocument(document, { preview: false, ...(selection ? { selection } : {}) });
}

/** Puts the file's own text back and closes it, so that cases do not lean on each other. */
export async function putAway(): Promise<void> {
  await commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  await commands.executeCommand('workbench.action.closeAllEditors');
}

/** Waits until the findings of a document are as wanted; fails with what they were at the end. */
export async function findings(
  document: TextDocument,
  wanted: (found: readonly Diagnostic[]) => boolean,
  what: string,
  patienceMs = 10_000,
): Promise<Diagnostic[]> {
  const now = () => languages.getDiagnostics(document.uri);
  await until(
    () => wanted(now()),
    (again) => languages.onDidChangeDiagnostics(again),
    patienceMs,
    () =>
      `${what}; found: ${
        now()
          .map((d) => `${rule(d)} (${d.message})`)
          .join(', ') || 'nothing'
      }`,
  );
  return now();
}

/** Waits until a document's text is another, or patience ends. */
export async function changed(document: TextDocument, before: string, patienceMs: number): Promise<void> {
  const end = Date.now() + patienceMs;
  while (document.getText() === before && Date.now() < end) await new Promise((resolve) => setTimeout(resolve, 50));
}

async function until(
  done: () => boolean,
  listen: (again: () => void) => { dispose(): unknown },
  patienceMs: number,
  why: () => string,
): Promise<void> {
  if (done()) return;
  await new Promise<void>((resolve, reject) => {
    const leave = (end: () => void) => {
      clearTimeout(timer);
      listener.dispose();
      end();
    };
    const timer = setTimeout(() => leave(() => reject(new Error(why()))), patienceMs);
    const listener = listen(() => {
      if (done()) leave(resolve);
    });
  });
}

/** Asks again until the answer is as wanted: a provider that is registered a moment later has nothing to say now. */
export async function settled<T>(
  ask: () => Thenable<T>,
  wanted: (answer: T) => boolean,
  patienceMs = 10_000,
): Promise<T> {
  const end = Date.now() + patienceMs;
  for (;;) {
    const answer = await ask();
    if (wanted(answer) || Date.now() > end) return answer;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

function rule(diagnostic: Diagnostic): string {
  const code = diagnostic.code;
  return String(typeof code === 'object' ? code.value : code);
}

export function ofRule(found: readonly Diagnostic[], name: string): Diagnostic[] {
  return found.filter((d) => rule(d) === name);
}

/** The place right after `text` at its nth appearance. */
export function endOf(document: TextDocument, text: string): Position {
  const at = document.getText().indexOf(text);
  assert.ok(at >= 0, `the document has no “${text}”`);
  return document.positionAt(at + text.length);
}

export function within(document: TextDocument, text: string): Position {
  return endOf(document, text).translate(0, -1);
}

export async function hoverText(document: TextDocument, at: Position): Promise<string> {
  const hovers = await commands.executeCommand<Hover[]>('vscode.executeHoverProvider', document.uri, at);
  const parts = hovers.flatMap((hover) => hover.contents);
  return parts.map((p) => (p instanceof MarkdownString || typeof p === 'object' ? p.value : p)).join('\n\n');
}

/** The quick fixes offered at a place, worked out in full. */
export function quickFixes(document: TextDocument, range: Range): Thenable<CodeAction[]> {
  return commands.executeCommand('vscode.executeCodeActionProvider', document.uri, range, 'quickfix', 20);
}
