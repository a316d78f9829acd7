/** The panel's page lets nothing in but its own script and style, and its script puts no text in as markup. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pageOf } from '../../../client/src/part-view/page';
import { COMPARE_BODY, PART_BODY } from '../../../client/view/body';

const VIEW = join(__dirname, '../../../client/view');
const SOURCES = { script: 'https://x/view.js', style: 'https://x/view.css', cspSource: 'https://x', nonce: 'n0' };
const page = pageOf({ title: 'Part view', body: PART_BODY, ...SOURCES });
const compare = pageOf({ title: 'Two revisions', body: COMPARE_BODY, ...SOURCES });

describe('the page of the part view', () => {
  it('has a policy that allows its own script by nonce, its own style, and nothing else', () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
    const rules = Object.fromEntries(
      policy!.split(';').map((rule) => {
        const [name, ...sources] = rule.trim().split(' ');
        return [name!, sources];
      }),
    );
    assert.deepEqual(rules, {
      'default-src': ["'none'"],
      'script-src': ["'nonce-n0'"],
      'style-src': ['https://x'],
    });
  });

  it('has no script, style or handler inside it', () => {
    const scripts = [...page.matchAll(/<script\b([^>]*)>([\s\S]*?)<\/script>/g)];
    assert.equal(scripts.length, 1);
    assert.match(scripts[0]![1]!, /nonce="n0"/);
    assert.equal(scripts[0]![2], '');
    assert.doesNotMatch(page, /<style|\sstyle=|\son\w+=|javascript:/i);
  });

  it('has everything that the script looks for, each with a name where it can be pressed', () => {
    // A page of its own carries what it shows itself.
    const looksFor = (name: string) =>
      [...readFileSync(join(VIEW, name), 'utf8').matchAll(/element(?:<\w+>)?\('([\w-]+)'\)/g)].map((m) => m[1]!);
    for (const [html, name] of [
      [page, 'view.ts'],
      [compare, 'compare.ts'],
    ] as const) {
      const wanted = looksFor(name);
      assert.ok(wanted.length > 5);
      for (const id of wanted) assert.ok(html.includes(`id="${id}"`), `no ${id}`);
      for (const side of ['before', 'after', 'both']) assert.ok(compare.includes(`id="show-${side}"`));
      assert.match(html, /<canvas[^>]*role="img"[^>]*aria-label=/);
      assert.match(html, /role="listbox"[^>]*aria-label=/);
      assert.match(html, /aria-live="polite"/);
    }
  });

  it('lists every letter that does something', () => {
    const bound = /bindLetters\(\{([\s\S]*?)\n {4}\}\)/.exec(readFileSync(join(VIEW, 'view.ts'), 'utf8'))?.[1] ?? '';
    const letters = [...bound.matchAll(/^ {6}'?([^'\s:]+)'?: /gm)].map((m) => m[1]!);
    assert.ok(letters.length > 12, letters.join());
    const listed = [...page.matchAll(/<dt>([^<]*)<\/dt>/g)].flatMap((m) =>
      m[1]!.split(' ').map((t) => (t.length > 1 ? t.replace(/,$/, '') : t)),
    );
    for (const letter of letters) assert.ok(listed.includes(letter), letter);
  });

  it('puts text in as text: no markup from strings, no code from strings, no network', () => {
    for (const name of readdirSync(VIEW).filter((n) => n.endsWith('.ts')))
      assert.doesNotMatch(
        // A page of the sheet is read as XML, in which nothing runs.
        readFileSync(join(VIEW, name), 'utf8').replace("new DOMParser().parseFromString(svg, 'image/svg+xml')", ''),
        /innerHTML|outerHTML|insertAdjacentHTML|document\.write|createContextualFragment|DOMParser|\beval\(|new Function|\bfetch\(|XMLHttpRequest|WebSocket|sendBeacon|import\(/,
        name,
      );
  });
});
