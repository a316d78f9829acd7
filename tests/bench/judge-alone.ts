/** Bundled and run by `keystroke.ts`: every number of the parts in a file changed, by the judge alone, in processor time. */
import { readFileSync } from 'node:fs';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { EditClock, spentHere } from './edit-clock';
import { after, named, numberEdits } from './edits';

interface Given {
  readonly name: string;
  readonly text: string;
  readonly shopText?: string;
}

async function main(file: string): Promise<void> {
  const parts = JSON.parse(readFileSync(file, 'utf8')) as readonly Given[];
  const clock = new EditClock(spentHere);
  const shops = new Map<string, Shop>();
  const shopOf = (text: string | undefined) => {
    if (text === undefined) return builtinShop();
    const shop = shops.get(text) ?? checkShop(text, 'file:///bench.shop.yaml').shop;
    shops.set(text, shop);
    return shop;
  };
  for (const part of parts) {
    clock.parse();
    const shop = shopOf(part.shopText);
    let last = checkPart(part.text, shop);
    const judge = (text: string) => {
      last = checkPart(text, shop, last);
      return last.findings;
    };
    for (const edit of numberEdits(part.text)) {
      await clock.edit(
        part.name,
        named(part, edit),
        () => judge(after(part, edit)),
        () => judge(part.text),
      );
    }
  }
  process.stdout.write(JSON.stringify(clock.result(parts.length)));
}

void main(process.argv[2]!);
