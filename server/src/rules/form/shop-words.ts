/** Names of the shop's things that set-ups mention and the shop does not have: what hangs on them is judged by nobody. */
import type { Named, Part, Setup } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { nearest } from '../../tables/nearest';

export interface NotInShop {
  readonly what: 'vise' | 'V-block' | 'angle plate' | 'machine' | 'tool';
  readonly name: string;
  readonly span: Named['span'];
  readonly setup: string;
  readonly known: readonly string[];
  readonly near: string | undefined;
}

/** None where the shop itself could not be had: that is told. */
export function notInShop({ setups = [] }: Part, shop: Shop): readonly NotInShop[] {
  if (shop.unread !== undefined) return [];
  return setups.flatMap((setup) =>
    mentioned(setup, shop).flatMap(({ what, named, known }) =>
      !named || known.includes(named.name)
        ? []
        : [{ what, name: named.name, span: named.span, setup: setup.name, known, near: nearest(named.name, known) }],
    ),
  );
}

function mentioned({ hold, machine, tools }: Setup, shop: Shop) {
  const names = (items: readonly { readonly name: string }[]) => items.map((i) => i.name);
  return [
    { what: 'vise' as const, named: hold?.vise, known: names(shop.vises) },
    { what: 'V-block' as const, named: hold?.vBlock, known: names(shop.vBlocks) },
    { what: 'angle plate' as const, named: hold?.anglePlate, known: names(shop.anglePlates) },
    { what: 'machine' as const, named: machine, known: names(shop.machines) },
    ...tools.map(({ tool }) => ({ what: 'tool' as const, named: tool, known: names(shop.tools) })),
  ];
}

/** What is not judged for want of it, or what is taken in its place. */
export const INSTEAD: Readonly<Record<NotInShop['what'], string>> = {
  vise: 'How the workpiece is held there was not checked.',
  'V-block': 'How the workpiece is held there was not checked.',
  'angle plate': 'How the workpiece is held there was not checked.',
  machine: 'The first one of the shop was used instead.',
  tool: 'The tool was chosen from the shop instead.',
};
