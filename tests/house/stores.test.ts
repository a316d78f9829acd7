/**
 * What is derived is kept by `memo` (`server/src/memo.ts`) and nowhere else. A store of its own, held by identity or for as
 * long as the program runs, is only what no question's answer is: each is named here with its reason.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, theSource } from './source';

const HOME = 'server/src/';
/** A map or set that begins empty, and lives as long as its file's module; or anything held by identity. */
const STORE = /\bnew Weak(?:Map|Set|Ref)\b|^(?:export )?const \w+[^=\n]*= new (?:Map|Set)(?:<.*>)?\(\)/gm;

const NAMED: Readonly<Record<string, readonly [count: number, why: string]>> = {
  'memo.ts': [1, 'the one mechanism itself, where two objects own an answer'],
  'model/part.ts': [1, 'the cells a part was put together from, handed to the reading of the next text'],
  'text/read.ts': [1, 'the pieces a tree was put together from, handed to the reading of the next text'],
  'process/stock/in-process-stock.ts': [1, 'what a workpiece was cut from: where it comes from is not worked out'],
  'planning/plan-cache.ts': [1, 'a plan may come from another thread, and some only ask whether there is one'],
  'service/plan/scheduler.ts': [1, 'news from another thread, which nobody here can work out again'],
  'service/beside/mesh-queue.ts': [1, 'what an object is called in messages to another thread'],
  'tables/materials.ts': [1, 'an index of a table, filled as the file is read'],
  'tables/thread-names.ts': [1, 'an index of a table, filled as the file is read'],
};

describe('what is kept', function () {
  this.timeout(120_000);

  it('is kept by memo, but for stores that are named with their reason', () => {
    const files = theSource().files.filter((f) => f.startsWith(HOME));
    const found = files.flatMap((file): readonly (readonly [string, number])[] => {
      const code = readFileSync(join(ROOT, file), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
      const n = [...code.matchAll(STORE)].length;
      return n > 0 ? [[file.slice(HOME.length), n]] : [];
    });
    const named = Object.entries(NAMED).map(([file, [n]]) => [file, n]);
    assert.deepEqual(Object.fromEntries(found), Object.fromEntries(named));
  });

  it('is seen however it is written', () => {
    for (const line of [
      'const known = new WeakMap<Part, Doc>();',
      'readonly #seen = new WeakSet<object>();',
      'const kept = new Map<string, readonly Fix[]>();',
      'export const kept: Map<string, number> = new Map();',
    ])
      assert.match(line, new RegExp(STORE, 'm'), line);
    assert.doesNotMatch("const NAMES = new Set(['a']);", new RegExp(STORE, 'm'));
  });
});
