/** Works the built-in shop out from its text and writes it down, so that nothing has to parse YAML to start. */
import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { keptModule } from '../src/model/builtin-shop-kept';
import { BUILTIN_SHOP_TEXT } from '../src/model/builtin-shop-text';
import { resolveShop } from '../src/model/shop';
import { readText } from '../src/text/read';

export const KEPT_PATH = new URL('../src/model/builtin-shop.generated.ts', import.meta.url);

/** The module's text. Throws where the built-in shop has a problem: that is ours to mend, never the user's. */
export function builtinShopModule(): string {
  const shop = { ...resolveShop(readText(BUILTIN_SHOP_TEXT)), builtIn: true };
  if (shop.problems.length > 0) throw new Error(shop.problems.map((p) => p.message).join('\n'));
  return keptModule(shop);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) writeFileSync(KEPT_PATH, builtinShopModule());
