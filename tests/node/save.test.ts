/** Saving on a real disk: what is kept, what is followed, and what is left and said. */
import assert from 'node:assert/strict';
import {
  chmodSync,
  chownSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { DISK, type Disk } from '../../server/src/node/disk';
import { Gate } from '../../server/src/node/gate';
import { save } from '../../server/src/node/save';
import { contentsOf, dropFolder, makeFolder, run, WRITERS } from './writers';

const [PLAN, FIX] = WRITERS as [(typeof WRITERS)[number], (typeof WRITERS)[number]];
const FOOT = PLAN.files['foot.part.yaml']!;
const SPARE = FIX.files['foot.part.yaml']!;

let folder: string;
const at = (name: string) => join(folder, name);
const text = (name: string) => readFileSync(at(name), 'utf8');
const BOTH = [
  { ...PLAN, text: FOOT },
  { ...FIX, text: SPARE },
];

describe('saving', function () {
  this.timeout(120_000);
  beforeEach(() => {
    folder = makeFolder({});
  });
  afterEach(() => dropFolder(folder));

  for (const { name, words, text: old } of BOTH) {
    describe(name, () => {
      const asked = (what = 'foot.part.yaml', cwd = folder) => run([words[0]!, what, words[2]!], cwd);
      const leaves = async (said: RegExp, what?: string, cwd?: string) => {
        const before = contentsOf(folder);
        const { status, err } = await asked(what, cwd);
        assert.deepEqual(contentsOf(folder), before);
        assert.match(err, said);
        assert.equal(status, 2, err);
      };

      it('keeps the mode, and the owner where it may', async () => {
        writeFileSync(at('foot.part.yaml'), old);
        chmodSync(at('foot.part.yaml'), 0o640);
        const root = process.getuid?.() === 0;
        if (root) chownSync(at('foot.part.yaml'), 1234, 2345);
        await asked();
        const { mode, uid, gid } = statSync(at('foot.part.yaml'));
        assert.notEqual(text('foot.part.yaml'), old);
        assert.equal(mode & 0o7777, 0o640);
        if (root) assert.deepEqual([uid, gid], [1234, 2345]);
      });

      it('keeps line ends and the mark of byte order', async () => {
        writeFileSync(at('foot.part.yaml'), old);
        await asked();
        const plain = text('foot.part.yaml');
        assert.notEqual(plain, old);
        for (const mark of ['', '\ufeff']) {
          writeFileSync(at('foot.part.yaml'), mark + old.replaceAll('\n', '\r\n'));
          await asked();
          assert.equal(text('foot.part.yaml'), mark + plain.replaceAll('\n', '\r\n'));
        }
      });

      it('writes what a link leads to, inside the folder that was named; the link stays one', async () => {
        mkdirSync(at('deep'));
        writeFileSync(at('deep/real.part.yaml'), old);
        symlinkSync('deep/real.part.yaml', at('foot.part.yaml'));
        const { err } = await asked();
        assert.equal(readlinkSync(at('foot.part.yaml')), 'deep/real.part.yaml');
        assert.notEqual(text('deep/real.part.yaml'), old);
        assert.match(err, /written/);
      });

      it('writes nothing outside, whichever way a link leads there', async () => {
        mkdirSync(at('mine/in'), { recursive: true });
        writeFileSync(at('foot.part.yaml'), old);
        symlinkSync('../foot.part.yaml', at('mine/foot.part.yaml'));
        symlinkSync('../..', at('mine/in/up'));
        await leaves(/outside the folders that were named/, '.', at('mine'));
        await leaves(/outside the folders that were named/, at('mine/foot.part.yaml'), at('beside'));
        await leaves(
          /outside the folders that were named/,
          'in/up/foot.part.yaml'.replace('up/', 'up/mine/'),
          at('mine'),
        );
        // Named itself, it is written.
        assert.ok((await asked('../foot.part.yaml', at('mine'))).status < 2);
        assert.notEqual(text('foot.part.yaml'), old);
      });

      it('leaves a file that has several names', async () => {
        writeFileSync(at('foot.part.yaml'), old);
        linkSync(at('foot.part.yaml'), at('beside/other-name'));
        await leaves(/foot\.part\.yaml has 2 names on this disk/);
      });

      it('counts what a killed run left for no name, and takes it away', async () => {
        writeFileSync(at('foot.part.yaml'), old);
        linkSync(at('foot.part.yaml'), at('.scribeline-0123456789abcdef.tmp'));
        writeFileSync(at('.scribeline-fedcba9876543210.tmp'), 'of another file');
        const { err } = await asked();
        assert.match(err, /written/);
        const left = readdirSync(folder).filter((n) => n.startsWith('.'));
        assert.deepEqual(left, ['.scribeline-fedcba9876543210.tmp']);
      });

      it('leaves a file that is write-protected, for an administrator too', async () => {
        writeFileSync(at('foot.part.yaml'), old);
        chmodSync(at('foot.part.yaml'), 0o444);
        await leaves(/foot\.part\.yaml is write-protected/);
      });

      it('writes a file whose name is as long as names can be', async () => {
        const long = `${'a'.repeat(255 - '.part.yaml'.length)}.part.yaml`;
        writeFileSync(at(long), old);
        await asked(long);
        assert.notEqual(text(long), old);
      });
    });
  }

  describe('one file', () => {
    const bytes = Buffer.from('new');
    const old = Buffer.from('old');
    const over = (disk: Disk = DISK) => save({ path: at('a.txt'), bytes, over: old }, new Gate([folder], disk), disk);
    /** Something happens to the file at the moment before the new one takes its place. */
    const meanwhile = (happens: () => void): Disk => ({
      ...DISK,
      open: async (...args) => {
        const file = await DISK.open(...args);
        if (args[1] === 'wx') happens();
        return file;
      },
    });
    beforeEach(() => writeFileSync(at('a.txt'), old));

    it('is written where it is still what was judged', async () => {
      assert.equal(await over(), undefined);
      assert.equal(text('a.txt'), 'new');
    });

    for (const [what, happens] of Object.entries<() => void>({
      'was changed': () => writeFileSync(at('a.txt'), 'old!'),
      'was changed, as long as before': () => writeFileSync(at('a.txt'), 'OLD'),
      'was replaced by one like it': () => {
        writeFileSync(at('b.txt'), old);
        renameSync(at('b.txt'), at('a.txt'));
      },
      'was taken away': () => rmSync(at('a.txt')),
      'became a link': () => {
        renameSync(at('a.txt'), at('c.txt'));
        symlinkSync('c.txt', at('a.txt'));
      },
      'got another name': () => linkSync(at('a.txt'), at('d.txt')),
    }))
      it(`is left where it ${what} meanwhile`, async () => {
        let then: Map<string, string> | undefined;
        const disk = meanwhile(() => {
          happens();
          then = new Map([...contentsOf(folder)].filter(([name]) => !name.endsWith('.tmp')));
        });
        assert.match((await over(disk)) ?? '', /changed meanwhile: nothing was written/);
        assert.deepEqual(contentsOf(folder), then, 'as whoever changed it left it');
      });

    it('is made only where nothing is, by one of many at once', async () => {
      const all = await Promise.all(
        Array.from({ length: 20 }, (_, i) => {
          const saving = { path: at('n.txt'), bytes: Buffer.from(`${i}`.repeat(5000)), over: 'nothing' } as const;
          return save(saving, new Gate([folder]));
        }),
      );
      assert.equal(all.filter((why) => why === undefined).length, 1);
      assert.equal(text('n.txt'), `${all.indexOf(undefined)}`.repeat(5000));
      assert.ok(
        all.every((why) => why === undefined || /already there/.test(why)),
        all.join(),
      );
      assert.ok(readdirSync(folder).every((name) => !name.startsWith('.')));
    });

    it('is made on a disk without second names too, and never over another', async () => {
      const plain: Disk = { ...DISK, link: () => Promise.reject(Object.assign(new Error(), { code: 'EPERM' })) };
      const make = (name: string) => save({ path: at(name), bytes, over: 'nothing' }, new Gate([folder], plain), plain);
      assert.equal(await make('n.txt'), undefined);
      assert.equal(text('n.txt'), 'new');
      assert.match((await make('a.txt')) ?? '', /already there/);
      assert.equal(text('a.txt'), 'old');
      const full: Disk = { ...plain, rename: () => Promise.reject(Object.assign(new Error(), { code: 'EIO' })) };
      const why = await save({ path: at('m.txt'), bytes, over: 'nothing' }, new Gate([folder], full), full);
      assert.match(why ?? '', /the disk failed \(EIO\)/);
      assert.deepEqual(readdirSync(folder).sort(), ['a.txt', 'beside', 'n.txt', 'other.shop.txt']);
    });

    it('is no folder, device or pipe', async () => {
      mkdirSync(at('n.txt'));
      const made = (name: string) => save({ path: name, bytes, over: 'anything' }, new Gate([folder, '/dev']));
      assert.match((await made(at('n.txt'))) ?? '', /no ordinary file/);
      if (process.platform === 'linux') assert.match((await made('/dev/null')) ?? '', /no ordinary file/);
    });
  });

  it('export writes no part over, whatever link leads to it', async () => {
    writeFileSync(at('foot.part.yaml'), FOOT);
    symlinkSync('foot.part.yaml', at('out.dxf'));
    symlinkSync('gone', at('foot.dxf'));
    for (const to of ['out.dxf', 'dxf']) {
      const { status, err } = await run(['export', 'foot.part.yaml', '--to', to, '--face', 'top'], folder);
      assert.equal(status, 2, err);
      assert.match(err, /leads to .*foot\.part\.yaml|is a link to gone, which is not there/);
    }
    assert.equal(text('foot.part.yaml'), FOOT);
    assert.ok(lstatSync(at('out.dxf')).isSymbolicLink() && readlinkSync(at('foot.dxf')) === 'gone');
  });
});
