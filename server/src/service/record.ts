/** A record in the editor: sizes it may name, what a size came out as, and one to begin with. */
import { passesOfPart } from '../process/passes';
import { type JudgedRecord, recordSizes } from '../report/record/record';
import type { CheckedRecord } from '../rules/check';
import type { Finding } from '../rules/kit/rule';
import { inTextOrder } from '../rules/order';
import { measuredFindings } from '../rules/tol/measured';
import { sheetPartOf } from '../sheet/sheet-part';
import { formatFine } from '../text/format';
import { escapeMarkdown } from '../text/markdown';
import { at, scalarAt } from '../text/tree';
import { fault, sentence } from './faults';
import { CompletionItemKind } from './shapes';
import type { PartSnapshot, RecordSnapshot } from './snapshot';
import type { Suggestion } from './suggestion';

/** Under `size`: those with limits of the feature that stands beside it, or of the body. */
export function sizeSuggestions(
  { part, checked }: RecordSnapshot,
  path: readonly PropertyKey[],
  offset: number,
): readonly Suggestion[] {
  if (!part || path.at(-1) !== 'size') return [];
  const { tree } = checked;
  const list = at(tree.root, 'measured');
  const entry = list?.type === 'list' ? list.items.find((item) => isIn(tree.locate(item.span), offset)) : undefined;
  const of = entry?.type === 'map' ? scalarAt(entry, 'of')?.source : undefined;
  return recordSizes(part.checked.part).flatMap((s) =>
    s.feature?.name === of
      ? [{ label: s.what, detail: limitsText(s.limitsMm, checked.record.units), kind: CompletionItemKind.Value }]
      : [],
  );
}

/** Of the measured size at an offset: its limits, and how far it is out of them. */
export function measuredText({ judged, checked }: RecordSnapshot, offset: number): readonly string[] {
  const { tree, record } = checked;
  const found = judged?.sizes.find(({ measured }) => isIn(tree.locate(measured.span), offset));
  if (!found) return [];
  const { name, measured, limitsMm, outMm } = found;
  const length = (mm: number) => formatFine(Number(mm.toFixed(4)), record.units);
  const how = outMm === 0 ? 'within' : `**${length(Math.abs(outMm))} ${outMm > 0 ? 'over' : 'under'}**`;
  return [`${escapeMarkdown(name)} ${length(measured.valueMm)}: ${how} ${limitsText(limitsMm, record.units)}`];
}

/** What its text gets wrong, names that the part or the shop does not have, and every size that is out by what the part says today. */
export function recordFindings({ findings, record, tree }: CheckedRecord, judged: JudgedRecord): readonly Finding[] {
  const unknown = judged.unknown.map(({ measured, why }) => fault(`${sentence(why)}.`, [], measured.span, {}));
  const length = (mm: number) => formatFine(Number(mm.toFixed(4)), record.units);
  return inTextOrder([...findings, ...unknown, ...measuredFindings(judged.sizes, length)], tree);
}

function isIn({ start, end }: { readonly start: number; readonly end: number }, offset: number): boolean {
  return start <= offset && offset <= end;
}

function limitsText([least, most]: readonly [number, number], units: 'mm' | 'in'): string {
  const length = (mm: number) => formatFine(Number(mm.toFixed(4)), units);
  return `${length(least)} … ${length(most)}`;
}

/**
 * To begin with: a line for each size that the sheet has measured, of each piece, to be filled in and uncommented. `file`:
 * the part's, from where the record lies; `mark`: of the sheet it is made by.
 */
export function starterRecord({ checked }: PartSnapshot, file: string, mark: string): string {
  const { part } = checked;
  const { read } = sheetPartOf(checked, { plan: false });
  const setups = passesOfPart({ part: read.part, solid: read.solid, shop: read.shop });
  const known = recordSizes(part);
  const sizes = setups
    .flatMap((s) => s.measures)
    .flatMap((m) => known.filter((k) => k.feature?.name === m.of && k.what === m.what));
  // Without set-ups nothing is measured yet: every size with limits.
  const rows = sizes.length > 0 ? [...new Set(sizes)] : known;
  const pieces = Array.from({ length: Math.min(part.quantity, MOST_PIECES) }, (_, i) => i + 1);
  const lines = pieces.flatMap((piece) =>
    rows.map(({ feature, what, limitsMm }) => {
      const of = feature ? `of: ${feature.name}, ` : '';
      return `  # - { piece: ${piece}, ${of}size: ${what}, value: , mark: ${mark} } # ${limitsText(limitsMm, part.units)}`;
    }),
  );
  return [
    `record: ${file}`,
    ...(part.units === 'in' ? ['units: in'] : []),
    ...(lines.length > 0
      ? ['# Fill in what was measured, and delete the mark before the line.', 'measured:', ...lines]
      : []),
    '',
  ].join('\n');
}
/** Beyond these one copies lines. */
const MOST_PIECES = 10;
