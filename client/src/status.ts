/** The language status entry of our documents: whether the checker runs, with the log one click away; and the active part's figures. */
import {
  type Disposable,
  LanguageStatusSeverity,
  languages,
  MarkdownString,
  StatusBarAlignment,
  window,
  workspace,
} from 'vscode';
import type { Figure } from '../../server/src/report/at-hand';
import { label } from '../../server/src/text/shown';
import { LANGUAGES } from './documents';
import { figuresTip } from './figures-tip';
import type { LinkState, ServerLink } from './server-link';

/** The name of the request; `server/src/report/at-hand.ts` has the same. */
const FACTS = 'scribeline/facts';

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

/** In the status bar, in this order; there is room for few words. */
const SHOWN_FIGURES: readonly (readonly [name: string, words: (f: Figure) => string])[] = [
  ['mass', (f) => f.value],
  ['volume', (f) => f.value],
  ['thinnest wall', (f) => `wall ${f.value}`],
  ['cut away', (f) => `${f.value} cut away`],
  ['without', (f) => `without ${f.value}`],
];

/** The active part; while the part view has the keyboard, the one beside it. */
function partInSight() {
  const editor =
    window.activeTextEditor ?? window.visibleTextEditors.find((e) => e.document.languageId === LANGUAGES[0]);
  return editor?.document;
}

/** Asked for after the last key. */
const QUIET_MS = 250;

/** Mass, thinnest wall and what is cut away of the part in view, in the status bar; pressed, it opens the part view. */
export function registerFigures(link: ServerLink): Disposable {
  const item = window.createStatusBarItem('scribeline.figures', StatusBarAlignment.Right, 90);
  item.name = 'Scribeline: part figures';
  item.command = 'scribeline.showPartView';
  let timer: NodeJS.Timeout | undefined;
  let asked = 0;
  const ask = async () => {
    const document = partInSight();
    const mine = ++asked;
    if (document?.languageId !== 'scribeline-part' || link.state !== 'running') return item.hide();
    const figures = await link
      .request<readonly Figure[] | null>(FACTS, { uri: document.uri.toString() })
      .catch(() => null);
    if (mine !== asked) return;
    if (!figures || figures.length === 0) return item.hide();
    item.text = SHOWN_FIGURES.flatMap(([name, words]) => figures.filter((f) => f.name === name).map(words))
      .map(label)
      .join(' · ');
    item.tooltip = new MarkdownString(figuresTip(figures));
    item.accessibilityInformation = { label: figures.map((f) => `${f.name} ${f.value}`).join(', ') };
    item.show();
  };
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(() => void ask(), QUIET_MS);
  };
  const listeners = [
    window.onDidChangeActiveTextEditor(soon),
    workspace.onDidChangeTextDocument(({ document }) => document === partInSight() && soon()),
    link.onStateChanged(soon),
  ];
  soon();
  return {
    dispose() {
      clearTimeout(timer);
      for (const l of listeners) l.dispose();
      item.dispose();
    },
  };
}
