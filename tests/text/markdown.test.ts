import assert from 'node:assert/strict';
import { code, escapeMarkdown, messageMarkdown } from '../../server/src/text/markdown';

describe('text in hovers is text', () => {
  it('markup in a name stays letters', () => {
    assert.equal(escapeMarkdown('[x](command:run)'), '\\[x\\](command:run)');
    assert.equal(escapeMarkdown('<img src=x>'), '&lt;img src=x&gt;');
    assert.equal(escapeMarkdown('a_b*c'), 'a\\_b\\*c');
  });
  it('code holds any backticks', () => {
    assert.equal(code('a`b'), '``a`b``');
    assert.equal(code('`'), '`` ` ``');
    assert.equal(code('plain'), '`plain`');
  });
  it('names in messages stay code, the rest is escaped', () => {
    assert.equal(
      messageMarkdown('The wall between `a_b` and <c> is 0.4 mm.'),
      'The wall between `a_b` and &lt;c&gt; is 0.4 mm.',
    );
  });
});
