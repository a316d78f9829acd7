// Bundles the doors, one file each: the extension (VS Code host), the language server and the command line.
import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { build } from 'esbuild';
import { copyFonts, FONTS } from './client/notices/fonts.mjs';
import { copyKernel, KERNEL, packWasm } from './client/notices/kernel.mjs';
import { notices } from './client/notices/notices.mjs';

const common = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  sourcemap: true,
  minifySyntax: true,
  // Names stay, for traces that can be read.
  minifyWhitespace: true,
  logLevel: 'warning',
  metafile: true,
  // CommonJS builds of the dependencies are larger and slower to load than their ES modules.
  mainFields: ['module', 'main'],
  // A library that is a module asks where it is; in one CommonJS file that is the file itself.
  define: { 'import.meta.url': 'bundleUrl' },
  banner: { js: 'const bundleUrl = require("node:url").pathToFileURL(__filename).href;' },
};

/** `serve` runs the server's own file, which lies beside: the command line need not hold it a second time. */
const serverBeside = {
  name: 'server-beside',
  setup(bundle) {
    bundle.onResolve({ filter: /^\.\/server$/ }, () => ({ path: './server.js', external: true }));
  },
};

/** Libraries that both doors need or few runs do lie beside them, once, and are loaded when they are needed. */
const BESIDE = {
  yaml: 'yaml',
  tinyglobby: 'glob',
  fflate: 'zip',
  pdfkit: 'pdf',
  'vscode-languageserver/node': 'protocol',
  'zod/mini': 'zod',
  'vscode-languageserver-textdocument': 'document',
};
/** Its build for Node asks the environment at every token whether to log it, which takes a fifth of reading. */
const YAML = 'node_modules/yaml/browser/dist/index.js';
/** Of a library whose whole is large what our source names, and no more. */
const zodMini = await import('zod/mini');
const ZOD_USED = readdirSync('server/src', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .flatMap((name) => [...readFileSync(`server/src/${name}`, 'utf8').matchAll(/\bz\.([a-z]\w*)/g)].map((m) => m[1]))
  .filter((name, i, all) => typeof zodMini[name] === 'function' && all.indexOf(name) === i);
const zodBeside = {
  stdin: { contents: `export { ${ZOD_USED.sort().join(', ')} } from 'zod/mini';`, resolveDir: '.' },
  outfile: 'dist/zod.js',
};
/** Tables without state, the same for both doors: what an import of them ends in, the file they are built into, and from where. */
const TABLES_BESIDE = [
  ['metrics\\.generated', 'metrics', 'server/src/sheet/draw/metrics.generated.ts'],
  ['builtin-shop\\.generated', 'everyday', 'server/src/model/builtin-shop.generated.ts'],
  ['language', 'language', 'server/src/sheet/language/index.ts'],
  ['report/tables', 'audit', 'server/src/report/tables/index.ts'],
  ['everyday-words', 'words', 'server/src/model/everyday/everyday-words.ts'],
];
/** Texts that few runs print, and what stands alone: one file, for the same reason. */
const TEXTS = {
  'fact-names': 'rules/fact-names',
  'fact-names-of-rules': 'rules/fact-names-of-rules',
  'node/help': 'node/help',
  '2d/letters': 'geometry/2d/letters',
  'kind-words': 'model/everyday/kind-words',
  'press-words': 'rules/hole/press-words',
  expression: 'text/expression',
  signs: 'sheet/draw/signs',
  wording: 'text/wording',
  outlawed: 'text/outlawed',
  syntax: 'text/syntax',
  typing: 'service/typing',
  'thread-form': 'tables/thread-form',
  fork: 'process/workholding/fork',
};
/** The same, of names that are another's elsewhere. */
const TEXTS_OF_TEXT = ['blocks', 'shown', 'units'];
const texts = {
  contents: [...Object.values(TEXTS), ...TEXTS_OF_TEXT.map((file) => `text/${file}`)]
    .map((file) => `export * from './${file}';`)
    .join('\n'),
  resolveDir: 'server/src',
};
/** All published rows are one file: each table's own is so small that a file for each would cost more to open than to read. */
const TABLES = 'server/src/tables';
const published = {
  contents: readdirSync(TABLES)
    .filter((file) => file.endsWith('.data.ts'))
    .map((file) => `export * from './${file.slice(0, -3)}';`)
    .join('\n'),
  resolveDir: TABLES,
};
/** Of the server alone, and seldom asked for. */
const writingBeside = {
  name: 'writing-beside',
  setup(bundle) {
    bundle.onResolve({ filter: /\/service\/writing$/ }, () => ({ path: './writing.js', external: true }));
  },
};
/** Pages, comparisons, sheets and jobs on paper: few runs need them. The thread beside has all that they stand on, and them: its file is loaded when it is asked for. */
const BESIDE_PAGES = './aside-worker.js';
const pageBeside = {
  name: 'page-beside',
  setup(bundle) {
    bundle.onResolve(
      {
        filter:
          /\/(?:page-door|service\/(?:compare|import-tools)|node\/(?:compare|git-drivers|import|job|new|record|sheet|writers))$/,
      },
      ({ kind }) => (kind === 'dynamic-import' ? { path: BESIDE_PAGES, external: true } : undefined),
    );
    // A question of the thread beside, which has the code itself.
    bundle.onResolve({ filter: /\/compare\/with$/ }, () => ({ path: 'compare/with', namespace: 'page' }));
    bundle.onLoad({ filter: /./, namespace: 'page' }, () => ({
      contents: ['comparedJobs', 'comparedWith']
        .map((name) => `exports.${name} = (...told) => require('./aside-worker.js').${name}(...told);`)
        .join(''),
    }));
    // What would do about a joint that does not meet: asked for by who has one.
    bundle.onResolve({ filter: /\/rules\/joint-fixes$/ }, () => ({ path: 'joint-fixes', namespace: 'joint' }));
    bundle.onLoad({ filter: /./, namespace: 'joint' }, () => ({
      contents: ['allSafeOfJob', 'jointFixes']
        .map((name) => `exports.${name} = (...told) => require('./aside-worker.js').${name}(...told);`)
        .join(''),
    }));
    bundle.onResolve({ filter: /\/drawing\/printed$/ }, () => ({ path: 'drawing', namespace: 'drawing' }));
    bundle.onLoad({ filter: /./, namespace: 'drawing' }, () => ({
      contents: "exports.drawingWriters = (...told) => require('./aside-worker.js').drawingWriters(...told);",
    }));
    bundle.onResolve({ filter: /^\.\/aside-worker\.js$/ }, ({ path }) => ({ path, external: true }));
  },
};
/** The server has papers drawn in the thread beside, always: here it leaves them as it leaves what takes too long. */
const paperAside = {
  name: 'paper-aside',
  setup(bundle) {
    bundle.onResolve({ filter: /\/sheet\/sheet$/ }, () => ({ path: 'sheet', namespace: 'sheet' }));
    bundle.onLoad({ filter: /./, namespace: 'sheet' }, () => ({
      contents: "import { CutShort } from './effort'; export function sheetOf() { throw new CutShort(); }",
      resolveDir: 'server/src',
    }));
  },
};
const librariesBeside = {
  name: 'libraries-beside',
  setup(bundle) {
    // Everyday words for features: few texts have any, and then it is loaded.
    bundle.onResolve({ filter: /\/everyday\/(?:elsewhere|everyday-keys|feature|mirror-words|stock)$/ }, () => ({
      path: 'readings',
      namespace: 'readings',
    }));
    bundle.onLoad({ filter: /./, namespace: 'readings' }, () => ({
      contents: READ_THERE.map(
        (name) => `exports.${name} = (...told) => require('./readings.js').${name}(...told);`,
      ).join(''),
    }));
    bundle.onResolve({ filter: /^\.\/readings\.js$/ }, ({ path }) => ({ path, external: true }));
    const filter = new RegExp(`^(?:${Object.keys(BESIDE).join('|')}|vscode-languageserver)$`);
    const fileOf = (path) => BESIDE[path] ?? BESIDE[`${path}/node`];
    bundle.onResolve({ filter }, ({ path }) => ({ path: `./${fileOf(path)}.js`, external: true }));
    for (const [ending, out] of [...TABLES_BESIDE, ...Object.keys(TEXTS).map((file) => [file, 'texts'])])
      bundle.onResolve({ filter: new RegExp(`/${ending}$`) }, () => ({ path: `./${out}.js`, external: true }));
    for (const file of TEXTS_OF_TEXT)
      bundle.onResolve({ filter: new RegExp(`/${file}$`) }, ({ path, resolveDir }) =>
        resolve(resolveDir, path) === resolve('server/src/text', file)
          ? { path: './texts.js', external: true }
          : undefined,
      );
    bundle.onResolve({ filter: /\.data$/ }, ({ path, resolveDir }) =>
      resolve(resolveDir, path, '..') === resolve(TABLES) ? { path: './tables.js', external: true } : undefined,
    );
  },
};

const READINGS = ['elsewhere', 'everyday-keys', 'feature', 'mirror-words', 'stock']
  .map((file) => `export * from './${file}';`)
  .join('');
const READ_THERE = [
  ...['readingsOf', 'mirrorKind', 'mirroredPart', 'mirroringEdits', 'everydayKey', 'everydayStock', 'extraTexts'],
  ...['everydayValue', 'everydayWord', 'stepsOf', 'generalText'],
];

/** For an editor in a browser: all in one file each, and no module of Node. */
const web = {
  bundle: true,
  platform: 'browser',
  target: 'es2022',
  minify: true,
  sourcemap: true,
  logLevel: 'warning',
  metafile: true,
  mainFields: ['browser', 'module', 'main'],
  // Asked for by the mesh library where it runs on Node.
  external: ['vscode', 'module', 'node:module'],
};

const built = await Promise.all([
  build({ ...web, format: 'cjs', entryPoints: ['client/web/extension.ts'], outfile: 'dist/web-extension.js' }),
  build({ ...web, format: 'iife', entryPoints: ['server/src/browser/worker.ts'], outfile: 'dist/web-server.js' }),
  // Loaded when something is printed, or an exact solid is made.
  build({
    ...web,
    format: 'esm',
    entryPoints: { 'web-pdf': 'pdfkit' },
    outdir: 'dist',
    sourcemap: false,
    // The library works out where a colour profile lies that it is never asked for; a script from memory lies nowhere.
    define: { 'import.meta.url': '"file:///"' },
  }),
  build({
    ...web,
    format: 'iife',
    entryPoints: ['server/src/browser/exact-worker.ts'],
    outfile: 'dist/web-exact.js',
    sourcemap: false,
  }),
  build({
    ...common,
    entryPoints: ['client/src/extension.ts'],
    outfile: 'dist/extension.js',
    external: ['vscode'],
    // Most of it is the library that speaks with the server.
    minifyIdentifiers: true,
  }),
  build({
    ...common,
    entryPoints: ['server/src/server.ts'],
    outfile: 'dist/server.js',
    plugins: [writingBeside, paperAside, pageBeside, librariesBeside],
  }),
  build({
    ...common,
    entryPoints: ['server/src/service/writing/index.ts'],
    outfile: 'dist/writing.js',
    // Much of it lies in the server too: with short names it weighs half as much in the package.
    minifyIdentifiers: true,
    plugins: [librariesBeside],
  }),
  build({
    ...common,
    entryPoints: Object.entries({ ...BESIDE, [YAML]: 'yaml' }).flatMap(([from, out]) =>
      out === 'zod' || from === 'yaml' ? [] : [{ in: from, out }],
    ),
    outdir: 'dist',
    // Their own names are of use in no trace of ours.
    minifyIdentifiers: true,
  }),
  build({ ...common, ...zodBeside }),
  ...TABLES_BESIDE.map(([, out, from]) =>
    build({ ...common, entryPoints: [from], outfile: `dist/${out}.js`, plugins: [librariesBeside] }),
  ),
  build({ ...common, stdin: published, outfile: 'dist/tables.js' }),
  build({ ...common, stdin: texts, outfile: 'dist/texts.js' }),
  build({
    ...common,
    stdin: { contents: READINGS, resolveDir: 'server/src/model/everyday' },
    outfile: 'dist/readings.js',
    minifyIdentifiers: true,
    plugins: [librariesBeside],
  }),
  build({
    ...common,
    entryPoints: ['server/src/node/aside-worker.ts'],
    outfile: 'dist/aside-worker.js',
    // All of it that judges lies in the server too: see above.
    minifyIdentifiers: true,
    plugins: [librariesBeside],
  }),
  // Threads that hold little of ours but what is in the server: short names, as above.
  ...['mesh', 'exact', 'solver'].map((thread) =>
    build({
      ...common,
      entryPoints: [`server/src/node/${thread}-worker.ts`],
      outfile: `dist/${thread}-worker.js`,
      minifyIdentifiers: true,
    }),
  ),
  build({
    bundle: true,
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    minify: true,
    logLevel: 'warning',
    metafile: true,
    entryPoints: {
      view: 'client/view/main.ts',
      sheet: 'client/view/sheet.ts',
      job: 'client/view/job.ts',
      plan: 'client/view/plan.ts',
    },
    outdir: 'dist',
  }),
  build({
    ...common,
    entryPoints: ['server/src/cli.ts'],
    outfile: 'dist/cli.js',
    plugins: [serverBeside, pageBeside, librariesBeside],
    banner: { js: `#!/usr/bin/env node\n${common.banner.js}` },
  }),
]);
// A few letters beyond ASCII are left, in patterns only, and make the whole file take two bytes a letter in each thread.
for (const file of ['server', 'aside-worker', 'cli', 'writing'].map((name) => `dist/${name}.js`)) {
  const escaped = (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(file, readFileSync(file, 'utf8').replace(/[^\0-\x7f]/g, escaped));
}
for (const sheet of ['view', 'page', 'job', 'plan']) copyFileSync(`client/view/${sheet}.css`, `dist/${sheet}.css`);
copyFileSync('node_modules/manifold-3d/manifold.wasm', 'dist/manifold.wasm');
packWasm('node_modules/highs/build/highs.wasm', 'dist/highs.wasm.br');
rmSync('dist/highs.wasm', { force: true });
copyKernel('dist/kernel');
copyFonts('dist/fonts');
const metafiles = built.map((b) => b.metafile);
// What an earlier build left under another name would be packed as if it were of this one.
const written = new Set(metafiles.flatMap((metafile) => Object.keys(metafile.outputs)));
for (const file of readdirSync('dist').filter((name) => /\.js(?:\.map)?$/.test(name)))
  if (!written.has(`dist/${file}`)) rmSync(`dist/${file}`);
writeFileSync('dist/THIRD-PARTY-NOTICES.txt', notices(metafiles, [KERNEL, FONTS]));
