/** The one tool to buy: it was tried, and it cures what it says. */
import assert from 'node:assert/strict';
import type { JobPiece } from '../../server/src/planning/job';
import { missingTool, missingToolOf } from '../../server/src/planning/missing-tool';
import { toolLine, toolToBuy } from '../../server/src/report/job-figures';
import { checkPart } from '../../server/src/rules/check';
import { drill, endMill, shopWith } from '../rules/shops';

const part = (features: string) =>
  `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 60, z: 30 }\nfeatures:\n${features}`;
const HOLES =
  '  a: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 7 ±0.1, depth: 12 }\n  b: { kind: hole, face: top, at: { x: 60, y: 20 }, diameter: 7 ±0.1, depth: 12 }\n';

describe('the one tool that would cure most', () => {
  it('is the reamer without which a seat cannot be made, before the drill that two holes would like', () => {
    const shop = shopWith(drill(4.8, 52) + drill(5, 52) + endMill('em-20', 20, 40));
    assert.equal(
      missingTool(
        checkPart(
          part(`${HOLES}  c: { kind: hole, face: top, at: { x: 40, y: 40 }, diameter: 5 H7, depth: 12 }\n`),
          shop,
        ),
      )?.what,
      'reamer of 5 mm H7',
    );
  });

  it('is the drill that two holes want', () => {
    const shop = shopWith(drill(5, 52) + endMill('em-20', 20, 40));
    const checked = checkPart(part(HOLES), shop);
    const cure = missingTool(checked);
    assert.equal(cure?.what, 'drill of 7 mm');
    assert.deepEqual(new Set(cure?.cured.flatMap((f) => f.of)), new Set(['a', 'b']));
  });

  it('is a longer end mill where a corner is too deep, as thick as the corner lets it', () => {
    const shop = shopWith(endMill('em-6', 6, 8));
    const checked = checkPart(
      part(
        '  p: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 30 }, corner-radius: 3.5, depth: 15 }\n',
      ),
      shop,
    );
    assert.match(missingTool(checked)?.what ?? '', /end mill of 6 mm reaching 16 mm/);
  });

  it('is none where nothing is missing, or nothing to buy would do', () => {
    assert.equal(missingTool(checkPart(part(HOLES), shopWith(drill(7, 69)))), undefined);
    const square = part(
      '  p: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 30 }, depth: 5 }\n',
    );
    assert.equal(missingTool(checkPart(square, shopWith(endMill('em-6', 6, 20)))), undefined);
  });

  it('of a whole job is the one that cures most over its parts, and says which', () => {
    const shop = shopWith(drill(5, 52) + endMill('em-6', 6, 8) + endMill('em-20', 20, 40));
    const pocket = (depth: number) =>
      `  p: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 30 }, corner-radius: 3.5, depth: ${depth} }\n`;
    const parts = [part(pocket(15)), part(HOLES), part(pocket(14)), part('')].map((text) => checkPart(text, shop));
    const cure = missingToolOf(parts);
    assert.match(cure?.what ?? '', /end mill of 6 mm reaching 16 mm/);
    // It goes round in the holes of 7 mm as well.
    assert.deepEqual(
      cure?.cured.map((c) => c.of),
      [0, 1, 2],
    );
    const entry = (name: string) => ({ name }) as unknown as JobPiece['entry'];
    const pieces = parts.map((checked, i) => ({ entry: entry(`part-${i}`), checked, quantity: 1 }));
    assert.match(
      toolLine(toolToBuy(pieces)!),
      /^One tool that is not in the shop would fix \d+ findings in part-0, part-1, part-2: end mill of 6 mm/,
    );
  });
});
