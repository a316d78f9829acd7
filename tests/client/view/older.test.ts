/** A picture that could not be made is said, in the panel, in words; one that a later edit overtook is not. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { NO_PART, NO_SERVER, pictureTrouble } from '../../../client/src/beside/older';
import { fromHost } from '../../../client/view/messages';

describe('a picture that could not be made', () => {
  const lost = new ResponseError(LSPErrorCodes.RequestFailed, 'The part’s mesh could not be made: it took too long.');

  it('is told with its reason, and that what is shown is older', () => {
    const why = pictureTrouble(lost, true);
    assert.equal(
      why,
      'The part’s mesh could not be made: it took too long. What is shown is older; the next edit tries again.',
    );
    assert.deepEqual(fromHost({ type: 'stale', why }), { type: 'stale', why });
    for (const said of [why!, NO_PART, NO_SERVER]) assert.ok(said.split(' ').length <= 40, said);
  });

  it('calls nothing older where nothing is shown', () => {
    assert.equal(
      pictureTrouble(lost, false),
      'The part’s mesh could not be made: it took too long. The next edit tries again.',
    );
  });

  for (const code of ['ContentModified', 'RequestCancelled', 'ServerCancelled'] as const)
    it(`says nothing where the request was overtaken (${code})`, () => {
      assert.equal(pictureTrouble(new ResponseError(LSPErrorCodes[code], 'x'), true), undefined);
    });

  it('is words whatever it was', () => {
    for (const odd of [undefined, null, 'x', {}, { message: '' }, { message: 3 }, new Error('it broke')])
      assert.match(pictureTrouble(odd, true)!, /^(The picture could not be made|it broke)\. What is shown is older; /);
  });

  it('goes to the panel, which marks the picture as older until the next one', () => {
    const read = (path: string) => readFileSync(join(__dirname, '../../..', path), 'utf8');
    assert.match(read('client/src/beside/panel.ts'), /pictureTrouble\(error, .*\n.*this\.older\(why\)/);
    assert.match(read('client/src/part-view/panel.ts'), /older\(why: string\): void \{\n.*type: 'stale', why/);
    assert.match(read('client/view/view.ts'), /case 'stale':\n\s+document\.body\.classList\.add\('stale'\)/);
  });
});
