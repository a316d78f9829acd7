/** Showing the part view beside the text. */
import { commands, type Disposable, type ExtensionContext, type LogOutputChannel } from 'vscode';
import { uriFrom } from '../../view/messages';
import { singlePanel } from '../beside/single';
import type { ServerLink } from '../server-link';
import { PartView, VIEW_TYPE } from './panel';

export function registerPartView(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  const single = singlePanel({
    type: VIEW_TYPE,
    title: 'Part view',
    language: 'scribeline-part',
    make: (panel) => new PartView({ panel, context, link, log }),
    keptIn: uriFrom,
  });
  return [
    commands.registerCommand('scribeline.showPartView', single.open),
    commands.registerCommand('scribeline.stepThroughPlan', (part?: unknown, setup?: unknown) => {
      single.open(part);
      single.current?.stepThroughPlan(typeof setup === 'number' ? setup : 0);
    }),
    single.serializer,
  ];
}
