/**
 * Pages of their own, as the built program writes them: nothing in them loads anything, no word of a part is markup, they
 * are read without a script, and in a browser they draw.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { ownFolder } from '../cli/folder';
import { HAS_BROWSER, inBrowser } from './browser';

const seat = (diameter: string, more = '') =>
  `part: seat\nmaterial: aluminium-6061-t6\n${more}body: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\n`;
const EVIL = '</script><script>document.title=1</script><img src=//example.invalid/p onerror=alert(1)>';
const evil = (diameter: string, name = EVIL.replaceAll('/', 'x')) =>
  `part: evil\ntitle: "${EVIL}"\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  "${name}": { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\naccept:\n  - { rule: wall/thin, because: "<!-- ${EVIL}" }\n# ]]> --> </style>\n`;

/** Elements by their ids, as a page has them. */
interface Named {
  readonly step: { readonly textContent: string };
}

/** The page's policy, and what it lets in. */
function policyOf(html: string): Readonly<Record<string, string>> {
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)![1]!;
  return Object.fromEntries(policy.split('; ').map((rule) => [rule.split(' ')[0]!, rule.slice(rule.indexOf(' ') + 1)]));
}
/** What is read without a script: short enough to be shown where it is not as it should be. */
const articleOf = (html: string) => html.slice(html.indexOf('<div class="article">'), html.indexOf('<script'));
const sha256 = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

function assertClosed(html: string): void {
  const scripts = [...html.matchAll(/<script\b([^>]*)>([\s\S]*?)<\/script>/g)];
  assert.deepEqual(
    scripts.map((s) => s[1]!.trim()),
    ['type="application/json" id="carried"', ''],
  );
  const style = /<style>([\s\S]*?)<\/style>/.exec(html)![1]!;
  assert.deepEqual(policyOf(html), {
    'default-src': "'none'",
    'script-src': sha256(scripts[1]![2]!),
    'style-src': sha256(style),
    'base-uri': "'none'",
    'form-action': "'none'",
  });
  JSON.parse(scripts[0]![2]!);
  const markup = html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, '');
  assert.doesNotMatch(markup, /<(?:img|link|iframe|object|embed|base|form)\b|<[a-z][^<>]*\s(?:src|style|on\w+)=/i);
  for (const [, to] of markup.matchAll(/\shref="([^"]*)"/g)) assert.match(to!, /^#/);
}

