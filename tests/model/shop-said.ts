/** For tests: a shop or job from text, and what was told of it as `text at the span → message`. */
import type { SpecProblem } from '../../server/src/model/model';
import { resolveShop } from '../../server/src/model/shop';
import type { Shop, Tool } from '../../server/src/model/shop-model';
import { readText } from '../../server/src/text/read';
import type { TextTree } from '../../server/src/text/tree';

export function shopOf(text: string): { shop: Shop; tree: TextTree; said: readonly string[] } {
  const tree = readText(text);
  const shop = resolveShop(tree, 'campus.shop.yaml');
  return { shop, tree, said: shop.problems.map((p) => says(p, tree)) };
}

/** A shop with one tool, `t`. */
export function toolOf(fields: string, units = 'mm'): { tool: Tool | undefined; said: readonly string[]; shop: Shop } {
  const text = `shop: s\nunits: ${units}\nholders: { er20: { diameter: 34 mm, length: 50 mm } }\ntools:\n  t: ${fields}\n`;
  const { shop, said } = shopOf(text);
  return { tool: shop.tools[0], said, shop };
}

export function says(problem: SpecProblem, tree: TextTree): string {
  const { start, end } = tree.locate(problem.span);
  return `${tree.text.slice(start, end)} → ${problem.rule}: ${problem.message}`;
}

/** The text after the first fix of a problem. */
export function mended(problem: SpecProblem, tree: TextTree): string {
  let text = tree.text;
  for (const { span, newText } of problem.fixes?.[0]?.edits ?? []) {
    const { start, end } = tree.locate(span);
    text = text.slice(0, start) + newText + text.slice(end);
  }
  return text;
}
