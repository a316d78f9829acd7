/**
 * Writes everything that is made from the sources and committed: the JSON Schemas, the pages of the format, the rules and the tables,
 * the built-in shop, the widths of the sheet's letters. `--check` writes nothing and exits 1, naming them, when files are not what they would be.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { builtinShopModule } from './builtin-shop';
import { fontMetricsModule } from './font-metrics';
import { formatPage } from './format-page';
import { jsonSchema } from './json-schema';
import { withOldWords } from './old-words';
import { rulePages, withRules } from './rules';
import { tablesPage } from './tables-page';

export const REPOSITORY = fileURLToPath(new URL('../..', import.meta.url));

/** Path below the repository's root → text. `pages`: of the rules, which judge their examples. */
export function generated(pages: ReadonlyMap<string, string> = rulePages()): ReadonlyMap<string, string> {
  const files = new Map(pages);
  for (const kind of ['part', 'shop', 'job', 'record'] as const) {
    files.set(
      `schemas/${kind}.schema.json`,
      `${JSON.stringify(withOldWords(withRules(kind, jsonSchema(kind))), null, 2)}\n`,
    );
  }
  files.set('schemas/FORMAT.md', formatPage());
  files.set('schemas/TABLES.md', tablesPage());
  files.set('server/src/model/builtin-shop.generated.ts', builtinShopModule());
  files.set('server/src/sheet/draw/metrics.generated.ts', fontMetricsModule(REPOSITORY));
  return files;
}

/** Those whose file is missing or says something else. */
export function outdated(files = generated()): readonly string[] {
  return [...files].filter(([path, text]) => read(path) !== text).map(([path]) => path);
}

function read(path: string): string | undefined {
  const file = join(REPOSITORY, path);
  return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
}

function main(check: boolean): void {
  const files = generated();
  const changed = outdated(files);
  if (check) {
    for (const path of changed) console.error(`${path} is not current: run \`npm run generate\`.`);
    if (changed.length > 0) process.exitCode = 1;
    return;
  }
  for (const path of changed) {
    const file = join(REPOSITORY, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, files.get(path)!);
    console.log(`wrote ${path}`);
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) main(process.argv.includes('--check'));
