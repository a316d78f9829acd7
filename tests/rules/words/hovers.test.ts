/**
 * Hovers as they are read: on every key and value of parts, a shop, a job and a record the whole text is plain, with short
 * sentences, the shop's words, and no name of the program. What a rule says begins as its page does.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { rulePage } from '../../../server/src/rules/page';
import { ruleByName } from '../../../server/src/rules/registry';
import type { Host } from '../../../server/src/service/host';
import { hoverAt } from '../../../server/src/service/hover';
import { Workspace } from '../../../server/src/service/workspace';
import { faultsOfText } from './terms';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const RECORD = 'mem:///w/parts/bearing-block.record.yaml';
const RECORD_TEXT = `record: bearing-block.part.yaml
measured:
  - { piece: 1, of: bearing-seat, size: diameter, value: 22.012, tool: bore }
times:
  - { what: load, took: 2.5 min }
`;
const texts = new Map<string, string>([[RECORD, RECORD_TEXT]]);
const textOf = (path: string) => texts.get(path) ?? readFileSync(join(GIMBAL, path.replace('mem:///w/', '')), 'utf8');
const host = {
  log: () => undefined,
  async read(path: string) {
    try {
      return textOf(path);
    } catch {
      return undefined;
    }
  },
  list: async () => [],
  documents: async () => [],
} as unknown as Host;

/** Where a key or a value begins. */
function* places(text: string): Generator<number> {
  for (const { index } of text.matchAll(/(?<=^|[\s{[:,])[^\s{}[\]:,#]/g)) yield index;
}

/** Line by line, without marks of Markdown, and without the labels that a line begins with. */
function linesOf(markdown: string): readonly string[] {
  return markdown
    .split(/\n+/)
    .map((line) => line.replace(/\\(?=[^\w\s])/g, '').replace(/^ *- /, ''))
    .map((line) => line.replace(/^\*How it is worked out:\* |^\*\*(?:error|warning|hint)\*\* – |\*/g, ''))
    .filter((line) => line.trim() !== '' && line !== '---');
}

/**
 * What is read as sentences: not a formula with this part's numbers, nor a source in its own words. Of a list of figures
 * each is read by itself.
 */
function* sentencesOf(line: string): Generator<string> {
  if (
    /=|≤|√|\bfrom memory\b|read (?:on|in) |^(?:speed|feed|force|time|torque|bending|holder|Source)\b|Handbook/.test(
      line,
    )
  )
    return;
  const figures = (line.match(/\d/g)?.length ?? 0) > 3;
  yield* line.replace(/ \([^)]*\)/g, '').split(figures ? /[;·:]|, / : /;/);
}

/** A name of the program: `thicknessMm`, `set_up`, `undefined`. */
const INNER = /\b[a-z]+(?:_[a-z0-9]+)+\b|\b[a-z]+[A-Z][a-z]+[A-Za-z]*\b|\bundefined\b|\bNaN\b|\[object/;
const DOCUMENTS: readonly (readonly [path: string, quick: boolean])[] = [
  ['mem:///w/parts/bearing-block.part.yaml', false],
  ['mem:///w/faulty/holding.part.yaml', true],
  ['mem:///w/campus.shop.yaml', true],
  ['mem:///w/faulty/joints.job.yaml', true],
  [RECORD, true],
];

describe('hovers', function () {
  this.timeout(120_000);
  for (const [path, quick] of DOCUMENTS)
    it(`on ${path.slice(9)} are plain`, async () => {
      const workspace = new Workspace(host, { roots: ['mem:///w'], shop: 'mem:///w/campus.shop.yaml' } as never);
      workspace.open(path, textOf(path));
      const snapshot = (await workspace.snapshot(path))!;
      const faults = new Set<string>();
      const read = new Set<string>();
      for (const offset of places(textOf(path))) {
        const value = hoverAt(snapshot, offset, { quick })?.contents.value ?? '';
        for (const line of linesOf(value)) {
          if (read.has(line)) continue;
          read.add(line);
          for (const fault of faultsOfText(line)) if (!fault.startsWith('sentence')) faults.add(fault);
          for (const sentence of sentencesOf(line)) for (const fault of faultsOfText(sentence)) faults.add(fault);
          const inner = INNER.exec(line.replace(/`[^`]*`/g, ''));
          if (inner) faults.add(`inner: ${inner[0]}: ${line}`);
        }
        for (const [, name] of value.matchAll(/^\*\*`?([a-z]+\/[a-z-]+)`?\*\*\n/gm)) {
          const rule = ruleByName(name!);
          if (rule) assert.ok(value.includes(rulePage(rule).split('\n\n')[1]!.slice(0, 20)), name);
        }
      }
      assert.ok(read.size > 5, `${read.size} lines`);
      assert.deepEqual([...faults], []);
      if (process.env.SHOW) console.log([...read].join('\n'));
    });
});
