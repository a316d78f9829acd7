/**
 * The worker in which exact solids are made, in a browser. The kernel's two files come with the first message, as they lie
 * in the extension's folder: one that was replaced there is used as it is, one that is packed is unpacked here.
 */
import decompress from 'brotli/decompress';
import type { Oc } from '../export/exact/kernel';
import { exactAnswer, type LoadedExact } from '../service/beside/exact-orders';
import type { ToExact } from '../service/beside/exact-queue';
import type { ExactStart } from './exact';

interface Scope {
  onmessage: ((event: { readonly data: never }) => void) | null;
  postMessage(message: unknown): void;
}
const scope = globalThis as unknown as Scope;

scope.onmessage = ({ data }: { readonly data: ExactStart }) => {
  const loaded = load(data);
  scope.onmessage = ({ data: order }: { readonly data: ToExact }) =>
    void loaded.then(
      (kernel) => scope.postMessage(exactAnswer(kernel, order)),
      (failure: unknown) =>
        // As an error of this worker's own, which whoever started it hears of.
        void setTimeout(() => {
          throw failure;
        }, 0),
    );
};

async function load({ glue, wasm, isPacked }: ExactStart): Promise<LoadedExact> {
  const { default: start } = (await import(glue)) as { default(options: object): Promise<Oc> };
  const wasmBinary = isPacked ? decompress(wasm) : wasm;
  const silent = () => {};
  // It asks where its file is, and then does not need it.
  const oc = await start({ locateFile: (name: string) => name, wasmBinary, print: silent, printErr: silent });
  const { wasmMemory } = oc as unknown as { wasmMemory?: { readonly buffer: ArrayBuffer } };
  return { oc, memoryBytes: () => wasmMemory?.buffer.byteLength ?? 0 };
}
