/** The built server over a real connection: layout, tokens, help in expressions, names typed over, rewritings, the whole folder. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type {
  CodeAction,
  CompletionItem,
  DocumentHighlight,
  DocumentLink,
  LinkedEditingRanges,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
  SymbolInformation,
  TextEdit,
  WorkspaceDiagnosticReport,
} from 'vscode-languageserver-protocol';
import { Client } from './client';

const PART = `part: plate
units: mm
material: aluminium-6061-t6
parameters:
  pitch: 36 # between the screws
body:   { x: 60, y: 40, z: 16 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: 8 }
    diameter: max(pitch / 9, 4)
    depth: through
tolerances:
  - { position: 0.1, of: mount }
`;
const BAD = PART.replace('y: 8', 'y: 80').replace('part: plate', 'part: bad');

describe('writing, over a connection', function () {
  this.timeout(60_000);
  let client: Client;
  let folder: string;
  let uri: string;
  const at = (piece: string, by = 0) => {
    const offset = PART.indexOf(piece) + by;
    const lines = PART.slice(0, offset).split('\n');
    return { line: lines.length - 1, character: lines.at(-1)!.length };
  };
  const ask = <T>(method: string, more: object = {}) =>
    client.connection.sendRequest<T>(method, { textDocument: { uri }, ...more });

  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-writing-'));
    mkdirSync(join(folder, 'parts'));
    writeFileSync(join(folder, 'parts/bad.part.yaml'), BAD);
    uri = pathToFileURL(join(folder, 'parts/plate.part.yaml')).toString();
    client = await Client.start({ roots: [pathToFileURL(folder).toString()] });
    await client.open(uri, PART);
  });
  after(async () => {
    await client.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('a text is laid out by as little as is to be', async () => {
    const options = { tabSize: 2, insertSpaces: true };
    const edits = await ask<TextEdit[]>('textDocument/formatting', { options });
    assert.deepEqual(
      edits.map((e) => [e.range.start, e.newText]),
      [[at('body:', 5), ' ']],
    );
    const range = { start: at('features'), end: at('kind: hole') };
    assert.deepEqual(await ask<TextEdit[]>('textDocument/rangeFormatting', { options, range }), []);
    const ranges = [range, { start: at('body'), end: at('body', 3) }];
    assert.equal((await ask<TextEdit[]>('textDocument/rangesFormatting', { options, ranges })).length, 1);
    const typed = await ask<TextEdit[]>('textDocument/onTypeFormatting', {
      options,
      position: at('features'),
      ch: '\n',
    });
    assert.equal(typed.length, 1);
  });

  it('words are told by what they are, and then only what changed', async () => {
    const whole = await ask<SemanticTokens>('textDocument/semanticTokens/full');
    assert.equal(whole.data.length % 5, 0);
    assert.ok(whole.data.length > 60);
    const delta = await ask<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
      previousResultId: whole.resultId,
    });
    assert.deepEqual(delta.edits, []);
    const range = { start: at('diameter'), end: at('depth') };
    const part = await ask<SemanticTokens>('textDocument/semanticTokens/range', { range });
    const words: string[] = [];
    let [line, character] = [0, 0];
    for (let i = 0; i < part.data.length; i += 5) {
      const [down, over, length] = part.data.slice(i, i + 3) as [number, number, number];
      [line, character] = [line + down, down > 0 ? over : character + over];
      words.push(PART.split('\n')[line]!.slice(character, character + length));
    }
    assert.deepEqual(words, ['max', 'pitch', '9', '4']);
  });

  it('inside an expression it is told what a function takes, and which of it is being written', async () => {
    const help = await ask<SignatureHelp>('textDocument/signatureHelp', { position: at('/ 9, 4', 5) });
    assert.equal(help.signatures[0]!.label, 'max(a, b, …)');
    assert.equal(help.activeParameter, 1);
    assert.equal(await ask('textDocument/signatureHelp', { position: at('depth: thr', 8) }), null);
  });

  it('a name that is typed over changes wherever it stands', async () => {
    const linked = await ask<LinkedEditingRanges>('textDocument/linkedEditingRange', { position: at('pitch: 36', 2) });
    assert.deepEqual(
      linked.ranges.map((r) => r.start),
      [at('pitch: 36'), at('pitch / 9')],
    );
  });

  it('a place tells what else is there: its names, a wider selection, files; and the folder is found by letters', async () => {
    const position = at('pitch / 9', 2);
    const lit = await ask<DocumentHighlight[]>('textDocument/documentHighlight', { position });
    assert.deepEqual(
      lit.map((h) => h.range.start),
      [at('pitch: 36'), at('pitch / 9')],
    );
    const [wider] = await ask<SelectionRange[]>('textDocument/selectionRange', { positions: [position] });
    let steps = 0;
    for (let s = wider; s?.parent; s = s.parent) steps++;
    assert.ok(steps >= 3, `${steps}`);
    const job = pathToFileURL(join(folder, 'set.job.yaml')).toString();
    await client.open(job, 'job: set\nparts:\n  bad: { spec: parts/bad.part.yaml, quantity: 1 }\n');
    const [link] = await client.connection.sendRequest<DocumentLink[]>('textDocument/documentLink', {
      textDocument: { uri: job },
    });
    assert.match(link!.target!, /\/parts\/bad\.part\.yaml$/);
    const symbols = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'mnt' });
    assert.ok(symbols.some((s) => s.name === 'mount'));
  });

  it('an item that is looked at says more', async () => {
    const items = await ask<CompletionItem[]>('textDocument/completion', { position: at('    kind: hole', 4) });
    const item = items.find((i) => i.label === 'finish')!;
    const more = await client.connection.sendRequest<CompletionItem>('completionItem/resolve', item);
    assert.match((more.documentation as { value: string }).value, /For example `finish: 1\.6`/);
  });

  it('what is chosen is worked out then, or at once where an editor cannot ask', async () => {
    const actions = await ask<CodeAction[]>('textDocument/codeAction', {
      range: { start: at('y: 8', 3), end: at('y: 8', 3) },
      context: { diagnostics: [], only: ['refactor'] },
    });
    const named = actions.find((a) => a.title === 'Make 8 a parameter: mount-y')!;
    const edits = named.edit!.changes![uri]!;
    assert.deepEqual(edits.map((e) => e.newText.trim()).sort(), ['at: { x: center, y: mount-y }', 'mount-y: 8'].sort());
    const { edit: _, ...asked } = named;
    const resolved = await client.connection.sendRequest<CodeAction>('codeAction/resolve', asked);
    assert.deepEqual(resolved.edit, named.edit);
  });

  it('what is not open is told too, once; then nothing is said until something changes', async () => {
    const all = (previousResultIds: object[]) =>
      client.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds });
    const { items } = await all([]);
    assert.deepEqual(
      items.map((i) => i.uri.split('/').at(-1)),
      ['bad.part.yaml'],
    );
    const [bad] = items;
    assert.ok(bad?.kind === 'full' && bad.items.some((d) => d.severity === 1));
    let answered = false;
    const later = all([{ uri: bad.uri, value: bad.resultId! }]).then((r) => {
      answered = true;
      return r;
    });
    await ask('textDocument/semanticTokens/full');
    assert.equal(answered, false);
    rmSync(join(folder, 'parts/bad.part.yaml'));
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: bad.uri, type: 3 }],
    });
    const gone = await later;
    assert.deepEqual(
      gone.items.map((i) => [i.uri, i.kind === 'full' && i.items.length]),
      [[bad.uri, 0]],
    );
  });
});
