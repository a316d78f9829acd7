/** Starting a part: asks for its name, the piece it is cut from and what it is like; writes a file that is clean and planned, and opens it. */
import { commands, type QuickPickItem, QuickPickItemKind, Uri, window } from 'vscode';
import {
  AT_HAND,
  type AtHandAnswer,
  STARTER,
  type StarterAnswer,
  type StarterParams,
  TEMPLATES,
  type Template,
} from '../../server/src/service/starter/protocol';
import { askName, begin, folderInView, isThere } from './new-document';
import { busyAlong, fail, failed, inform } from './notices';
import type { ServerLink } from './server-link';

export async function newPart(link: ServerLink, folder?: Uri): Promise<void> {
  const where = folder ?? folderInView();
  const name = await askName('New part (1 of 3)', 'Name of the part', 'bearing-block');
  if (name === undefined) return;
  const file = `${name}.part.yaml`;
  if (where && (await isThere(Uri.joinPath(where, file)))) return begin(where, file, '');
  const uri = (where ? Uri.joinPath(where, file) : Uri.from({ scheme: 'untitled', path: file })).toString();
  try {
    const atHand = await link.request<AtHandAnswer | null>(AT_HAND, { uri });
    const piece = await askPiece(atHand);
    const template = piece && (await askTemplate());
    if (!piece || !template) return;
    const params: StarterParams = { uri, name, template, ...(piece.at !== undefined && { piece: piece.at }) };
    const made = await busyAlong('Starting the part: checked and planned by your shop', (_, token) =>
      link.request<StarterAnswer | null>(STARTER, params, token),
    );
    if (!made) fail(`${file} was not begun: the shop’s file was changed meanwhile.`);
    else await show(where, file, made);
  } catch (error) {
    failed(`${file} was not begun`, error);
  }
}

/** What was begun is seen: the picture beside the text, and the plan above it. */
async function show(folder: Uri | undefined, file: string, { newText, left, isPlanned }: StarterAnswer): Promise<void> {
  await begin(folder, file, newText);
  // The plan lies behind the picture: what was made is looked at first.
  if (isPlanned) await commands.executeCommand('scribeline.planSetups');
  await commands.executeCommand('scribeline.showPartView');
  if (left.length > 0) void inform(`Left out, as your shop cannot make it of this piece: ${left.join(', ')}.`);
}

interface Piece extends QuickPickItem {
  /** Its place in the list; undefined for none of the rack. */
  readonly at?: number;
}

function askPiece(atHand: AtHandAnswer | null): Thenable<Piece | undefined> {
  const pieces = (atHand?.pieces ?? []).map(({ label, detail }, at) => ({ label, description: detail, at }));
  const none = { label: 'another block', description: 'of exactly the part’s own size' };
  const rows: Piece[] = [
    { label: `at hand in ${atHand?.shop ?? 'the shop'}`, kind: QuickPickItemKind.Separator },
    ...pieces,
    { label: 'not at hand', kind: QuickPickItemKind.Separator },
    none,
  ];
  return window.showQuickPick(rows, {
    title: 'New part (2 of 3): what is it cut from?',
    placeHolder: 'A bar or an offcut: type a size or a material',
    matchOnDescription: true,
    ignoreFocusOut: true,
  });
}

async function askTemplate(): Promise<Template | undefined> {
  const rows = Object.entries(TEMPLATES).map(([name, what]) => ({
    label: name.replaceAll('-', ' '),
    description: what,
    template: name as Template,
  }));
  const chosen = await window.showQuickPick(rows, {
    title: 'New part (3 of 3): what is it like?',
    placeHolder: 'Sizes follow the piece, screws and drills the shop',
    ignoreFocusOut: true,
  });
  return chosen?.template;
}
