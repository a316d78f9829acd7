/** Files that came with the extension, read through the editor: a worker may fetch nothing here. */
import { OWN_FILE, type OwnFile, type OwnFileAsked } from '../service/files-protocol';
import type { Editor } from './host';

export class Own {
  readonly #editor: Editor;

  constructor(editor: Editor) {
    this.#editor = editor;
  }

  /** Its bytes, or undefined where it is not there. */
  async there(name: OwnFile): Promise<Uint8Array | undefined> {
    const { sendRequest } = this.#editor;
    return (await sendRequest<Uint8Array | null>(OWN_FILE, { name } satisfies OwnFileAsked)) ?? undefined;
  }

  async bytes(name: OwnFile): Promise<Uint8Array> {
    const found = await this.there(name);
    if (!found) throw new Error(`the extension’s own file ${name} is missing: install the extension again`);
    return found;
  }

  async text(name: OwnFile): Promise<string> {
    return new TextDecoder().decode(await this.bytes(name));
  }
}
