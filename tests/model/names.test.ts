/** Names: every definition and mention, at exactly the letters that a rename changes. */
import assert from 'node:assert/strict';
import { partMentions, shopMentions } from '../../server/src/model/names';
import { resolveShop } from '../../server/src/model/shop';
import { readText } from '../../server/src/text/read';

/**
 * Text with its names marked: `«feature!seat»` a definition, `«feature:seat»` a mention. Checks that these and no others
 * are found, at these places.
 */
function check(
  marked: string,
  names: (text: string) => readonly { kind: string; definition: boolean; start: number; end: number }[],
): void {
  const expected: string[] = [];
  let text = '';
  for (const piece of marked.split(/(«[^»]*»)/)) {
    const mark = /^«([a-z]+)([!:])(.*)»$/.exec(piece);
    const word = mark ? mark[3]! : piece;
    if (mark) expected.push(`${mark[1]}${mark[2]}${word} at ${text.length}`);
    text += word;
  }
  const found = names(text)
    .map((n) => ({ ...n, word: text.slice(n.start, n.end) }))
    .sort((a, b) => a.start - b.start)
    .map((n) => `${n.kind}${n.definition ? '!' : ':'}${n.word} at ${n.start}`);
  assert.deepEqual(found, expected);
}

const inPart = (text: string) => {
  const tree = readText(text);
  return partMentions(tree).map((n) => ({ ...n, ...tree.locate(n.span) }));
};

describe('names in a part', () => {
  it('are found where they are defined and mentioned', () => {
    check(
      `part: a
parameters:
  «parameter!pitch»: 36
  «parameter!half-pitch»: «parameter:pitch» / 2
body: { x: 2 * «parameter:pitch» + body.y, y: 40, z: 16 }
features:
  «feature!seat»: { kind: hole, face: top, at: { x: center, y: «parameter:pitch» }, diameter: 22 H7, depth: 7 }
  «feature!clear»: { kind: hole, from: «feature:seat», at: { x: center - «parameter:half-pitch», y: 'max(«parameter:pitch», 3)' }, diameter: 12, depth: through }
  «feature!mount»: { kind: hole, face: front, at: { x: 30, z: 8 }, pattern: { line: { x: '«parameter:pitch»', count: 2 } }, thread: M5, depth: 14 }
  «feature!ring»: { kind: groove, in: «feature:seat», below: 2, width: 1, diameter: 24 }
  «feature!edge»: { kind: chamfer, edges: [top, { rim: «feature:mount» }], size: 0.5 }
datums: { «datum!A»: bottom, «datum!C»: «feature:seat» }
tolerances:
  - { position: 0.1, of: [«feature:seat», '«feature:mount»[2]', top], datums: [«datum:A», «datum:C»] }
setups:
  one:
    up: top
    hold: { vise: «vise:big-vise», jaws: [front, back], grip: «parameter:pitch» / 6, stop: left }
    zero: { x: left, y: «feature:seat», z: parallels }
    machine: «machine:mill»
    cuts: [«feature:seat», right, «feature:mount»]
    tools: { «feature:seat»: «tool:em-10» }
  two: { up: top, hold: { screws: [«feature:mount»] }, cuts: [] }
  three: { up: top, hold: { soft-jaws: «vise:soft» }, cuts: [] }
accept:
  - { rule: hole/depth-ratio, of: «feature:mount» }
`,
      inPart,
    );
  });

  it('are found in a feature that is broken', () => {
    check(
      'part: a\nfeatures:\n  «feature!a»: { kind: hole, face: tpo, from: «feature:nothing», diameter: «parameter:wide» }\n',
      inPart,
    );
  });

  it('are kept with their text', () => {
    const tree = readText('part: a\n');
    assert.equal(partMentions(tree), partMentions(tree));
    assert.deepEqual(partMentions(readText('')), []);
  });
});

describe('names in a shop', () => {
  it('are its tools, holders, vises and machines', () => {
    check(
      `shop: s
machines:
  «machine!mill»: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }
vises:
  «vise!v»: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth }
holders: { «holder!er20»: { diameter: 34, length: 50 } }
tools:
  «tool!em-6»: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 18, shank: 6, corner-radius: 0, material: carbide, holder: «holder:er20» }
`,
      (text) => {
        const tree = readText(text);
        return shopMentions(tree, resolveShop(tree)).map((n) => ({ ...n, ...tree.locate(n.span) }));
      },
    );
  });
});
