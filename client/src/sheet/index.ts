/** Showing the sheet beside the text, and printing it. */
import { commands, type Disposable, type ExtensionContext, type LogOutputChannel, Uri } from 'vscode';
import { inView, singlePanel } from '../beside/single';
import type { ServerLink } from '../server-link';
import { SHEET_VIEW, SheetPanel } from './panel';
import { printSheet } from './print';

export function registerSheet(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  const single = singlePanel({
    type: SHEET_VIEW,
    title: 'Set-up sheet',
    language: 'scribeline-part',
    make: (panel) => new SheetPanel({ panel, context, link, log }),
  });
  return [
    commands.registerCommand('scribeline.showSheet', single.open),
    commands.registerCommand('scribeline.printSheet', (part?: unknown, to?: unknown) => {
      const of = part instanceof Uri && part.path.includes('.part.') ? part : (inView() ?? single.current?.uri);
      return printSheet(link, of, to instanceof Uri ? to : undefined);
    }),
    single.serializer,
  ];
}
