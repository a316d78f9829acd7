/** The language status entry of our documents: whether the checker runs, with the log one click away. */
import { type Disposable, LanguageStatusSeverity, languages } from 'vscode';
import { LANGUAGES } from './documents';
import type { LinkState, ServerLink } from './server-link';

const SHOWN: Readonly<Record<LinkState, { text: string; severity: LanguageStatusSeverity; busy: boolean }>> = {
  starting: { text: 'Scribeline is starting', severity: LanguageStatusSeverity.Information, busy: true },
  running: { text: 'Scribeline checks as you type', severity: LanguageStatusSeverity.Information, busy: false },
  stopped: { text: 'Scribeline is not running', severity: LanguageStatusSeverity.Error, busy: false },
};

export function registerStatus(link: ServerLink): Disposable {
  const item = languages.createLanguageStatusItem(
    'scribeline.status',
    LANGUAGES.map((language) => ({ language })),
  );
  item.name = 'Scribeline';
  const show = (state: LinkState) => {
    Object.assign(item, SHOWN[state]);
    item.command =
      state === 'stopped'
        ? { command: 'scribeline.restartServer', title: 'Start again' }
        : { command: 'scribeline.showLog', title: 'Show log' };
  };
  show(link.state);
  const listener = link.onStateChanged(show);
  return {
    dispose() {
      listener.dispose();
      item.dispose();
    },
  };
}
