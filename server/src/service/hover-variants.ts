/** On a row of the table of variants: what part it is, and how many findings it has of its own. */
import { figuresAtHand } from '../report/at-hand';
import { count } from '../rules/kit/message';
import { variantOf } from '../rules/variants';
import { code, escapeMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import type { PartSnapshot } from './snapshot';

/** Undefined elsewhere; `quick`: what there is without working the part out. */
export function rowText(
  { checked, findings }: PartSnapshot,
  { path, onKey }: Cursor,
  quick: string | undefined,
): string[] {
  const [section, row] = path;
  if (section !== 'variants' || path.length !== 2 || !onKey) return [];
  if (quick !== undefined) return [quick];
  const variant = variantOf(checked, String(row));
  if (!variant) return [];
  const own = findings.filter((f) => f.variants?.includes(String(row)));
  const figures = figuresAtHand(variant).map(
    ({ name, value }) => `- ${escapeMarkdown(name)}: ${escapeMarkdown(value)}`,
  );
  return [
    [
      `${code(variant.part.name)}${own.length > 0 ? `: ${count(own.length, 'finding')} of its own` : ''}`,
      ...(figures.length > 0 ? [figures.join('\n')] : []),
    ].join('\n\n'),
  ];
}
