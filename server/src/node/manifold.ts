/** Loads the mesh library: its WebAssembly lies beside the bundle, or in the package where the sources run as they are. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Kernel } from '../geometry/mesh/handles';

interface LoadedKernel extends Kernel {
  /** Bytes that the library's memory has grown to; it never shrinks. */
  memoryBytes(): number;
}

/** What is used of WebAssembly, which Node has but its types do not name. */
interface Assembly {
  instantiate(
    bytes: Uint8Array,
    imports: object,
  ): Promise<{ readonly instance: { readonly exports: object }; readonly module: object }>;
}
const { WebAssembly: assembly } = globalThis as unknown as { WebAssembly: Assembly };

/** The file that is shipped beside the bundle. */
const WASM_FILE = 'manifold.wasm';

export async function loadKernel(): Promise<LoadedKernel> {
  const beside = join(__dirname, WASM_FILE);
  const file = existsSync(beside) ? beside : createRequire(__filename).resolve('manifold-3d/manifold.wasm');
  const bytes = await readFile(file);
  let memory: { readonly buffer: ArrayBuffer } | undefined;
  const { default: start } = await import('manifold-3d');
  // Instantiated here to learn where its memory is. What it prints must not go to standard output: that is the protocol's.
  const made = await (start as (options: object) => ReturnType<typeof start>)({
    instantiateWasm(imports: object, receive: (instance: object, module: object) => void) {
      assembly.instantiate(bytes, imports).then(({ instance, module }) => {
        memory = Object.values(instance.exports).find((e) => e?.buffer instanceof ArrayBuffer);
        receive(instance, module);
      });
      return {};
    },
    print: console.error,
    printErr: console.error,
  });
  made.setup();
  return Object.assign(made, { memoryBytes: () => memory?.buffer.byteLength ?? 0 });
}
