/** What the README shows is what is answered: its part, its finding, its plan; and it stays short enough to be read. */
import assert from 'node:assert/strict';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { cli } from './odd-files';

const ROOT = join(__dirname, '../..');
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');
const BLOCKS = [...README.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].map((m) => ({ language: m[1]!, text: m[2]! }));
const PART = BLOCKS.find((b) => b.language === 'yaml')!.text;
const linesOf = (has: string) =>
  BLOCKS.find((b) => b.text.includes(has))!
    .text.trimEnd()
    .split('\n');

describe('the README', () => {
  let folder: string;
  const answered = (command: string, text: string) => {
    writeFileSync(join(folder, 'bearing-block.part.yaml'), text);
    return cli([command, 'bearing-block.part.yaml'], folder);
  };
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-readme-'));
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('is read in one sitting: 150 lines', () => {
    assert.ok(README.split('\n').length <= 150);
  });

  it('shows the finding that its part has', () => {
    const { status, out } = answered('check', PART);
    assert.equal(status, 1);
    assert.ok(out.includes(linesOf('error thread/no-room').join('\n')), out);
  });

  it('shows the plan that it has when that is mended', () => {
    const mended = PART.replace('thread-depth: 14', 'thread-depth: 10');
    assert.match(answered('check', mended).out, /nothing found/);
    const { status, out } = answered('plan', mended);
    assert.equal(status, 0);
    for (const line of linesOf('first: top up')) assert.ok(out.split('\n').includes(line), line);
  });

  it('links to files that are there', () => {
    for (const [, path] of README.matchAll(/\]\((?!https?:)([^)#]+)\)/g))
      assert.ok(existsSync(join(ROOT, path!)), path);
  });
});
