/** A stream that takes little at a time, is full for a moment, or fails: all of it is written, or it is known. */
import assert from 'node:assert/strict';
import { Output, type Write } from '../../server/src/node/output';

const failing = (code: string) => Object.assign(new Error(code), { code });

describe('an output', () => {
  const text = 'Größe 14 ⌀ '.repeat(500);

  it('is written to the last byte, however little is taken at a time', () => {
    const taken: Uint8Array[] = [];
    let turn = 0;
    const write: Write = (_, bytes) => {
      if (++turn % 3 === 0) throw failing('EAGAIN');
      const some = bytes.slice(0, 1 + (turn % 700));
      taken.push(some);
      return some.length;
    };
    const output = new Output(1, write);
    output.write(text);
    assert.equal(output.failure, undefined);
    assert.equal(Buffer.concat(taken).toString('utf8'), text);
  });

  for (const [code, says] of [
    ['EPIPE', /reader went away/],
    ['ENOSPC', /no space/],
    ['EIO', /^EIO$/],
  ] as const)
    it(`${code} is known, and nothing is written after it`, () => {
      let calls = 0;
      const output = new Output(1, () => {
        calls++;
        throw failing(code);
      });
      output.write('a');
      output.write('b');
      assert.match(output.failure!, says);
      assert.equal(calls, 1);
    });
});
