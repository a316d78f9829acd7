// Bundles the doors, one file each: the extension (VS Code host), the language server and the command line.
import { build } from 'esbuild';

const common = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  sourcemap: true,
  minifySyntax: true,
  logLevel: 'warning',
  // CommonJS builds of the dependencies are larger and slower to load than their ES modules.
  mainFields: ['module', 'main'],
};

await Promise.all([
  build({ ...common, entryPoints: ['client/src/extension.ts'], outfile: 'dist/extension.js', external: ['vscode'] }),
  build({ ...common, entryPoints: ['server/src/server.ts'], outfile: 'dist/server.js' }),
  build({
    ...common,
    entryPoints: ['server/src/cli.ts'],
    outfile: 'dist/cli.js',
    banner: { js: '#!/usr/bin/env node' },
  }),
]);
