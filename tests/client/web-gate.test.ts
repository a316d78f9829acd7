/** What an editor in a browser reads for the server: plain files of what is open, and nothing through a link. */
import assert from 'node:assert/strict';
import { type Around, whyClosed } from '../../client/web/gate';

const [FILE, FOLDER, LINK] = [1, 2, 64];
const FOLDERS = ['/team', '/team/gimbal', '/team/gimbal/parts', '/team/gimbal/lent'];
const TYPES = new Map<string, number>([
  ...FOLDERS.map((folder): [string, number] => [folder, folder.endsWith('lent') ? FOLDER | LINK : FOLDER]),
  ['/team/gimbal/parts/yoke.part.yaml', FILE],
  ['/team/gimbal/parts/away.part.yaml', FILE | LINK],
  ['/team/gimbal/lent/yoke.part.yaml', FILE],
  ['/team/campus.shop.yaml', FILE],
  ['/team/away.shop.yaml', FILE | LINK],
]);

describe('the gate of an editor in a browser', () => {
  const asked: string[] = [];
  const OUTSIDE: Around = { isKnown: true };
  const why = (path: string, around: Around = { isKnown: true, folder: '/team/gimbal' }) =>
    whyClosed(path, around, async (at) => {
      asked.push(at);
      const type = TYPES.get(at);
      if (type === undefined) throw new Error('FileNotFound');
      return { type };
    });

  it('opens for a file in the folder, looking at what lies between and at nothing above', async () => {
    assert.equal(await why('/team/gimbal/parts/yoke.part.yaml'), undefined);
    assert.deepEqual(asked, ['/team/gimbal/parts', '/team/gimbal/parts/yoke.part.yaml']);
  });

  it('opens for a shop beside the folder that a text names', async () => {
    assert.equal(await why('/team/campus.shop.yaml', OUTSIDE), undefined);
  });

  it('follows no link, wherever it stands on the way', async () => {
    assert.match((await why('/team/gimbal/parts/away.part.yaml')) ?? '', /^is a link/);
    assert.match(
      (await why('/team/gimbal/lent/yoke.part.yaml')) ?? '',
      /^is reached through \/team\/gimbal\/lent, which is a link/,
    );
    assert.match((await why('/team/away.shop.yaml', OUTSIDE)) ?? '', /^is a link/);
  });

  it('is closed for dots and for places where nothing is open', async () => {
    assert.match((await why('/team/gimbal/../../etc/x.shop.yaml')) ?? '', /plain path/);
    assert.match((await why('/team/gimbal/parts/yoke.part.yaml', { isKnown: false })) ?? '', /no folder is open/);
  });

  it('leaves what is not there to whoever reads it', async () => {
    await assert.rejects(why('/team/gimbal/none.part.yaml'), /FileNotFound/);
  });
});
