/**
 * What is said while a text is read: one thing is made wrong in a part, a shop, a job and a record, in many ways and
 * everywhere. Each message names its thing, says what is there, shows what to write, and is short. All of them are tried
 * with `FUZZ_RUNS=40`; usually a share.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { resolvePart } from '../../../server/src/model/part';
import { checkJob, checkRecord, checkShop } from '../../../server/src/rules/check';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { fromSpecProblem, fromTextProblem } from '../../../server/src/rules/run';
import { readText } from '../../../server/src/text/read';
import { runs } from '../../fuzz/runs';
import { faultsOfReading } from './terms';
import { wrongTexts } from './wrong-texts';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const read = (path: string) => readFileSync(join(GIMBAL, path), 'utf8');
const RECORD = `record: bearing-block.part.yaml
measured:
  - { piece: 1, of: seat, size: diameter, value: 22.012, tool: bore }
  - { piece: 2, size: y, value: 39.85, speed: 900 }
times:
  - { what: load, took: 2.5 min }
changed:
  - slower in the bore
`;

/** Of a part only what the reader says: nothing is worked out or judged. */
function readingOf(text: string): readonly Finding[] {
  const tree = readText(text);
  const { problems } = resolvePart(tree);
  return [...tree.problems.map((p) => fromTextProblem(p, tree)), ...problems.map((p) => fromSpecProblem(p, tree))];
}

const PARTS = ['parts/bearing-block', 'parts/base-plate', 'parts/camera-tray', 'faulty/holding', 'faulty/words'];
/** Each with how many of its wrong texts go to one that is tried. */
const DOCUMENTS: readonly (readonly [text: string, share: number, (text: string) => readonly Finding[]])[] = [
  ...PARTS.map((name) => [read(`${name}.part.yaml`), 41, readingOf] as const),
  [read('campus.shop.yaml'), 301, (text) => checkShop(text).findings],
  [read('faulty/joints.job.yaml'), 41, (text) => checkJob(text).findings],
  [RECORD, 29, (text) => checkRecord(text).findings],
];

describe('what is said while a text is read', function () {
  this.timeout(600_000);
  it('names its thing, and shows what to write', () => {
    const faults = new Set<string>();
    let messages = 0;
    for (const [text, share, readingIn] of DOCUMENTS)
      for (const wrong of wrongTexts(text, Math.ceil(share / runs(1))))
        for (const finding of readingIn(wrong)) {
          if (finding.severity === 'hint') continue;
          messages++;
          for (const fault of faultsOfReading(finding)) faults.add(fault);
        }
    assert.ok(messages > 800, `only ${messages} messages`);
    assert.deepEqual([...faults], []);
  });
});
