/** Small shops for tests of rules: only what the case needs, so that a number in the test can be followed by hand. */
import { resolveShop } from '../../server/src/model/shop';
import type { Shop } from '../../server/src/model/shop-model';
import { readText } from '../../server/src/text/read';

const HEAD = `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
holders:
  chuck: { diameter: 40, length: 60 }
tools:
`;

const kept = new Map<string, Shop>();

/** A shop with these tools (YAML, one a line), and settings under `limits:`. */
export function shopWith(tools: string, limits = ''): Shop {
  const text = `${HEAD}${tools.trimEnd().replace(/^ */gm, '  ')}\n${limits && `limits:\n${limits}\n`}`;
  let shop = kept.get(text);
  if (!shop) {
    shop = resolveShop(readText(text), 'bench.shop.yaml');
    const [problem] = shop.problems;
    if (problem) throw new Error(`the test's shop is wrong: ${problem.message}`);
    kept.set(text, shop);
  }
  return shop;
}

/** An end mill whose shank is as thick as its cut. */
export function endMill(name: string, diameter: number, reach: number, more = ''): string {
  return `${name}: { kind: end-mill, diameter: ${diameter}, flutes: 3, flute-length: ${Math.min(reach, 3 * diameter)}, reach: ${reach}, shank: ${diameter}, material: carbide${more && `, ${more}`} }\n`;
}

export function drill(diameter: number, flutes: number, more = ''): string {
  return `dr-${diameter}: { kind: drill, diameter: ${diameter}, flute-length: ${flutes}, point: 118, material: hss${more && `, ${more}`} }\n`;
}

export function tap(thread: string, chamfer: string, reach: number): string {
  return `tap-${thread.toLowerCase().replace(/[^a-z0-9]/g, '-')}-${chamfer}: { kind: tap, thread: ${thread}, chamfer: ${chamfer}, reach: ${reach}, material: hss }\n`;
}
