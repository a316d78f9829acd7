/** Every request that the server answers stands in one table, and every one of them can be called off. */
import assert from 'node:assert/strict';
import { PassThrough } from 'node:stream';
import { type CancellationToken, CancellationTokenSource, type Connection, LSPErrorCodes } from 'vscode-languageserver';
import { createConnection, ResponseError, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { listen } from '../../server/src/lsp/connection';
import { REQUESTS } from '../../server/src/lsp/requests';
import type { Host } from '../../server/src/service/host';

type Handler = (asked: unknown, token: CancellationToken) => unknown;

const URI = 'file:///w/a.part.yaml';
/** As much as every request needs to begin with. */
const ASKED = {
  uri: URI,
  textDocument: { uri: URI },
  position: { line: 0, character: 0 },
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  context: { includeDeclaration: true },
  newName: 'b',
  positions: [{ line: 0, character: 0 }],
  ranges: [{ start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }],
  options: { tabSize: 2 },
  data: { uri: URI },
  name: 'a.stl',
  template: 'blank',
  as: 'pdf',
  feature: 'a',
  size: 0,
  text: '1',
  version: 1,
  before: { uri: URI },
  after: { uri: URI },
};
/** What is answered without looking at a document, no folder being open: there is nothing to be called off on the way. */
const AT_ONCE = [
  'scribeline/measure',
  'scribeline/revisions',
  'workspace/symbol',
  'workspace/diagnostic',
  'completionItem/resolve',
];

/** A server of its own with what it registers; nothing is ever read in its world. */
function registered(): { requests: Map<string, Handler>; others: Set<string>; end: () => void } {
  const requests = new Map<string, Handler>();
  const others = new Set<string>();
  const server = createConnection(
    new StreamMessageReader(new PassThrough()),
    new StreamMessageWriter(new PassThrough()),
  );
  const watched = <T extends object>(of: T): T =>
    new Proxy(of, {
      get(target, key) {
        const value: unknown = Reflect.get(target, key);
        if (key === 'languages' || key === 'diagnostics' || key === 'inlayHint') return watched(value as object);
        if (typeof value !== 'function' || !/^on(?:[A-Z]|$)/.test(String(key))) return value;
        return (...given: unknown[]) => {
          if (key === 'onRequest') requests.set(String(given[0]), given[1] as Handler);
          else others.add(String(key));
          return value.apply(target, given);
        };
      },
    });
  const never = new Promise<never>(() => {});
  const host: Host = {
    read: () => never,
    list: () => never,
    documents: () => never,
    writers: () => never,
    log: () => {},
  };
  listen(watched<Connection>(server), host, '0.0.0');
  return { requests, others, end: () => server.dispose() };
}

const calledOff = (failure: unknown) =>
  failure instanceof ResponseError &&
  failure.code === LSPErrorCodes.RequestCancelled &&
  /called off/.test(failure.message);

describe('requests', () => {
  const { requests, others, end } = registered();
  after(end);

  it('are those of the table, and no other', () => {
    assert.deepEqual(
      [...requests.keys()],
      REQUESTS.map(([request]) => request),
    );
    assert.equal(new Set(requests.keys()).size, REQUESTS.length);
    for (const request of ['textDocument/hover', 'textDocument/diagnostic', 'scribeline/measure', 'scribeline/formats'])
      assert.ok(requests.has(request), request);
    // Who the editor is, and what it tells of; the last is the library's, which answers that nothing is to be edited.
    const told = /^on(?:Initialized?|Did\w+|WillSaveTextDocument|WillSaveTextDocumentWaitUntil)$/;
    assert.deepEqual(
      [...others].filter((name) => !told.test(name)),
      [],
    );
  });

  for (const [request] of REQUESTS) {
    it(`${request}: one that was called off before is not begun, whatever it asks`, async () => {
      const source = new CancellationTokenSource();
      source.cancel();
      for (const asked of [ASKED, undefined, null, 7, {}])
        await assert.rejects(async () => requests.get(request)!(asked, source.token), calledOff);
    });
  }

  for (const [request] of REQUESTS.filter(([name]) => !AT_ONCE.includes(name))) {
    it(`${request}: one that is called off on the way is answered so`, async () => {
      const source = new CancellationTokenSource();
      const answer = Promise.resolve(requests.get(request)!(ASKED, source.token));
      const answered = assert.rejects(answer, calledOff);
      await new Promise((next) => setImmediate(next));
      source.cancel();
      await answered;
    });
  }
});
