/** Works the built-in shop out from its text and writes it down, so that nothing has to parse YAML to start. */
import { readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { resolveShop } from '../src/model/shop';
import { readText } from '../src/text/read';

const KEPT_PATH = new URL('../src/model/builtin-shop.generated.ts', import.meta.url);

export const BUILTIN_SHOP_TEXT = readFileSync(new URL('../../schemas/everyday.shop.yaml', import.meta.url), 'utf8');

/** The module's text. Throws where the built-in shop has a problem: that is ours to mend, never the user's. */
export function builtinShopModule(): string {
  const shop = { ...resolveShop(readText(BUILTIN_SHOP_TEXT)), builtIn: true };
  if (shop.problems.length > 0) throw new Error(shop.problems.map((p) => p.message).join('\n'));
  if (shop.limits.size > 0) throw new Error('The built-in shop sets limits: those of the rules hold for it.');
  const json = JSON.stringify(shop).replaceAll('\\', '\\\\').replaceAll("'", "\\'");
  return `// Generated from schemas/everyday.shop.yaml by \`tsx server/generate/builtin-shop.ts\`; the tests check that it is current.\nexport const KEPT =\n  '${json}';\n`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) writeFileSync(KEPT_PATH, builtinShopModule());
