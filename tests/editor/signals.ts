/**
 * What the suite, inside the editor, may ask of the runner outside: a screenshot at a named moment, or a person's own
 * gesture (a key, a click) that no extension can make. One small HTTP endpoint on this machine's own address.
 */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export type Signal =
  /** How the suite stands, as JSON of `Result`: from an extension host that can write no file. */
  | { readonly do: 'result'; readonly result: string }
  | { readonly do: 'screenshot'; readonly name: string }
  | { readonly do: 'press'; readonly keys: string }
  | { readonly do: 'type'; readonly text: string }
  /** `x`, `y`: where in the element, as shares of its size; its middle where left out. */
  | {
      readonly do: 'click';
      readonly selector: string;
      readonly inPanel?: boolean;
      readonly x?: number;
      readonly y?: number;
    }
  /** The pointer rests on it. */
  | { readonly do: 'hover'; readonly selector: string }
  /** In the panel, from and to as shares of the element's size; `hold` is held down meanwhile. */
  | {
      readonly do: 'drag';
      readonly selector: string;
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
      readonly hold?: string;
    }
  | { readonly do: 'choose'; readonly selector: string; readonly value: string }
  /** An attribute of the first that the selector finds in the panel. */
  | { readonly do: 'attribute'; readonly selector: string; readonly name: string }
  /** Of a canvas in the panel: share of the pixels unlike its corner's, how many colours they have, and a number that any change changes, as JSON. */
  | { readonly do: 'pixels'; readonly selector: string }
  /** Waits until what the selector finds says this and nothing else, then presses Enter until it says it no more. */
  | { readonly do: 'take'; readonly selector: string; readonly word: string }
  /** Text of what the selector finds; `inPanel`: inside the page that an extension shows. */
  | { readonly do: 'read'; readonly selector: string; readonly inPanel?: boolean };

/** Answers a value for the suite; throws where it cannot be done. */
type Handler = (signal: Signal) => Promise<string>;

interface Signals {
  readonly url: string;
  close(): void;
}

export async function listenForSignals(handle: Handler): Promise<Signals> {
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk) => chunks.push(chunk));
    request.on('end', () => {
      void answer(Buffer.concat(chunks).toString(), handle).then(({ status, body }) => {
        // An extension host that is a page's worker asks from another origin.
        const headers = { 'content-type': 'text/plain; charset=utf-8', 'access-control-allow-origin': '*' };
        response.writeHead(status, headers);
        response.end(body);
      });
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

async function answer(text: string, handle: Handler): Promise<{ status: number; body: string }> {
  try {
    return { status: 200, body: await handle(JSON.parse(text) as Signal) };
  } catch (error) {
    return { status: 500, body: String(error) };
  }
}
