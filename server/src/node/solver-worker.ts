/** The thread in which linear programs are solved, one after the other. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parentPort } from 'node:worker_threads';
import { brotliDecompressSync } from 'node:zlib';
import loadSolver from 'highs';
import type { Solved } from '../planning/cut-list/program';
import { ROUNDING } from '../tolerance';
import type { FromSolver, ToSolver } from './solver';

const port = parentPort;
if (!port) throw new Error('This file is run as a thread by the command line or the language server.');

/** Of what every engine has: no types of a browser are read here. */
declare const WebAssembly: {
  instantiate(bytes: Uint8Array, imports: object): Promise<{ readonly instance: object; readonly module: object }>;
};

/** The loader's own hook for a file that is not where or as it expects; its types do not name it. */
const unpacked = {
  instantiateWasm(imports: object, use: (instance: object, of: object) => void) {
    const bytes = brotliDecompressSync(readFileSync(join(__dirname, 'highs.wasm.br')));
    void WebAssembly.instantiate(bytes, imports).then(({ instance, module }) => use(instance, module));
    return {};
  },
};
const loaded = loadSolver(unpacked as Parameters<typeof loadSolver>[0]);

port.on('message', async (asked: ToSolver) => {
  port.postMessage(await answer(asked));
});

async function answer({ program, columns, rows }: ToSolver): Promise<FromSolver> {
  try {
    const solver = await loaded;
    const said = solver.solve(program, { output_flag: false, mip_rel_gap: 0, mip_abs_gap: ROUNDING });
    const solved: Solved = {
      optimal: said.Status === 'Optimal',
      cost: said.ObjectiveValue,
      bars: Array.from({ length: columns }, (_, j) => primal(said.Columns[`x${j}`])),
      prices: Array.from({ length: rows }, (_, i) => {
        const row = said.Rows[i];
        return row && 'Dual' in row && typeof row.Dual === 'number' ? row.Dual : 0;
      }),
    };
    return { solved };
  } catch (error) {
    return { trouble: error instanceof Error ? error.message : String(error) };
  }
}

/** A program without an answer has columns without a value. */
function primal(column: object | undefined): number {
  return column && 'Primal' in column && typeof column.Primal === 'number' ? column.Primal : 0;
}
