/** Which revision, or which other of its kind, a part or a job is compared with: chosen from a list. */
import { type QuickPickItem, type Uri, window, workspace } from 'vscode';
import { REVISIONS, type RevisionsAnswer, type RevisionsParams } from '../../../server/src/service/compare-protocol';
import { line } from '../../../server/src/text/shown';
import type { ServerLink } from '../server-link';
import { kindOf, nameOf, type Sides, sideAt, sidesOf } from './sides';

interface Choice extends QuickPickItem {
  readonly sides?: Sides;
  /** Asks for a file. */
  readonly asks?: true;
}

/** Undefined where nothing was chosen; a sentence where what was chosen will not do. */
export async function chooseSides(link: ServerLink, part: Uri): Promise<Sides | string | undefined> {
  const picked = await window.showQuickPick(choicesFor(link, part), {
    title: `Compare ${nameOf(part)} as it is with`,
    placeHolder: `an earlier revision of it, or another ${kindOf(part)}`,
    matchOnDescription: true,
  });
  if (!picked?.asks) return picked?.sides;
  const files = await window.showOpenDialog({ title: 'Compare with', filters: { 'Parts and jobs': ['yaml', 'yml'] } });
  return files?.[0] && sidesOf(files[0], part);
}

async function choicesFor(link: ServerLink, part: Uri): Promise<readonly Choice[]> {
  const now = sidesOf(part, part);
  if (typeof now === 'string') return [];
  const { after } = now;
  const isOther = (u: Uri) => kindOf(u) === kindOf(part) && u.toString() !== part.toString();
  const open = workspace.textDocuments.map((d) => d.uri).filter(isOther);
  const others = open.flatMap((uri): Choice[] => {
    const sides = uri.scheme === 'git' ? '' : sidesOf(uri, part);
    return typeof sides === 'string' ? [] : [{ label: line(nameOf(uri)), description: 'open', sides }];
  });
  const params: RevisionsParams = { uri: part.toString(), trusted: workspace.isTrusted };
  const answer = await link.request<RevisionsAnswer>(REVISIONS, params);
  const old = 'trouble' in answer ? [] : answer.revisions;
  return [
    ...old.map(
      ({ id, title, when }): Choice => ({
        label: line(title),
        description: `${id.slice(0, 8)}, ${when.slice(0, 10)}`,
        sides: { before: sideAt(part, id), after },
      }),
    ),
    ...others,
    {
      label: 'Another file…',
      asks: true,
      ...('trouble' in answer && { detail: `No revisions to choose from: ${line(answer.trouble)}` }),
    },
  ];
}
