/** Planning the set-ups of a part, shown beside its text. */
import { commands, type Disposable, type ExtensionContext, type LogOutputChannel } from 'vscode';
import { singlePanel } from '../beside/single';
import type { ServerLink } from '../server-link';
import { PLAN_VIEW, PlanPanel } from './panel';

export function registerPlan(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  const single = singlePanel({
    type: PLAN_VIEW,
    title: 'Plan',
    language: 'scribeline-part',
    make: (panel) => new PlanPanel({ panel, context, link, log }),
  });
  return [commands.registerCommand('scribeline.planSetups', single.open), single.serializer];
}
