/**
 * The connection to the language server: how it is started, what it is told at the start, and what happens when it
 * dies. Everything else it does for the editor (findings, hover, fixes, watching files…) goes through the client by itself.
 */
import {
  type CancellationToken,
  type Disposable,
  EventEmitter,
  type ExtensionContext,
  type LogOutputChannel,
  Uri,
  workspace,
} from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  type ErrorHandler,
  type HoverParams,
  HoverRequest,
  type LanguageClientOptions,
  ProgressType,
  RevealOutputChannelOn,
  State,
} from 'vscode-languageclient';
import { unwantedOnHover, wantedBeside } from './beside-text';
import { LANGUAGES, schemesWith } from './documents';
import { warn } from './notices';
import { pagesFolder } from './rule-pages';
import { obeyed } from './shop-setting';

/** Runs the server, in whatever way there is here. */
export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

export type LinkState = 'starting' | 'running' | 'stopped';

export class ServerLink implements Disposable {
  readonly #client: BaseLanguageClient;
  readonly #log: LogOutputChannel;
  /** The shop that the server was last told of. */
  #shop: string | undefined;
  readonly #changed = new EventEmitter<LinkState>();
  readonly onStateChanged = this.#changed.event;
  state: LinkState = 'stopped';

  constructor(context: ExtensionContext, log: LogOutputChannel, make: MakeClient) {
    this.#log = log;
    const opened = workspace.workspaceFolders?.map(({ uri }) => uri.scheme) ?? [];
    const options: LanguageClientOptions = {
      documentSelector: schemesWith(opened).flatMap((scheme) => LANGUAGES.map((language) => ({ scheme, language }))),
      outputChannel: log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      initializationOptions: () => {
        this.#shop = shopOverride();
        return { pagesUri: pagesFolder(context.extensionUri).toString(), shop: this.#shop };
      },
      middleware: {
        provideInlayHints: async (document, range, token, next) =>
          wantedBeside((await next(document, range, token)) ?? []),
        provideHover: async (document, position, token, next) => {
          const without = unwantedOnHover();
          if (without.length === 0) return next(document, position, token);
          const at = this.#client.code2ProtocolConverter.asTextDocumentPositionParams(document, position);
          const told = await this.#client.sendRequest(HoverRequest.type, { ...at, without } as HoverParams, token);
          return this.#client.protocol2CodeConverter.asHover(told);
        },
      },
      // Findings are pulled on every keystroke: the answer is there within it. A part that comes back into view is asked
      // again, since the shop it is judged by may have changed meanwhile. Tabs never opened are the workspace pull's.
      diagnosticPullOptions: { onChange: true, onSave: false, onFocus: true, onTabs: false },
    };
    const client = make(options);
    client.clientOptions.errorHandler = tellOnce(client.createDefaultErrorHandler(), log);
    client.onDidChangeState(({ newState }) => this.#become(newState));
    this.#client = client;
  }

  #become(state: State): void {
    this.state = state === State.Running ? 'running' : state === State.Starting ? 'starting' : 'stopped';
    this.#changed.fire(this.state);
  }

  /** Never throws: a server that cannot start leaves the editor usable and says why. */
  async start(): Promise<void> {
    try {
      await this.#client.start();
    } catch (error) {
      await this.#failed('could not be started', error);
    }
  }

  async restart(): Promise<void> {
    try {
      await this.#client.stop();
      await this.#client.start();
    } catch (error) {
      await this.#failed('could not be started again', error);
    }
  }

  /**
   * The shop is told to the server when it starts; starting again costs less than a second and cannot go half-way. A
   * setting that is changed, or a folder that is trusted now, may tell of the same change twice.
   */
  async shopChanged(): Promise<void> {
    const shop = shopOverride();
    if (shop === this.#shop) return;
    this.#shop = shop;
    await this.restart();
  }

  /** Asks anew what stands beside the texts. */
  besideChanged(): void {
    const feature = this.#client.getFeature('textDocument/inlayHint');
    for (const document of workspace.textDocuments) feature?.getProvider(document)?.onDidChangeInlayHints.fire();
  }

  async stop(): Promise<void> {
    if (this.state === 'stopped') return;
    try {
      await this.#client.stop(2000);
    } catch (error) {
      this.#log.warn(`The language server did not stop in time: ${String(error)}`);
    }
  }

  /** Asks the server something of our own. Rejects when it is not running. */
  async request<T>(method: string, params?: object, token?: CancellationToken): Promise<T> {
    if (this.state !== 'running') throw new Error('The language server is not running.');
    // A token left out would be taken for a second parameter.
    return token
      ? this.#client.sendRequest<T>(method, params ?? {}, token)
      : this.#client.sendRequest<T>(method, params ?? {});
  }

  /** Hears what the server says on the way to an answer that was asked for under this token. */
  onProgress<P>(token: string, heard: (progress: P) => void): Disposable {
    return this.#client.onProgress(new ProgressType<P>(), token, heard);
  }

  showLog(): void {
    this.#log.show();
  }

  dispose(): void {
    this.#changed.dispose();
  }

  async #failed(what: string, error: unknown): Promise<void> {
    this.#log.error(`The language server ${what}:`, error instanceof Error ? error : String(error));
    void offerLog(`Scribeline's language server ${what}. The log shows why.`, this.#log);
  }
}

/** The setting as a URI: absolute paths as they are, others from the first folder of the workspace. */
function shopOverride(): string | undefined {
  const path = obeyed(workspace.getConfiguration('scribeline').inspect<string>('shop'), workspace.isTrusted);
  if (path === '') return undefined;
  const folder = workspace.workspaceFolders?.[0];
  // Where no folder is of this disk, an absolute path is one of theirs.
  if (/^(\/|[a-z]:[\\/])/i.test(path))
    return (folder && folder.uri.scheme !== 'file' ? folder.uri.with({ path }) : Uri.file(path)).toString();
  return folder && Uri.joinPath(folder.uri, path.replaceAll('\\', '/')).toString();
}

/** Starts a server that died again as the client does by default, but tells of it once, not every time. */
function tellOnce(handler: ErrorHandler, log: LogOutputChannel): ErrorHandler {
  let told = false;
  return {
    error: (error, message, count) => handler.error(error, message, count),
    async closed(): Promise<CloseHandlerResult> {
      const result = await handler.closed();
      if (result.action === CloseAction.Restart && !told) {
        told = true;
        void offerLog("Scribeline's language server stopped unexpectedly and was started again.", log);
      }
      return result;
    },
  };
}

async function offerLog(message: string, log: LogOutputChannel): Promise<void> {
  const choice = await warn(message, 'Show log');
  if (choice) log.show();
}
