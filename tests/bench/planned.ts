/** Parts with their set-ups in the text: every example, and the bench's own, each planned and the plan written. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { plate } from './parts';
import { deck } from './plan';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');

export interface PlannedPart {
  readonly name: string;
  readonly text: string;
  readonly shop: Shop;
  readonly shopText: string | undefined;
}

/** Those that hold set-ups once planned; a part that cannot be planned whole keeps what its author wrote. */
export function plannedParts(wanted: (name: string) => boolean = () => true): readonly PlannedPart[] {
  const campus = readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8');
  const all = [
    ...['parts', 'faulty'].flatMap((folder) => fromFolder(join(GIMBAL, folder), campus)),
    { name: 'plate of 20', text: plate(20), shopText: campus },
    { name: 'deck of 40', text: deck(40), shopText: campus },
    ...RULES.filter((r) => r.when !== 'job').flatMap((r) => {
      const shopText = r.shop;
      // The bad one and the good one differ in a line: one of each rule will do.
      return [{ name: `${r.name} good`, text: r.good, shopText }].filter((p) => /^setups:/m.test(p.text));
    }),
  ];
  const shops = new Map<string, Shop>();
  const shopOf = (text: string | undefined) => {
    if (text === undefined) return builtinShop();
    const known = shops.get(text) ?? checkShop(text, 'file:///bench.shop.yaml').shop;
    shops.set(text, known);
    return known;
  };
  return all
    .filter(({ name }) => wanted(name))
    .map(({ name, text, shopText }) => {
      const shop = shopOf(shopText);
      return { name, text: withPlan(text, shop), shop, shopText };
    })
    .filter((p) => /^setups:/m.test(p.text));
}

function fromFolder(folder: string, shopText: string) {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.part.yaml'))
    .sort()
    .map((file) => ({ name: file, text: readFileSync(join(folder, file), 'utf8'), shopText }));
}

function withPlan(text: string, shop: Shop): string {
  const checked = checkPart(text, shop);
  if (checked.part.setups) return text;
  const plan = planOf(checked);
  if (!plan || plan.setups.length === 0) return text;
  const setups = plan.setups.map((s) => s.setup);
  return applyEdits(text, locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)));
}
