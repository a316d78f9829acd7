/** A language client for tests: starts the built server as the extension does, and speaks the protocol with it over standard input and output. */
import { type ChildProcess, spawn } from 'node:child_process';
import { resolve } from 'node:path';
import {
  type ClientCapabilities,
  type CodeAction,
  createProtocolConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type TextEdit,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { SPARING } from '../../server/src/node/thrift';

const SERVER = resolve(__dirname, '../../dist/server.js');
export const CLI = resolve(__dirname, '../../dist/cli.js');

const LANGUAGE: Readonly<Record<string, string>> = {
  part: 'scribeline-part',
  shop: 'scribeline-shop',
  job: 'scribeline-job',
};

const CAPABILITIES: ClientCapabilities = {
  textDocument: {
    diagnostic: { dynamicRegistration: false, relatedDocumentSupport: false },
    hover: { contentFormat: ['markdown'] },
    completion: { completionItem: { snippetSupport: true } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source.fixAll'] } } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
};

/** This server’s messages are plain text. */
export type PlainDiagnostic = Diagnostic & { message: string };

export class Client {
  readonly child: ChildProcess;
  readonly connection: ProtocolConnection;
  readonly #documents = new Map<string, TextDocument>();
  readonly #waiting: (() => void)[] = [];
  stderr = '';
  /** How often the server asked to be asked again. */
  refreshes = 0;
  initialized!: InitializeResult;

  private constructor(args: readonly string[]) {
    const env = { ...process.env, ...SPARING.env };
    this.child = spawn(process.execPath, [...SPARING.execArgv, ...args], { stdio: 'pipe', env });
    this.child.stderr!.on('data', (data) => {
      this.stderr += String(data);
    });
    this.connection = createProtocolConnection(
      new StreamMessageReader(this.child.stdout!),
      new StreamMessageWriter(this.child.stdin!),
    );
    this.connection.listen();
  }

  static async start(
    options: {
      roots?: readonly string[];
      args?: readonly string[];
      initializationOptions?: unknown;
      /** An editor that can be asked to ask for diagnostics again. */
      refreshes?: boolean;
    } = {},
  ): Promise<Client> {
    const client = new Client(options.args ?? [SERVER, '--stdio']);
    client.connection.onRequest('workspace/diagnostic/refresh', () => {
      client.refreshes++;
      for (const news of client.#waiting.splice(0)) news();
      return null;
    });
    client.initialized = await client.connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities: options.refreshes
        ? { ...CAPABILITIES, workspace: { diagnostics: { refreshSupport: true } } }
        : CAPABILITIES,
      workspaceFolders: (options.roots ?? []).map((uri) => ({ uri, name: 'root' })),
      initializationOptions: options.initializationOptions,
    });
    await client.connection.sendNotification('initialized', {});
    return client;
  }

  open(uri: string, text: string): void {
    const kind = /\.(part|shop|job)\.yaml$/.exec(uri)?.[1] ?? 'part';
    const languageId = LANGUAGE[kind]!;
    this.#documents.set(uri, TextDocument.create(uri, languageId, 1, text));
    void this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId, version: 1, text },
    });
  }

  text(uri: string): string {
    return this.#documents.get(uri)!.getText();
  }

  position(uri: string, needle: string, shift = 0): { line: number; character: number } {
    const at = this.text(uri).indexOf(needle);
    if (at < 0) throw new Error(`there is no ${JSON.stringify(needle)} in ${uri}`);
    return this.#documents.get(uri)!.positionAt(at + shift);
  }

  /** Sends one incremental change. */
  edit(uri: string, edits: readonly TextEdit[]): void {
    const document = this.#documents.get(uri)!;
    const text = TextDocument.applyEdits(document, [...edits]);
    const version = document.version + 1;
    const ordered = [...edits].sort((a, b) => document.offsetAt(b.range.start) - document.offsetAt(a.range.start));
    this.#documents.set(uri, TextDocument.create(uri, document.languageId, version, text));
    void this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: ordered.map((e) => ({ range: e.range, text: e.newText })),
    });
  }

  /** Replaces the first occurrence of a string by another. */
  replace(uri: string, old: string, newText: string): void {
    this.edit(uri, [{ range: { start: this.position(uri, old), end: this.position(uri, old, old.length) }, newText }]);
  }

  close(uri: string): void {
    void this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  async pull(uri: string, previousResultId?: string): Promise<DocumentDiagnosticReport> {
    return this.connection.sendRequest('textDocument/diagnostic', {
      textDocument: { uri },
      identifier: 'scribeline',
      ...(previousResultId ? { previousResultId } : {}),
    });
  }

  /** Resolves when the server has asked to be asked again more than `known` times. */
  async refreshed(known: number): Promise<void> {
    if (this.refreshes > known) return;
    await new Promise<void>((resolve) => this.#waiting.push(resolve));
  }

  async diagnostics(uri: string): Promise<PlainDiagnostic[]> {
    const report = await this.pull(uri);
    return report.kind === 'full' ? (report.items as PlainDiagnostic[]) : [];
  }

  async actions(uri: string, diagnostic: Pick<Diagnostic, 'range'>, only?: string[]): Promise<CodeAction[]> {
    return this.connection.sendRequest('textDocument/codeAction', {
      textDocument: { uri },
      range: diagnostic.range,
      context: { diagnostics: [], ...(only ? { only } : {}) },
    });
  }

  apply(uri: string, action: CodeAction): void {
    this.edit(uri, action.edit!.changes![uri]!);
  }

  ask<T>(method: string, uri: string, needle: string, shift = 0, more: object = {}): Promise<T> {
    return this.connection.sendRequest(method, {
      textDocument: { uri },
      position: this.position(uri, needle, shift),
      ...more,
    });
  }

  /** Asks the server to leave, and answers its exit status. */
  async stop(): Promise<number | null> {
    const left = new Promise<number | null>((done) => this.child.once('exit', done));
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const status = await left;
    this.connection.dispose();
    return status;
  }
}
