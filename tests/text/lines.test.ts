/** Line/character places against `vscode-languageserver-textdocument`, which editors' servers count with. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { linesOf } from '../../server/src/text/lines';

describe('line table', () => {
  it('counts lines of all three line ends', () => {
    const lines = linesOf('a\nb\r\nc\rd');
    assert.equal(lines.count, 4);
    assert.deepEqual(lines.position(6), { line: 3 - 1, character: 1 });
    assert.deepEqual(lines.position(7), { line: 3, character: 0 });
  });

  it('counts a character outside the basic plane as two', () => {
    const lines = linesOf('x: 😀 # y\n');
    assert.deepEqual(lines.position(5), { line: 0, character: 5 });
    assert.equal(lines.offset({ line: 0, character: 6 }), 6);
  });

  it('answers the end of the line for places beyond it and inside its end', () => {
    const lines = linesOf('ab\r\ncd\r\n');
    assert.equal(lines.offset({ line: 0, character: 99 }), 2);
    assert.deepEqual(lines.position(3), { line: 0, character: 2 });
    assert.equal(lines.offset({ line: 9, character: 0 }), 8);
    assert.equal(lines.offset({ line: -1, character: 0 }), 0);
    assert.deepEqual(lines.position(-5), { line: 0, character: 0 });
    assert.deepEqual(lines.position(99), { line: 2, character: 0 });
  });

  it('works on the empty text', () => {
    const lines = linesOf('');
    assert.equal(lines.count, 1);
    assert.deepEqual(lines.position(0), { line: 0, character: 0 });
    assert.equal(lines.offset({ line: 0, character: 4 }), 0);
  });

  it('agrees with the protocol library at every offset', () => {
    const text = fc
      .array(fc.constantFrom('a', ' ', '\n', '\r\n', '\r', '😀', 'é', '\ud83d', '\u2028'), { maxLength: 30 })
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(text, (t) => {
        const lines = linesOf(t);
        const document = TextDocument.create('file:///x', 'yaml', 1, t);
        assert.equal(lines.count, document.lineCount);
        for (let offset = 0; offset <= t.length; offset++) {
          const position = lines.position(offset);
          assert.deepEqual(position, document.positionAt(offset));
          assert.equal(lines.offset(position), document.offsetAt(position));
        }
        for (const position of [
          { line: 1, character: 50 },
          { line: 40, character: 0 },
        ]) {
          assert.equal(lines.offset(position), document.offsetAt(position));
        }
      }),
      { seed: 11, numRuns: 400 },
    );
  });
});
