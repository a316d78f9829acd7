/** Who may choose the shop that judges every part: the user anywhere, a folder only where it is trusted. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { obeyed } from '../../client/src/shop-setting';

describe('the setting for the shop', () => {
  const levels = { globalValue: '/home/me/own.shop.yaml', workspaceValue: 'lent.shop.yaml' };

  it('is the narrowest value in a trusted folder', () => {
    assert.equal(obeyed(levels, true), 'lent.shop.yaml');
    assert.equal(obeyed({ ...levels, workspaceFolderValue: ' near.shop.yaml ' }, true), 'near.shop.yaml');
  });

  it('is the user’s own in any other', () => {
    assert.equal(obeyed(levels, false), '/home/me/own.shop.yaml');
    assert.equal(obeyed({ workspaceValue: 'lent.shop.yaml', workspaceFolderValue: 'x' }, false), '');
  });

  it('may be taken back by a folder that is trusted', () => {
    assert.equal(obeyed({ ...levels, workspaceValue: '' }, true), '');
    assert.equal(obeyed(undefined, true), '');
  });

  it('is asked for nowhere else in the editor’s side', () => {
    const link = readFileSync(join(__dirname, '../../client/src/server-link.ts'), 'utf8');
    assert.match(
      link,
      /obeyed\(workspace\.getConfiguration\('scribeline'\)\.inspect<string>\('shop'\), workspace\.isTrusted\)/,
    );
    assert.doesNotMatch(link, /getConfiguration\('scribeline'\)\.get/);
  });
});
