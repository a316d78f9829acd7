/**
 * The built-in shop as it is kept ready: worked out from its text once, when the text is changed, and written to
 * `builtin-shop.generated.ts`. Reading YAML takes as long as checking fifty parts; nobody should wait for it at start.
 */
import type { Shop } from './shop-model';

/** A shop as one line of JSON; its limits become lists, for JSON has no maps. */
export function pack(shop: Shop): string {
  const limits = [...shop.limits].map(([rule, settings]) => [rule, [...settings]]);
  return JSON.stringify({ ...shop, limits });
}

export function unpack(json: string): Shop {
  const kept = JSON.parse(json) as Omit<Shop, 'limits'> & { limits: [string, [string, number][]][] };
  return { ...kept, limits: new Map(kept.limits.map(([rule, settings]) => [rule, new Map(settings)])) };
}

/** The module that holds it. */
export function keptModule(shop: Shop): string {
  const json = pack(shop).replaceAll('\\', '\\\\').replaceAll("'", "\\'");
  return `// Generated from builtin-shop.ts by \`tsx server/generate/builtin-shop.ts\`; the tests check that it is current.\nexport const KEPT =\n  '${json}';\n`;
}
