/** One document however its name is written, and the text that is there now: unsaved, on disk, or gone. */
import assert from 'node:assert/strict';
import { pathToFileURL } from 'node:url';
import fc from 'fast-check';
import { childOf, keyOf, nameOf } from '../../server/src/service/file-key';
import type { Host } from '../../server/src/service/host';
import { Workspace, type WorkspaceOptions } from '../../server/src/service/workspace';

describe('the key of a document', () => {
  const same: Readonly<Record<string, readonly [string, ...string[]]>> = {
    'a space': ['file:///w/a%20b.shop.yaml', 'file:///w/a b.shop.yaml'],
    brackets: ['file:///w/a(1)[2].shop.yaml', 'file:///w/a%281%29%5B2%5D.shop.yaml', 'file:///w/a(1)%5b2%5d.shop.yaml'],
    'other letters': ['file:///w/w%C3%A4.shop.yaml', 'file:///w/wä.shop.yaml', 'file:///w/w%c3%a4.shop.yaml'],
    'an accent apart': ['file:///w/w%C3%A4.shop.yaml', 'file:///w/wa%CC%88.shop.yaml'],
    'a drive': [
      'file:///c:/w/a.shop.yaml',
      'file:///c%3A/w/a.shop.yaml',
      'file:///C:/w/a.shop.yaml',
      'FILE:///C%3a/w/a.shop.yaml',
    ],
    'signs that need no code': ["file:///w/a'!,;=&+$~.shop.yaml", 'file:///w/a%27%21%2C%3B%3D%26%2B%24%7E.shop.yaml'],
    'a code for a percent sign': ['file:///w/100%25.shop.yaml', 'file:///w/100%.shop.yaml'],
    'a hash and a question mark': ['file:///w/a%23%3F.shop.yaml'],
    'the name of a host': ['vscode-vfs://Host/w/a.shop.yaml', 'vscode-vfs://host/w/a.shop.yaml'],
  };
  for (const [what, [first, ...others]] of Object.entries(same))
    it(`is one for all spellings of ${what}`, () => {
      for (const other of others) assert.equal(keyOf(other), keyOf(first));
      assert.equal(keyOf(keyOf(first)), keyOf(first));
    });

  it('differs where the names do', () => {
    const names = ['a b', 'a%20b', 'a+b', 'A b', 'a/b', 'a%2Fb', 'ab', 'a:b', 'a@b'];
    const keys = names.map((n) => keyOf(`mem:///w/${n.replaceAll('%', '%25')}`));
    assert.equal(new Set(keys).size, names.length);
  });

  it('leaves plain paths and names without slashes alone', () => {
    for (const path of ['/w/a b.shop.yaml', 'a%20b.shop.yaml', 'C:/w/ä.shop.yaml', 'untitled:Untitled-1'])
      assert.equal(keyOf(path), path);
  });

  it('is that of the URL which Node makes of the path (WHATWG URL), and tells the name on disk', () => {
    const name = fc
      .string({ unit: 'binary', minLength: 1, maxLength: 12 })
      .filter((n) => !/[/\\\p{Cc}]|^\.{1,2}$/u.test(n));
    fc.assert(
      fc.property(name, (n) => {
        const whole = n.normalize('NFC').replace(/[\ud800-\udfff]/gu, '\ufffd');
        const key = childOf('file:///w', n);
        assert.equal(keyOf(pathToFileURL(`/w/${whole}`).href), key);
        assert.equal(keyOf(key), key);
        assert.equal(nameOf(key), whole);
      }),
      { seed: 20261129, numRuns: 500 },
    );
  });
});

const PART = 'part: a\nmaterial: aluminium-6061-t6\nbody: { x: 10, y: 10, z: 10 }\n';
const shop = (name: string) => `shop: ${name}\n`;

/** Files that can change, and how often each was read. */
function world(files: Record<string, string>, options: WorkspaceOptions = {}) {
  const reads: string[] = [];
  const plain = (path: string) => decodeURIComponent(path);
  const host: Host = {
    log: () => undefined,
    async read(path) {
      reads.push(plain(path));
      return files[plain(path)];
    },
    async list(folder) {
      const below = Object.keys(files).filter((f) => f.startsWith(`${plain(folder)}/`));
      return below.map((f) => f.slice(plain(folder).length + 1)).filter((f) => !f.includes('/'));
    },
    async documents(folder) {
      return Object.keys(files).filter((f) => f.startsWith(`${plain(folder)}/`));
    },
  };
  const workspace = new Workspace(host, { roots: ['mem:///w'], ...options });
  const judgedBy = async (path: string) => {
    const part = await workspace.snapshot(path);
    assert.ok(part?.kind === 'part');
    return part.checked.shop.builtIn ? 'built in' : (part.checked.shop.unread ?? part.checked.shop.name);
  };
  return { files, reads, workspace, judgedBy };
}

