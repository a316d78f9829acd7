/** Starting a shop: asks what is there, writes a file that is sound as it stands, and opens it. */
import { QuickPickItemKind, Uri, window, workspace } from 'vscode';
import { SHOP_SECTIONS, type ShopEntry, shopEntries, starterShop } from '../../server/src/service/starter/shop';
import { askName, begin } from './new-document';

/** Everything of the everyday shop is ticked; what is not there is unticked. */
export async function newShop(extension: Uri, folder?: Uri): Promise<void> {
  const file = Uri.joinPath(extension, 'schemas', 'everyday.shop.yaml');
  const text = new TextDecoder().decode(await workspace.fs.readFile(file));
  const name = await askName('New shop', 'Name of the workshop', 'campus');
  if (name === undefined) return;
  const entries = shopEntries(text);
  const kept = await window.showQuickPick(rowsOf(entries), {
    title: 'What is there? Untick what is not',
    canPickMany: true,
    matchOnDescription: true,
    ignoreFocusOut: true,
  });
  if (!kept) return;
  const there = new Set(kept.map((row) => row.entry));
  const without = entries.filter((entry) => !there.has(entry));
  await begin(folder, `${name}.shop.yaml`, starterShop(text, name, without));
}

interface Row {
  readonly label: string;
  readonly description?: string;
  readonly kind?: QuickPickItemKind;
  readonly picked?: boolean;
  readonly entry?: ShopEntry;
}

function rowsOf(entries: readonly ShopEntry[]): Row[] {
  return SHOP_SECTIONS.flatMap((section) => [
    { label: section, kind: QuickPickItemKind.Separator },
    ...entries
      .filter((entry) => entry.section === section)
      .map((entry) => ({ label: entry.label, description: entry.detail, picked: true, entry })),
  ]);
}
