/** The cuts of a feature are kept by what they were worked out from: kept ones are those of a part read anew. */

import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { operationsOf } from '../../../server/src/process/operations';
import { checkPart } from '../../../server/src/rules/check';
import type { CheckedPart } from '../../../server/src/rules/checked-part';

const shop = builtinShop();
const text = (setups: string, stock = '') => `part: p
units: mm
material: aluminium-6061-t6
body: { x: 120, y: 80, z: 24 }
${stock}features:
  window: { kind: pocket, face: top, at: { x: 40, y: 40 }, size: { x: 40, y: 40 }, corner-radius: 6, depth: through }
  ledge: { kind: step, face: top, along: right, width: 20, depth: 6 }
  edges: { kind: chamfer, edges: vertical, size: 2 }
${setups}`;
const setup = (name: string, up: string, cuts: string) =>
  `  ${name}: { up: ${up}, hold: { vise: vise-125, jaws: [front, back], grip: 6 }, cuts: [${cuts}] }\n`;
const [one, two] = [setup('one', 'top', 'window, ledge'), setup('two', 'bottom', 'window')];

describe('cuts of a feature that are kept', () => {
  const cutsOf = ({ part, solid }: CheckedPart) => part.features.map((f) => operationsOf(f, { part, solid, shop }));
  const texts = [
    text(''),
    text(`setups:\n${one}`),
    text(`setups:\n${one}${two}`),
    text(`setups:\n${one}${setup('side', 'right', 'edges')}`),
    text(`setups:\n${setup('one', 'top', 'right, window, ledge')}`, 'stock: { form: flat-bar, extra: { right: 3 } }\n'),
    text(`setups:\n${setup('one', 'top', 'window, ledge, right')}`, 'stock: { form: flat-bar, extra: { right: 3 } }\n'),
    text('', 'stock: { form: flat-bar, extra: { right: 8, top: 2 } }\n'),
  ];

  it('are those of the part as it is now, whatever was asked before', () => {
    let last: CheckedPart | undefined;
    for (const i of [0, 1, 2, 1, 3, 0, 4, 5, 4, 6, 0, 2]) {
      last = checkPart(texts[i]!, shop, last);
      assert.deepEqual(cutsOf(last), cutsOf(checkPart(texts[i]!, shop)), texts[i]);
    }
  });

  it('differ where the stock or the order of the set-ups matters, and only there', () => {
    let last = checkPart(texts[4]!, shop);
    const [window, ledge] = cutsOf(last);
    last = checkPart(texts[5]!, shop, last);
    const [windowNow, ledgeNow] = cutsOf(last);
    assert.equal(windowNow, window, 'walled all round: nobody asks for the stock');
    assert.notDeepEqual(ledgeNow, ledge, 'the step lies open to the face that is cut before it or after it');
  });
});
