/** Stock that is another part’s finished body: read from its file, laid round the body of this one. */
import {
  at,
  type FoundText,
  type MapEntry,
  mapAt,
  type OtherText,
  type ScalarNode,
  scalarAt,
  type TextTree,
} from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import { type FacePair, turnedSize, turnOf } from '../blank';
import type { Body, Face, Length, Part, Stock } from '../model';
import { type Evaluation, textOf } from './evaluation';
import { lackingIn } from './lacking';
import { quote } from './problem';

/** What the file says that `from` names, and how it is read. */
export interface OtherFile {
  readonly text: OtherText | undefined;
  readonly read: (other: FoundText, text: string) => { readonly tree: TextTree; readonly part: Part };
}

interface Of {
  readonly base: Pick<Stock, 'written' | 'form' | 'sawn' | 'extra' | 'span'>;
  readonly body: Body | undefined;
  readonly other: OtherFile;
}

export function blankStock(work: Evaluation, entry: MapEntry, { base, body, other }: Of): Stock | undefined {
  const from = scalarAt(entry.value, 'from');
  if (!from)
    return work.fail(
      'A blank needs `from`: the part file that it is. Write it like `from: plate-blank.part.yaml`.',
      entry.key.span,
    );
  const part = partOf(work, from, other);
  const turn = part && turnFrom(work, entry);
  if (!part || !turn || !other.text || 'why' in other.text) return undefined;
  const extra = body ? layRound(work, base.extra, turnedSize(turn, part.size), { body, from }) : base.extra;
  const blank = { file: textOf(from), path: other.text.path, span: from.span, part, turn };
  return extra && { ...base, extra, blank };
}

/** The other part, where all of its body is understood. */
function partOf(work: Evaluation, from: ScalarNode, { text, read }: OtherFile): Part | undefined {
  if (!text) return work.fail(`${quote(from.source)} was not read here. Check this file with its folder.`, from.span);
  if ('why' in text) return work.fail(text.why, from.span, {}, 'form/unknown-name');
  const { tree, part } = read(text, text.text);
  const why = tree.problems[0] ?? (part.body ? undefined : (part.problems[0] ?? { message: 'it has no `body`.' }));
  if (why) return work.fail(`${quote(from.source)} cannot be read: ${why.message}`, from.span);
  const lacks = lackingIn({ tree, part }) ?? lackingIn({ tree, part }, 'stock');
  if (lacks) return work.fail(`${quote(from.source)} lacks something itself. ${lacks}`, from.span);
  const [broken] = part.broken;
  if (broken === undefined) return part;
  const told = part.problems.find((p) => p.of === broken)?.message;
  return work.fail(
    `${quote(broken)} of ${quote(from.source)} is not understood. ${told ?? 'Open that file.'}`,
    from.span,
  );
}

function turnFrom(work: Evaluation, entry: MapEntry) {
  const turned = mapAt(entry.value, 'turned');
  const pairs = (turned?.entries ?? []).flatMap(({ key, value }): FacePair[] =>
    value?.type === 'scalar' ? [[String(key.value) as Face, value.value as Face]] : [],
  );
  const turn = turnOf(pairs);
  if (turn) return turn;
  return work.fail(
    pairs.length > 1
      ? 'A blank cannot lie like that: it is never mirrored. Name two of its faces that meet, like `turned: { top: right, front: front }`.'
      : 'Upside down, a blank can lie two ways. Name a second face, like `turned: { top: bottom, front: front }`.',
    at(entry.value, 'turned')!.span,
  );
}

const SIDES = [
  ['left', 'right', 'x'],
  ['front', 'back', 'y'],
  ['bottom', 'top', 'z'],
] as const;

/** What the blank has outside each face: as written, the rest by its size. */
function layRound(
  work: Evaluation,
  written: Stock['extra'],
  size: readonly [number, number, number],
  { body, from }: { readonly body: Body; readonly from: ScalarNode },
): Stock['extra'] | undefined {
  const extra: Partial<Record<Face, Length>> = {};
  const told = (mm: number) => String(Number((mm / work.doc.unitMm).toFixed(6)));
  const { units } = work.doc;
  for (const [i, [low, high, axis]] of SIDES.entries()) {
    const own = body.form === 'box' ? body[axis].mm : body.axis === axis ? body.length.mm : body.diameter.mm;
    const over = size[i]! - own;
    const [a, b] = [written[low], written[high]];
    if (a && b && Math.abs(a.mm + b.mm - over) > ROUNDING)
      work.fail(
        `The blank is ${told(size[i]!)} ${units} along ${axis}; body and \`extra\` make it ${told(own + a.mm + b.mm)} ${units}. Correct one of them, or leave \`${high}\` out.`,
        b.span,
      );
    const by = (mm: number): Length => ({ mm, text: told(mm), span: from.span, from: 'by the size of the blank' });
    const lowMm = a?.mm ?? (b ? over - b.mm : over / 2);
    for (const [face, mm, length] of [
      [low, lowMm, a],
      [high, over - lowMm, b],
    ] as const)
      if (length ?? Math.abs(mm) > ROUNDING) extra[face] = length ?? by(mm);
  }
  return work.broken ? undefined : extra;
}
