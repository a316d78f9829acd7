/** What the status bar says on its figures, as the Markdown that the editor shows. */
import assert from 'node:assert/strict';
import { figuresTip } from '../../client/src/figures-tip';

describe('the figures’ tip', () => {
  it('has each figure with how it comes about, words apart, names of the document as letters', () => {
    const tip = figuresTip([
      { name: 'mass', value: '74.6 g', how: '27.6 cm³ of aluminium-6061-t6' },
      { name: 'without', value: 'a_b*c', how: '[not](read) <yet>' },
    ]);
    assert.equal(
      tip,
      '**mass**: 74\\.6 g  \n27\\.6 cm³ of aluminium-6061-t6\n\n**without**: a\\_b\\*c  \n\\[not\\](read) &lt;yet&gt;',
    );
    assert.doesNotMatch(tip, /&nbsp;|\u00a0/);
  });
});
