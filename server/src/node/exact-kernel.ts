/**
 * Loads the exact kernel. It comes under the LGPL: its two files stay apart from ours and can be replaced by others of
 * the same interface; they lie in `kernel/` beside the bundle, one of them packed by brotli unless it was replaced, or in the package where the sources run as they are.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { brotliDecompressSync } from 'node:zlib';
import type { LoadedExact } from '../service/beside/exact-orders';

const GLUE = 'replicad_single.mjs';
const WASM = 'replicad_single.wasm';

/** What it prints is given to `log`, a line each: standard output is not its to write to. */
export async function loadExactKernel(log: (line: string) => void): Promise<LoadedExact> {
  const [glue, wasm] = kernelFiles();
  const { default: start } = (await import(pathToFileURL(glue).href)) as {
    default: typeof import('replicad-opencascadejs').default;
  };
  const packed = wasm.endsWith('.br') ? { wasmBinary: brotliDecompressSync(readFileSync(wasm)) } : {};
  const oc = await start({ locateFile: () => wasm, ...packed, print: log, printErr: log });
  const { wasmMemory } = oc as unknown as { wasmMemory?: { readonly buffer: ArrayBuffer } };
  return { oc, memoryBytes: () => wasmMemory?.buffer.byteLength ?? 0 };
}

function kernelFiles(): readonly [glue: string, wasm: string] {
  const shipped = join(__dirname, 'kernel');
  const file = [WASM, `${WASM}.br`].map((name) => join(shipped, name)).find(existsSync);
  if (file) return [join(shipped, GLUE), file];
  const wasm = createRequire(__filename).resolve('replicad-opencascadejs/wasm');
  return [join(dirname(wasm), 'replicad_single.js'), wasm];
}
