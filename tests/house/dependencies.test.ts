/** Whatever is imported by name is a dependency of our own, not one that another package happens to bring along. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join, relative, resolve } from 'node:path';

const ROOT = resolve(__dirname, '../..');
const FOLDERS = ['client', 'server', 'tests', 'examples'];
const SOURCE = /\.(?:ts|mts|js|mjs|cjs)$/;
/** The module to be imported, at the start of a statement, after `from`, or in a call of `import` or `require`. */
const IMPORT =
  /^\s*(?:import|export)\s(?:[^'"`;]*?\sfrom\s)?\s*['"]([^'"\n]+)['"]|\b(?:import|require|require\.resolve)\(\s*['"]([^'"\n]+)['"]\s*\)/gm;

/** What the runtimes bring: Node's own modules, and the editor's interface, whose types are declared in its place. */
const GIVEN = new Map([['vscode', '@types/vscode'], ...builtinModules.map((name) => [name, '@types/node'] as const)]);

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((e) => {
    const path = join(folder, e.name);
    if (e.isDirectory()) return e.name === 'node_modules' || e.name === 'artefacts' ? [] : filesBelow(path);
    return SOURCE.test(e.name) ? [path] : [];
  });
}

/** `@scope/name/file` and `name/file` are in `@scope/name` and `name`. */
const packageOf = (module: string) =>
  module
    .split('/')
    .slice(0, module.startsWith('@') ? 2 : 1)
    .join('/');

function importsOf(text: string): string[] {
  const modules = [...text.matchAll(IMPORT)].map((m) => (m[1] ?? m[2])!);
  return modules.filter((m) => !m.startsWith('.') && !m.startsWith('/'));
}

interface Declared {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}
const { dependencies = {}, devDependencies = {} } = JSON.parse(
  readFileSync(join(ROOT, 'package.json'), 'utf8'),
) as Declared;
const declared = new Set([...Object.keys(dependencies), ...Object.keys(devDependencies)]);

describe('dependencies', () => {
  const files = [...FOLDERS.map((f) => join(ROOT, f)).flatMap(filesBelow), join(ROOT, 'build.mjs')];
  const imports = files.flatMap((file) => importsOf(readFileSync(file, 'utf8')).map((module) => ({ file, module })));

  it('are declared wherever they are imported', () => {
    const wrong = imports.flatMap(({ file, module }) => {
      const name = module.startsWith('node:') ? '@types/node' : (GIVEN.get(packageOf(module)) ?? packageOf(module));
      return declared.has(name) ? [] : [`${relative(ROOT, file)} imports ${module}: ${name} is not in package.json`];
    });
    assert.deepEqual(wrong, []);
  });

  it('are seen in every way they can be asked for', () => {
    const text = [
      "import a from 'one';",
      "import {\n  type B,\n  c,\n} from '@two/three/four';",
      "import 'five/six';",
      "export * from 'seven';",
      // put together here, so that this file does not ask for them itself
      `const d = await import${"('eight')"};`,
      `const e = require${"('nine')"};`,
      "import f from './own';",
    ].join('\n');
    const names = ['one', '@two/three', 'five', 'seven', 'eight', 'nine'];
    assert.deepEqual(importsOf(text).map(packageOf), names);
    const seen = new Set(imports.map(({ module }) => packageOf(module)));
    for (const known of ['zod', 'three', 'fast-check', 'esbuild', 'fast-xml-parser']) assert.ok(seen.has(known), known);
  });
});
