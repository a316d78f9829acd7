/** What a shop's own tools lack, told in the shop file as hints; values that cannot be, as errors with what they could be. */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { checkShop } from '../../server/src/rules/check';

const shop = (tools: string, more = '') =>
  checkShop(`shop: s
units: mm
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW${more} } } }
holders: { slim: { diameter: 10, length: 40 }, thick: { diameter: 34, length: 50 } }
tools:
${tools}`);
const said = (tools: string, more = '') => shop(tools, more).findings.map((f) => `${f.severity} ${f.message}`);
/** The text after the first fix. */
function mended(tools: string, more = ''): string {
  const { tree, shop: made } = shop(tools, more);
  const [fix] = made.problems.flatMap((p) => p.fixes ?? []);
  assert.ok(fix);
  let { text } = tree;
  for (const { span, newText } of fix.edits) {
    const { start, end } = tree.locate(span);
    text = text.slice(0, start) + newText + text.slice(end);
  }
  assert.deepEqual(checkShop(text).findings, [], text);
  return text;
}

describe('a shop file', () => {
  it('a reamer without a drill a little smaller', () => {
    const reamer = '  r10: { kind: reamer, diameter: 10, fit: H7, reach: 60 }\n';
    assert.deepEqual(said(reamer), [
      'hint Tool r10 cuts only what a drill leaves, and the shop has no drill for it. Add one of 9.4 mm to 9.95 mm.',
    ]);
    assert.deepEqual(said(`${reamer}  dr: { kind: drill, diameter: 9.8 }\n`), []);
  });

  it('a tap without its tap drill: 50 to 85 % of a thread of 1.299 P, M5 from 4.116 to 4.48 mm', () => {
    const tap = '  t: { kind: tap, thread: M5, reach: 20 }\n';
    assert.match(said(tap)[0]!, /hint Tool t needs a hole drilled for it.*4\.117 mm to 4\.48 mm/);
    assert.deepEqual(said(`${tap}  dr: { kind: drill, diameter: 4.2 }\n`), []);
  });

  it('a boring head that nothing opens the hole for, a pilot without its hole', () => {
    const bore = '  b: { kind: boring-head, diameter: 10, largest: 40, reach: 40 }\n';
    assert.match(said(bore)[0]!, /needs a hole to go into/);
    assert.deepEqual(said(`${bore}  em: { kind: end-mill, diameter: 6 }\n`), []);
    assert.match(
      said('  c: { kind: counterbore-cutter, diameter: 10, pilot: 5.5 }\n')[0]!,
      /needs a hole for its pilot/,
    );
  });

  it('a shank thicker than the holder’s nose; the fix names a wider one', () => {
    const tool = '  em: { kind: end-mill, diameter: 12, shank: 12, holder: slim }\n';
    assert.match(
      said(tool)[0]!,
      /error Tool em: its shank of 12 mm does not go into slim, which is 10 mm wide over its nose. Write `thick`, which is wider/,
    );
    assert.match(mended(tool), /holder: thick/);
  });

  it('flutes longer than the reach, out of the holder by less than the flutes, a corner rounder than a ball: each mends', () => {
    assert.match(mended('  em: { kind: end-mill, diameter: 6, flute-length: 16, reach: 12, shank: 6 }\n'), /reach: 16/);
    assert.match(
      mended('  em: { kind: end-mill, diameter: 6, flute-length: 16, reach: 16, shank: 6, stickout: 10 }\n'),
      /stickout: 16/,
    );
    assert.match(mended('  em: { kind: end-mill, diameter: 6, corner-radius: 4 }\n'), /corner-radius: 3/);
  });

  it('speeds the wrong way round, and a step outside them', () => {
    const text =
      'shop: s\nmachines: { mill: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [5000, 150], power: 1 kW } } }\n';
    assert.match(checkShop(text).findings[0]!.message, /slowest speed, 5000, is over the fastest, 150/);
    assert.match(
      said('  em: { kind: end-mill, diameter: 6 }\n', ', steps: [200, 9000]')[0]!,
      /A step of 9000 is outside/,
    );
    assert.deepEqual(said('  em: { kind: end-mill, diameter: 6 }\n', ', steps: [200, 900], speed-set-by: dial'), []);
  });

  it('a tap of no thread, a holder nobody has', () => {
    assert.match(said('  t: { kind: tap, reach: 20 }\n')[0]!, /thread/);
    assert.match(said('  t: { kind: tap, thread: M55x9, reach: 20 }\n')[0]!, /no thread/);
    assert.match(said('  em: { kind: end-mill, diameter: 6, holder: thik }\n')[0]!, /thick/);
  });

  it('the shop that everyone starts with has all that its tools need', () => {
    assert.deepEqual(
      checkShop(BUILTIN_SHOP_TEXT).findings.map((f) => f.message),
      [],
    );
  });
});