describe('the shop of a part', () => {
  for (const name of ['a b', 'a (1) [2]', 'wä', '100%', 'a#b', "o'clock & co"])
    it(`called ${name}.shop.yaml is found: on disk, by its name, unsaved, and under the client’s own spelling`, async () => {
      const file = `mem:///w/${name}.shop.yaml`;
      const spelled = [
        file,
        `mem:///w/${encodeURIComponent(name)}.shop.yaml`,
        `mem:///w/${[...new TextEncoder().encode(name)].map((b) => `%${b.toString(16)}`).join('')}.shop.yaml`,
      ];
      const { judgedBy, workspace } = world({ [file]: shop('disk') });
      workspace.open('mem:///w/near.part.yaml', PART);
      workspace.open('mem:///w/named.part.yaml', PART.replace('\n', `\nshop: "./${name}.shop.yaml"\n`));
      for (const path of ['mem:///w/near.part.yaml', 'mem:///w/named.part.yaml']) {
        assert.equal(await judgedBy(path), 'disk');
        for (const uri of spelled) {
          if (uri === file && /[%#]/.test(name)) continue; // no URI
          workspace.open(uri, shop('typed'));
          assert.equal(await judgedBy(path), 'typed', uri);
          const snapshot = await workspace.snapshot(spelled[1]!);
          assert.equal(snapshot?.path, uri, 'told under the name that the client gave');
          workspace.close(spelled[2]!);
          assert.equal(await judgedBy(path), 'disk');
        }
      }
    });

  it('that was never saved is gone when it is closed; one that was saved is as on disk', async () => {
    const { judgedBy, workspace, files } = world({});
    workspace.open('mem:///w/p/a.part.yaml', PART);
    workspace.open('mem:///w/p/n.part.yaml', PART.replace('\n', '\nshop: ../new.shop.yaml\n'));
    const both = async () => [await judgedBy('mem:///w/p/a.part.yaml'), await judgedBy('mem:///w/p/n.part.yaml')];
    assert.deepEqual(await both(), ['built in', 'is not there']);
    workspace.open('mem:///w/new.shop.yaml', shop('typed'));
    assert.deepEqual(await both(), ['typed', 'typed']);
    workspace.close('mem:///w/new.shop.yaml');
    assert.deepEqual(await both(), ['built in', 'is not there']);
    workspace.open('mem:///w/new.shop.yaml', shop('typed'));
    files['mem:///w/new.shop.yaml'] = shop('saved');
    workspace.fileChanged('mem:///w/new.shop.yaml');
    assert.deepEqual(await both(), ['typed', 'typed']);
    workspace.close('mem:///w/new.shop.yaml');
    assert.deepEqual(await both(), ['saved', 'saved']);
  });

  it('that is made, changed, renamed or taken away with its folder is told by who watches', async () => {
    const { judgedBy, workspace, files } = world({}, { disk: 'watched' });
    const path = 'mem:///w/p/a.part.yaml';
    workspace.open(path, PART.replace('\n', '\nshop: ../lib/s.shop.yaml\n'));
    const told = async (uri: string, text?: string) => {
      if (text === undefined) for (const f of Object.keys(files)) if (f.startsWith(uri)) delete files[f];
      if (text !== undefined) files[uri] = text;
      return workspace.fileChanged(uri);
    };
    assert.equal(await judgedBy(path), 'is not there');
    assert.ok(await told('mem:///w/lib/s.shop.yaml', shop('one')));
    assert.equal(await judgedBy(path), 'one');
    assert.ok(await told('mem:///w/lib/s.shop.yaml', shop('two')));
    assert.equal(await judgedBy(path), 'two');
    assert.ok(await told('mem:///w/lib'), 'of its folder');
    assert.equal(await judgedBy(path), 'is not there');
    assert.ok(!(await told('mem:///w/dist')), 'nobody looked there');
    workspace.open(path, PART);
    assert.equal(await judgedBy(path), 'built in');
    await told('mem:///w/p/x.shop.yaml', shop('near'));
    assert.equal(await judgedBy(path), 'near');
  });

  it('is read once where changes are told, and anew where nobody tells of them', async () => {
    const path = 'mem:///w/a.part.yaml';
    for (const [disk, roots, isTold] of [
      ['still', [], true],
      ['watched', ['mem:///w'], true],
      ['watched', [], false],
      ['watched', ['mem:///elsewhere'], false],
      ['unwatched', ['mem:///w'], false],
    ] as const) {
      const { judgedBy, workspace, files, reads } = world({ 'mem:///w/s.shop.yaml': shop('one') }, { disk, roots });
      workspace.open(path, PART);
      assert.equal(await judgedBy(path), 'one');
      const before = await workspace.snapshot(path);
      assert.equal(await workspace.snapshot(path), before, 'unchanged is the same object');
      if (isTold) assert.deepEqual(reads, ['mem:///w/s.shop.yaml']);
      files['mem:///w/s.shop.yaml'] = shop('two');
      assert.equal(await judgedBy(path), isTold ? 'one' : 'two', `${disk} ${roots.join()}`);
      delete files['mem:///w/s.shop.yaml'];
      assert.equal(await judgedBy(path), isTold ? 'one' : 'built in');
    }
  });

  it('that cannot be had is told anew where another reason is the same', async () => {
    const files: Record<string, string> = {};
    const { workspace } = world(files);
    const path = 'mem:///w/p/a.part.yaml';
    workspace.open(path, PART.replace('\n', '\nshop: s.shop.yaml\n'));
    const first = (await workspace.snapshot(path))!.findings.map((f) => f.message);
    workspace.open(path, PART.replace('\n', '\nshop: ./s.shop.yaml\n'));
    const then = (await workspace.snapshot(path))!.findings.map((f) => f.message);
    assert.match(first.join(), /`s\.shop\.yaml`/);
    assert.match(then.join(), /`\.\/s\.shop\.yaml`/);
  });
});
