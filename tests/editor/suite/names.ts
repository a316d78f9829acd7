/** Names: the outline shows them, a jump finds them across documents, a rename changes every mention. */
import { strict as assert } from 'node:assert';
import { commands, type DocumentSymbol, type Location, type LocationLink, type WorkspaceEdit, workspace } from 'vscode';
import { file, findings, ofRule, putAway, settled, show, within } from './editor';
import { screenshot } from './person';

function placeOf(found: Location | LocationLink) {
  return 'targetUri' in found
    ? { uri: found.targetUri, range: found.targetSelectionRange ?? found.targetRange }
    : { uri: found.uri, range: found.range };
}

describe('names', () => {
  afterEach(putAway);

  it('show in the outline, features by kind', async () => {
    const { document } = await show('bearing-block.part.yaml');
    const symbols = await settled(
      () => commands.executeCommand<DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', document.uri),
      (found) => found?.length > 0,
    );
    const features = symbols.find((s) => s.name === 'features');
    assert.deepEqual(
      features?.children.map((s) => s.name),
      ['bearing-seat', 'mount'],
    );
    assert.match(features!.children[1]!.detail, /hole/);
    assert.equal(document.getText(features!.children[1]!.selectionRange), 'mount');
  });

  it('lead from a part to the tool in the shop file', async () => {
    const { document } = await show('bearing-block.part.yaml');
    const found = await settled(
      () =>
        commands.executeCommand<(Location | LocationLink)[]>(
          'vscode.executeDefinitionProvider',
          document.uri,
          within(document, 'bearing-seat: em-10'),
        ),
      (all) => all?.length > 0,
    );
    const { uri, range } = placeOf(found[0]!);
    assert.equal(uri.path, file('campus.shop.yaml').path);
    const shop = await workspace.openTextDocument(uri);
    assert.equal(shop.getText(range), 'em-10');
  });

  it('lead from a part to its shop', async () => {
    const { document } = await show('bearing-block.part.yaml');
    const at = within(document, 'shop: campus.shop');
    const found = await settled(
      () => commands.executeCommand<(Location | LocationLink)[]>('vscode.executeDefinitionProvider', document.uri, at),
      (all) => all?.length > 0,
    );
    assert.equal(placeOf(found[0]!).uri.path, file('campus.shop.yaml').path);
  });

  it('are found wherever they are mentioned', async () => {
    const { document } = await show('bearing-block.part.yaml');
    const found = await settled(
      () =>
        commands.executeCommand<Location[]>(
          'vscode.executeReferenceProvider',
          document.uri,
          within(document, '  mount'),
        ),
      (all) => all?.length > 0,
    );
    assert.deepEqual(
      found.map(({ range }) => document.getText(range)),
      ['mount', 'mount', 'mount'],
    );
  });

  it('are changed everywhere by a rename, and nothing else is', async () => {
    const { document } = await show('bearing-block.part.yaml');
    const before = document.getText();
    const edit = await settled(
      () =>
        commands.executeCommand<WorkspaceEdit>(
          'vscode.executeDocumentRenameProvider',
          document.uri,
          within(document, '  bearing-seat'),
          'seat',
        ),
      (made) => made?.size > 0,
    );
    assert.ok(await workspace.applyEdit(edit));
    assert.equal(document.getText(), before.replaceAll('bearing-seat', 'seat'));
    await findings(document, (d) => ofRule(d, 'form/unknown-name').length === 0, 'a name was left behind');
    await screenshot('after-rename');
    await commands.executeCommand('undo');
    assert.equal(document.getText(), before);
  });
});
