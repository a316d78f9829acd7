/** A part in many sizes: each row of its table as a document of its own, in place of the part's. */
import { memo } from '../memo';
import type { Job, JobPart } from '../model/job-model';
import { sharedText } from '../model/job-parameters';
import { textWith } from '../model/variants';
import type { JobPiece } from '../planning/job';
import { readPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { variantOf } from '../rules/variants';
import { linesOf } from '../text/lines';
import { fault } from './faults';
import { type PartSnapshot, type PieceSnapshot, wholePart } from './snapshot';

/** Undefined where the table has no such row. */
function variantSnapshot(part: PartSnapshot, name: string): PartSnapshot | undefined {
  const checked = variantOf(part.checked, name);
  return checked && instead(part, checked);
}

/** The document with another part in it. */
function instead(part: PartSnapshot, checked: CheckedPart): PartSnapshot {
  const { path, lines, shopPath, besides } = part;
  const { text } = checked.tree;
  return wholePart({ path, shopPath, besides, text, checked, lines: text === part.text ? lines : linesOf(text) });
}

/** The parts that a text means: its rows, or where it has no table itself; or the one row that is asked for. */
export function sizesIn(part: PartSnapshot, only?: string): readonly PartSnapshot[] {
  const names = namesOf(part);
  if (only === undefined && names.length === 0) return [part];
  return (only === undefined ? names : [only]).flatMap((name) => variantSnapshot(part, name) ?? []);
}

/** What a job makes of a part: the row that it names, with the values that all parts of the job share. */
export function pieceOf(part: PartSnapshot, judged: CheckedPart, entry: JobPart, job: Job): PieceSnapshot {
  const checked = sized(judged, entry, job);
  const snapshot = checked === part.checked ? part : instead(part, checked);
  const quantity = entry.quantity?.value ?? checked.part.quantity;
  return { entry, checked, snapshot, quantity, variants: namesOf(part) };
}

function sized(checked: CheckedPart, { variant }: JobPart, { parameters, units }: Job): CheckedPart {
  const row = variant ? (variantOf(checked, variant.name) ?? checked) : checked;
  const values = parameters.flatMap(({ name, value }) => {
    const text = row.part.parameters.has(name) ? sharedText(value, { job: units, part: row.part.units }) : undefined;
    return text === undefined ? [] : [[name, text] as const];
  });
  return values.length > 0 ? sharing(row, textWith(row.tree, new Map(values))) : row;
}

const sharing = memo((part: CheckedPart, text: string) => readPart(text, part.shop, part), { size: 2 });

/** What a job asks of its parts that they know nothing of. */
export function strangeIn(job: Job, pieces: readonly JobPiece[]): readonly Finding[] {
  const rows = pieces.flatMap(({ entry: { name, spec, variant }, variants = [] }) =>
    variant && !variants.includes(variant.name)
      ? [fault(`\`${spec.name}\` ${withoutVariant(variants, variant.name)}`, [name], variant.span, {})]
      : [],
  );
  return [...rows, ...uselessParameters(job, pieces)];
}

/** Values that a job shares with none of its parts, and bare numbers that would mean another length in one of them. */
function uselessParameters({ parameters, units }: Job, pieces: readonly JobPiece[]): readonly Finding[] {
  return parameters.flatMap(({ name, span, value }) => {
    const users = pieces.filter(({ checked }) => checked.part.parameters.has(name));
    if (users.length === 0)
      return [fault(`No part of this job has a parameter \`${name}\`. Delete it, or correct its name.`, [], span, {})];
    const other = users.find((p) => sharedText(value, { job: units, part: p.checked.part.units }) === undefined);
    if (!other) return [];
    const message = `\`${name}\` has no unit, and ${other.entry.name} is written in \`${other.checked.part.units}\`: there it is left as it is. Write its unit, like \`${value.value} ${units}\`.`;
    return [fault(message, [other.entry.name], span, {})];
  });
}

/** Where a part has no such row: what it has. */
export function withoutVariant(names: readonly string[], name: string): string {
  const has = names.length > 0 ? `Write one of ${names.slice(0, 8).join(', ')}.` : 'Add it under `variants`.';
  return `has no variant \`${name}\`. ${has}`;
}

export function namesOf({ checked }: Pick<PartSnapshot, 'checked'>): readonly string[] {
  return checked.part.variants.map((v) => v.name);
}
