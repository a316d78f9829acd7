// The exact geometry kernel is under the LGPL: its files stay apart from our bundles, as they came but for their
// packing, with its licence and a notice of what it is and how it is replaced.
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';

export const KERNEL = 'node_modules/replicad-opencascadejs';

/** A module's name must end in .mjs where no package.json says so. */
const FILES = [
  ['dist/replicad_single.js', 'replicad_single.mjs'],
  ['LICENSE', 'LICENSE'],
];

export function copyKernel(folder) {
  mkdirSync(folder, { recursive: true });
  for (const [from, to] of FILES) {
    const [source, target] = [join(KERNEL, from), join(folder, to)];
    if (!existsSync(target) || statSync(target).size !== statSync(source).size) copyFileSync(source, target);
  }
  packWasm(join(KERNEL, 'dist/replicad_single.wasm'), join(folder, 'replicad_single.wasm.br'));
  // What an earlier build left would go first.
  rmSync(join(folder, 'replicad_single.wasm'), { force: true });
  writeFileSync(join(folder, 'NOTICE.txt'), notice());
}

/** By brotli: a zip makes a fifth more of it. Packed again only where the library is newer. */
export function packWasm(source, target) {
  if (existsSync(target) && statSync(target).mtimeMs >= statSync(source).mtimeMs) return;
  const params = { [constants.BROTLI_PARAM_QUALITY]: 5, [constants.BROTLI_PARAM_LGWIN]: 24 };
  writeFileSync(target, brotliCompressSync(readFileSync(source), { params }));
}

function notice() {
  const { version } = JSON.parse(readFileSync(join(KERNEL, 'package.json'), 'utf8'));
  return `The files replicad_single.mjs and replicad_single.wasm.br in this folder are the npm package
replicad-opencascadejs ${version}, unchanged: Open CASCADE Technology compiled to WebAssembly.
The second is packed by brotli (RFC 7932).
They are free software under the GNU Lesser General Public License, version 2.1; its text
is in the file LICENSE beside this one. They come without any warranty.

Scribeline loads them when a part is exported as an exact solid, in a thread of their own,
through the library's own interface. They are no part of Scribeline's own files and can be
replaced: put files of the same interface in this folder, for instance a build of your own
from the library's source. A file replicad_single.wasm, not packed, goes before the packed one. The source of the build is with the npm package's
project; the library's with the Open CASCADE Technology project.
`;
}
