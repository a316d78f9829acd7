/**
 * Whatever an author wrote, every word that the server answers an editor with only shows: over a real connection, each
 * kind of request. Markdown is read by `markdown-it` (CommonMark, with addresses made links, and HTML let through): nothing
 * of the document's is a link, a picture, or markup.
 */
import assert from 'node:assert/strict';
import MarkdownIt from 'markdown-it';
import { code, escapeMarkdown, messageMarkdown } from '../../server/src/text/markdown';
import { notice } from '../../server/src/text/shown';
import { Client } from '../server/client';
import { assertShows, type HostileDocuments, hostileDocuments, hostileWords } from './hostile';
import { patience, random, runs } from './runs';

const markdown = new MarkdownIt({ html: true, linkify: true });
/** What may stand in a hover: our own bold and italic words, lists and rules; nothing that does or loads something. */
const SPEAKS = /^(?:link_open|image|html_inline|html_block|heading_open|blockquote_open|fence|code_block|table_open)$/;

function spoken(source: string): string[] {
  const found: string[] = [];
  const visit = (tokens: ReturnType<MarkdownIt['parse']>) => {
    for (const t of tokens) {
      // a rule's own page
      const own = t.attrs?.some(([name, value]) => name === 'href' && value.startsWith('file:///pages/'));
      if (SPEAKS.test(t.type) && !own) found.push(`${t.type} ${JSON.stringify(t.attrs)}`);
      if (t.children) visit(t.children);
    }
  };
  visit(markdown.parse(source, {}));
  return found;
}

/** What an editor never shows: it is written, looked up or sent back. */
const NEVER_SHOWN = new Set([
  'newText',
  'filterText',
  'sortText',
  'placeholder',
  'uri',
  'href',
  'data',
  'mesh',
  'base64',
]);

/** Every word of an answer, by the key it stands under. */
function* wordsOf(value: unknown, key = ''): Generator<{ key: string; words: string; markdown: boolean }> {
  if (typeof value === 'string') yield { key, words: value, markdown: false };
  else if (Array.isArray(value)) for (const item of value) yield* wordsOf(item, key);
  else if (typeof value === 'object' && value !== null) {
    const isMarkdown = (value as { kind?: unknown }).kind === 'markdown';
    for (const [name, inner] of Object.entries(value)) {
      if (NEVER_SHOWN.has(name)) continue;
      for (const found of wordsOf(inner, name))
        yield isMarkdown && name === 'value' ? { ...found, markdown: true } : found;
    }
  }
}

/** An editor makes a picture of this in a label. */
const ICON = /\$\([\w~-]+\)/;

function assertAnswer(answer: unknown, told: string): number {
  let count = 0;
  for (const { key, words, markdown: isMarkdown } of wordsOf(answer)) {
    count++;
    const lines = isMarkdown || key === 'text';
    assertShows(words, lines ? '\n' : '', told);
    if (isMarkdown) assert.deepEqual(spoken(words), [], `${JSON.stringify(words)}\n${told}`);
    else assert.doesNotMatch(lines ? '' : words, ICON, told);
  }
  return count;
}

const URI = {
  part: 'untitled:/w/a.part.yaml',
  shop: 'untitled:/w/a.shop.yaml',
  job: 'untitled:/w/a.job.yaml',
} as const;

describe('hostile words in an editor', function () {
  this.timeout(patience(120_000));
  let client: Client;
  before(async () => {
    client = await Client.start({ initializationOptions: { pagesUri: 'file:///pages' } });
  });
  after(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });

  async function askAll(kind: keyof HostileDocuments, text: string): Promise<number> {
    const uri = URI[kind];
    const textDocument = { uri };
    const lines = text.split('\n');
    const all = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
    const asked: [string, object][] = [
      ['textDocument/diagnostic', { textDocument, identifier: 'scribeline' }],
      ...['documentSymbol', 'foldingRange', 'codeLens'].map((m): [string, object] => [
        `textDocument/${m}`,
        { textDocument },
      ]),
      ['textDocument/inlayHint', { textDocument, range: all }],
      ['textDocument/codeAction', { textDocument, range: all, context: { diagnostics: [] } }],
      ...['facts', 'plan', 'picture'].map((m): [string, object] => [`scribeline/${m}`, { uri }]),
      ['scribeline/export', { uri, name: 'a.svg' }],
      ['scribeline/export', { uri, name: `a.${hostileWords(random(1))}` }],
    ];
    for (const [line, words] of lines.entries())
      for (const character of [words.search(/\S/), words.indexOf(':'), words.indexOf('{') + 1, words.length - 1]) {
        if (character < 0) continue;
        const position = { line, character };
        asked.push(['textDocument/hover', { textDocument, position }]);
        if (line % 3 === 0) asked.push(['textDocument/completion', { textDocument, position }]);
        if (line % 3 === 1)
          asked.push(['textDocument/rename', { textDocument, position, newName: hostileWords(random(line)) }]);
      }
    let count = 0;
    for (const [method, params] of asked) {
      const answer = await client.connection
        .sendRequest<unknown>(method, params)
        .catch((e: Error) => ({ message: e.message }));
      count += assertAnswer(answer, `${method} of\n${text}`);
    }
    return count;
  }

  it('every answer only shows', async () => {
    const r = random(91);
    for (let n = 0; n < runs(3); n++) {
      const documents = hostileDocuments(r);
      for (const kind of ['shop', 'part', 'job'] as const) client.open(URI[kind], documents[kind]);
      for (const kind of ['shop', 'part', 'job'] as const)
        assert.ok((await askAll(kind, documents[kind])) > 20, documents[kind]);
      for (const kind of ['shop', 'part', 'job'] as const) client.close(URI[kind]);
    }
  });

  it('Markdown of any words is text', () => {
    const r = random(92);
    for (let n = 0; n < runs(2000); n++) {
      const words = hostileWords(r);
      const message = `The wall between \`${hostileWords(r)}\` and \`${words}\` is ${hostileWords(r)}.`;
      for (const source of [escapeMarkdown(words), code(words), messageMarkdown(words), messageMarkdown(message)]) {
        assert.deepEqual(spoken(source), [], JSON.stringify([source, words, message]));
        assert.deepEqual(spoken(`- ${source}\n- ${source}`), [], JSON.stringify(source));
        assert.doesNotMatch(source, /\n/);
      }
    }
  });

  it('a notification of any words has no link', () => {
    // what an editor makes a link of in a notification: [words](target "title")
    const link = /\[([^\]]+)\]\(([^)\s]+)(?: (["'])(.+?)\3)?\)/;
    const r = random(93);
    for (let n = 0; n < runs(2000); n++) {
      const shown = notice(`${hostileWords(r)}: 2 set-ups; ${hostileWords(r)}.`);
      assert.doesNotMatch(shown, link);
      assertShows(shown, '', shown);
    }
    const name = '[Set-ups ready: press to write](command:workbench.action.quit)';
    assert.equal(notice(name), '[Set-ups ready: press to write]‹U+0028›command:workbench.action.quit)');
  });
});
