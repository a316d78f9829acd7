/**
 * Quiet on a good part: beside the text stands what was asked for and no more, the line above has room on a screen, no money
 * where no rate is set, and a hover begins with its answer. Every good part of the example.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { figuresAtHand } from '../../server/src/report/at-hand';
import { hoverAt } from '../../server/src/service/hover';
import { inlaysOf } from '../../server/src/service/inlays';
import { lensesOf } from '../../server/src/service/lenses';
import type { PartSnapshot } from '../../server/src/service/snapshot';
import { Workspace } from '../../server/src/service/workspace';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const PARTS = readdirSync(join(GIMBAL, 'parts')).filter((f) => f.endsWith('.part.yaml'));
const SHOP = readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8');
const UNPRICED = SHOP.replace(/^rates:.*\n(?: +.*\n)*/m, '').replace(/^currency:.*\n/m, '');
const ALL = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };
const MONEY = /[€$£]|\b(?:EUR|USD|GBP)\b/;

const host = {
  log: () => undefined,
  read: async (path: string) =>
    path.endsWith('campus.shop.yaml') ? UNPRICED : readFileSync(path.replace('mem:///w', GIMBAL), 'utf8'),
  list: async () => [],
  documents: async () => [],
};

async function opened(file: string): Promise<readonly [Workspace, PartSnapshot]> {
  const workspace = new Workspace(host);
  const path = `mem:///w/parts/${file}`;
  workspace.open(path, await host.read(path));
  const snapshot = await workspace.snapshot(path);
  assert.ok(snapshot?.kind === 'part');
  return [workspace, snapshot];
}

/** As they are read: without empty lines, rules and marks of a list. */
const linesOf = (markdown: string) =>
  markdown
    .split('\n')
    .map((l) => l.trim())
    .filter((l) => l !== '' && l !== '---');

describe('on a good part', function () {
  this.timeout(60_000);

  for (const file of PARTS)
    it(`${file}: what stands beside its text as the settings are is what was written, worked out`, async () => {
      const [workspace, snapshot] = await opened(file);
      const beside = inlaysOf(snapshot, ALL).filter((hint) => hint.data === 'values');
      const lines = snapshot.text.split('\n').length;
      assert.ok(beside.length <= lines / 6, `${beside.length} on ${lines} lines`);
      for (const hint of beside) assert.match(String(hint.label), /^= |^[-+\d]/);
      const lenses = await lensesOf(workspace, snapshot, async (of) => figuresAtHand(of.checked));
      for (const { command } of lenses) {
        assert.ok(command!.title.length <= 60, command!.title);
        assert.doesNotMatch(command!.title, MONEY);
      }
    });

  it('a hover begins with its answer, and tells no more than the settings want', async () => {
    const [, snapshot] = await opened('bearing-block.part.yaml');
    const { text } = snapshot;
    let heard = 0;
    for (const { index } of text.matchAll(/(?<=^|[\s{[:,])[^\s{}[\]:,#]/g)) {
      const told = hoverAt(snapshot, index, { quick: true });
      if (!told) continue;
      heard++;
      const first = linesOf(told.contents.value).slice(0, 3);
      const where = `${text.slice(index, index + 20)}: ${first.join(' / ')}`;
      // A value, a name and what it is, a key and what it means; not reasons, sources or a list's heading.
      assert.match(first.join('\n'), /\*\*.+\*\*|`[^`]+`|\d/, where);
      assert.doesNotMatch(first[0]!, /^(?:Sources|Not written|\*\*Cut|\*?How it|\*?Limit)/, where);
      assert.doesNotMatch(told.contents.value, MONEY);
    }
    assert.ok(heard > 100, `${heard}`);
    const name = text.indexOf('bearing-seat:') + 2;
    const whole = hoverAt(snapshot, name)!.contents.value;
    assert.match(whole, /Cut with/);
    assert.doesNotMatch(hoverAt(snapshot, name, { without: ['cutting'] })!.contents.value, /Cut with/);
    const fit = text.indexOf('22 H7') + 1;
    assert.match(hoverAt(snapshot, fit)!.contents.value, /22 mm/);
    assert.doesNotMatch(hoverAt(snapshot, fit, { without: ['values'] })?.contents.value ?? '', /\*\*22 mm/);
  });
});