describe('a page of its own', function () {
  this.timeout(120_000);
  const { at, run, write, read } = ownFolder('page');

  it('of one part: figures, findings, set-ups, its text line by line; its size is told', () => {
    write('a.part.yaml', seat('32 H7'));
    const { status, err } = run('export', 'a.part.yaml', '--to', 'a.html');
    assert.equal(status, 0, err);
    assert.match(err, /a\.html: \d+ kB, opens in any browser without a network/);
    const html = read('a.html');
    assertClosed(html);
    assert.match(articleOf(html), /<td>mass<\/td><td>[\d.]+ g<\/td>/);
    assert.match(articleOf(html), /<li id="p0-after-L4">features:<\/li>/);
  });

  it('of two: before, after and both, each change with its line', () => {
    write('a.part.yaml', seat('32 H7'));
    write('b.part.yaml', seat('33 H8'));
    assert.equal(run('compare', 'a.part.yaml', 'b.part.yaml', '--to', 'c.html').status, 0);
    const html = read('c.html');
    assertClosed(html);
    for (const show of ['before', 'after', 'both'])
      assert.match(articleOf(html), new RegExp(`<div class="drawn ${show}"><svg`));
    assert.match(
      articleOf(html),
      /resized, tolerance<\/strong><\/td><td>hole seat: diameter 32 mm → 33 mm;.*href="#p0-after-L5">line 5/,
    );
    const { out } = run('compare', 'a.part.yaml', 'b.part.yaml', '--format', 'html');
    assert.equal(out.trimEnd(), html.trimEnd());
  });

  it('hostile names are words', () => {
    write('a.part.yaml', evil('32', 'seat'));
    assert.equal(run('export', 'a.part.yaml', '--to', 'a.html').status, 0);
    // No name of a feature may have such letters; a comparison is made all the same.
    write('a.part.yaml', evil('32'));
    write('b.part.yaml', evil('30'));
    assert.equal(run('compare', 'a.part.yaml', 'b.part.yaml', '--to', 'c.html').status, 0);
    for (const name of ['a.html', 'c.html']) {
      const html = read(name);
      assertClosed(html);
      assert.match(articleOf(html), /&lt;\/script&gt;&lt;script&gt;/);
    }
  });

  it('another ending, and a folder that is not there, are said', () => {
    write('a.part.yaml', seat('32 H7'));
    const other = run('compare', 'a.part.yaml', 'a.part.yaml', '--to', 'a.doc');
    assert.deepEqual([other.status, other.out], [2, '']);
    assert.match(other.err, /a\.doc` is no format .*\.html/);
    assert.equal(run('compare', 'a.part.yaml', 'a.part.yaml', '--to', 'no/a.html').status, 2);
  });

  (HAS_BROWSER ? describe : describe.skip)('in a browser', () => {
    it('draws a part, steps through its set-ups, and asks for nothing', async () => {
      const part = resolve(__dirname, '../../examples/gimbal/parts/bearing-block.part.yaml');
      assert.equal(run('export', part, '--to', 'a.html').status, 0);
      await inBrowser(at('a.html'), true, async (page, seen) => {
        await page.waitForSelector('body[data-part="bearing-block"]');
        assert.ok(Number(await page.getAttribute('body', 'data-triangles')) > 100);
        const count = async () => Number(await page.getAttribute('body', 'data-triangles'));
        const finished = await count();
        await page.click('#before');
        await page.waitForFunction(() => (globalThis as unknown as Named).step.textContent === 'as it is taken out');
        assert.equal(await page.inputValue('#setup'), '2');
        await page.selectOption('#setup', '0');
        await page.waitForFunction(() => (globalThis as unknown as Named).step.textContent === 'as it is put in');
        assert.ok((await count()) < finished);
        await page.click('.entry[data-kind="feature"]');
        await page.click('#status a');
        assert.match(page.url(), /#p0-after-L\d+$/);
        assert.deepEqual([seen.requests, seen.complaints], [[], []]);
      });
    });

    it('shows what went and came of two, and is read without a script', async () => {
      write('a.part.yaml', evil('32'));
      write('b.part.yaml', evil('30'));
      assert.equal(run('compare', 'a.part.yaml', 'b.part.yaml', '--to', 'c.html').status, 0);
      await inBrowser(at('c.html'), true, async (page, seen) => {
        await page.waitForSelector('body[data-changes]');
        // A ring from 30 to 32 mm, 7 mm deep, flat at the bottom: it came, and nothing went.
        const came = Number(await page.getAttribute('body', 'data-came'));
        assert.ok(came > ((32 ** 2 - 30 ** 2) / 4) * Math.PI * 7 * 0.98, `${came} mm³ came`);
        assert.equal(Number(await page.getAttribute('body', 'data-went')), 0);
        await page.click('#later');
        assert.match((await page.textContent('#change'))!, /^1 of \d+$/);
        // First what is not compared: a feature's name that cannot be read, in both texts.
        for (let more = 2; more > 0; more--) await page.click('#later');
        assert.ok(Number(await page.getAttribute('body', 'data-lit')) > 0);
        await page.click('#show-before');
        assert.equal(await page.getAttribute('body', 'data-side'), 'before');
        assert.deepEqual([seen.requests, seen.complaints], [[], []]);
      });
      await inBrowser(at('c.html'), false, async (page, seen) => {
        assert.equal(await page.isVisible('#view'), false);
        assert.equal(await page.isVisible('.drawn.both svg'), true);
        await page.check('input.before');
        assert.equal(await page.isVisible('.drawn.before svg'), true);
        assert.equal(await page.isVisible('.drawn.both svg'), false);
        assert.deepEqual([seen.requests, seen.complaints], [[], []]);
      });
    });
  });
});

describe('the demonstration of a review', function () {
  this.timeout(120_000);
  const { at, read } = ownFolder('review');
  const HERE = resolve(__dirname, '../../examples/review');

  it('is what its command writes', () => {
    const { status, stderr } = spawnSync(process.execPath, [resolve(HERE, 'compare.mjs'), at('.')], {
      encoding: 'utf8',
    });
    assert.equal(status, 0, stderr);
    const kept = readdirSync(HERE).filter((name) => /^compared.*\.(?:md|svg)$/.test(name));
    assert.ok(kept.length >= 3);
    for (const name of kept)
      assert.equal(read(name), readFileSync(resolve(HERE, name), 'utf8'), `${name}: npm run review`);
    const html = read('compared.html');
    assertClosed(html);
    for (const word of [
      'renamed, resized',
      'the same part, written in another way',
      'was not changed with it',
      'joint/pattern',
    ])
      assert.ok(html.includes(word) && read('compared.md').replaceAll('\\', '').includes(word), word);
  });
});
