import assert from 'node:assert/strict';
import { foldersUp, kindOf, resolvePath, rootOf } from '../../server/src/service/documents';

describe('documents and their neighbours', () => {
  it('are told apart by file name', () => {
    assert.equal(kindOf('file:///a/yoke.part.yaml'), 'part');
    assert.equal(kindOf('campus.shop.yml'), 'shop');
    assert.equal(kindOf('A.JOB.YAML'), 'job');
    assert.equal(kindOf('part.yaml'), undefined);
    assert.equal(kindOf('yoke.part.yaml.bak'), undefined);
  });

  it('a relative path leads from its file', () => {
    assert.equal(resolvePath('file:///a/b/yoke.part.yaml', '../c.shop.yaml'), 'file:///a/c.shop.yaml');
    assert.equal(resolvePath('file:///a/b/yoke.part.yaml', './c.shop.yaml'), 'file:///a/b/c.shop.yaml');
    assert.equal(resolvePath('/a/b/yoke.part.yaml', '../c.shop.yaml'), '/a/c.shop.yaml');
    assert.equal(resolvePath('parts/yoke.part.yaml', '../c.shop.yaml'), 'c.shop.yaml');
    assert.equal(resolvePath('file:///a/yoke.part.yaml', 'my shop.shop.yaml'), 'file:///a/my%20shop.shop.yaml');
    assert.equal(resolvePath('file:///a/yoke.part.yaml', '../../../../etc/x'), 'file:///etc/x');
    assert.equal(resolvePath('vscode-vfs://host/a/b.part.yaml', 's.shop.yaml'), 'vscode-vfs://host/a/s.shop.yaml');
    assert.equal(resolvePath('/a/b.part.yaml', '/c/s.shop.yaml'), '/c/s.shop.yaml');
    assert.equal(resolvePath('/a/b.part.yaml', 'x\\s.shop.yaml'), '/a/x/s.shop.yaml');
  });

  it('folders are searched upward as far as the root that holds the file', () => {
    assert.deepEqual(foldersUp('file:///w/p/q/a.part.yaml', ['file:///w/p']), ['file:///w/p/q', 'file:///w/p']);
    assert.deepEqual(foldersUp('file:///w/p/a.part.yaml', ['file:///other']), ['file:///w/p', 'file:///w', 'file://']);
    assert.deepEqual(foldersUp('/w/p/a.part.yaml', []), ['/w/p', '/w', '']);
    assert.deepEqual(foldersUp('a.part.yaml', []), ['']);
  });

  it('the innermost of several roots is a file’s own, and a longer name is not inside a shorter one', () => {
    assert.equal(rootOf('file:///w/p/a', ['file:///w', 'file:///w/p/']), 'file:///w/p');
    assert.equal(rootOf('file:///ww/a', ['file:///w']), undefined);
  });
});
