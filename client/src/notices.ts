/** The one way to a window's message: what a part or a file says in it is words, never a link that runs something. */
import { type CancellationToken, ProgressLocation, window } from 'vscode';
import { notice } from '../../server/src/text/shown';

export function inform<T extends string>(message: string, ...choices: T[]): Thenable<T | undefined> {
  return window.showInformationMessage(notice(message), ...choices);
}

export function warn<T extends string>(message: string, ...choices: T[]): Thenable<T | undefined> {
  return window.showWarningMessage(notice(message), ...choices);
}

export function fail(message: string): void {
  void window.showErrorMessage(notice(message));
}

/** A failure as a person is told of it: what was not done, and why. */
export function failed(what: string, error: unknown): void {
  fail(`${what}: ${error instanceof Error ? error.message : String(error)}`);
}

/** Shown while something takes its time. */
export function busy<T>(title: string, work: () => Promise<T>): Thenable<T> {
  return window.withProgress({ location: ProgressLocation.Notification, title: notice(title) }, work);
}

/** The same with what is done now, and a way to call it off; `step` is a share of the whole. */
export function busyAlong<T>(
  title: string,
  work: (tell: (what: string, step: number) => void, token: CancellationToken) => Promise<T>,
): Thenable<T> {
  const where = { location: ProgressLocation.Notification, title: notice(title), cancellable: true };
  return window.withProgress(where, (progress, token) =>
    work((what, step) => progress.report({ message: notice(what), increment: 100 * step }), token),
  );
}
