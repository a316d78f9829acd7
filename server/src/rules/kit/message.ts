/** Wording that all rules share: lengths, names of features, the narrowest text to point at. */

import type { Void } from '../../geometry/types';
import { materialOf } from '../../model/material-of';
import { featureNameOf, memberName } from '../../model/member-name';
import type { Feature, Part, Units } from '../../model/model';
import { MM_PER_INCH } from '../../text/format';
import type { Span } from '../../text/tree';
import { SAME } from '../../tolerance';
import type { Fix } from './rule';

/** A number without trailing zeros and without −0. */
export function trimmed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** A number for `facts`: to a thousandth, free of the dust of floating point. */
export function fact(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}

/** `mount`, or `mount[2]` for a member of a pattern. */
export function memberOf(v: Pick<Void, 'feature' | 'member'>): string {
  return memberName(v.feature, v.member);
}

/** A feature with its kind, as a sentence names it: `pocket left-cell`, `hole mount[2]`. */
export function memberPhrase(part: Part, name: string): string {
  const feature = part.featureByName.get(featureNameOf(name));
  return feature ? `${feature.kind} ${name}` : name;
}

/** The same at the start of a sentence: `Pocket left-cell`. */
export function subjectOf(part: Part, name: string): string {
  return capital(memberPhrase(part, name));
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Lengths that differ by less are printed alike: nobody believes `2 mm, and 2 mm is the least`. */
export const PRINTED_ALIKE_MM = 5e-4;

/** The same of a ratio, so many times. */
export const PRINTED_ALIKE_RATIO = 5e-4;

/** `a`, `a and b`, `a, b and c`. */
export function list(words: readonly string[], joint = 'and'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${joint} ${words[words.length - 1]}`;
}

/** A ratio, or another bare number, to two digits: `35`, `6.7`; more where it would else read as `beside`. */
export function figure(value: number, beside?: number): string {
  for (let digits = 2; digits < 6; digits++) {
    const text = String(Number(value.toPrecision(digits)));
    if (beside === undefined || value === beside || Number(text) !== beside) return text;
  }
  return String(value);
}

/** Lengths with their unit once: `10, 14 and 18 mm`. */
export function lengths(mm: readonly number[], length: (mm: number) => string, joint = 'and'): string {
  const words = mm.map(length);
  const unit = / \S+$/.exec(words[0] ?? '')?.[0] ?? '';
  return list(
    words.map((w, i) => (i < words.length - 1 && w.endsWith(unit) ? w.slice(0, w.length - unit.length) : w)),
    joint,
  );
}

/** `1 hole`, `2 holes`. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/**
 * Where a field of a feature is written: `spanOf(hole, 'depth')`. The first of the fields that the author wrote;
 * where none is (a default), the feature's name. `at` is the place of the first member, or of `member`.
 */
export function spanOf(feature: Feature, ...fields: readonly string[]): Span {
  for (const field of fields) {
    if (field === 'name') return feature.nameSpan;
    if (field === 'at') {
      const place = feature.places[0];
      if (place) return place.span;
      continue;
    }
    const value = (feature as unknown as Record<string, unknown>)[field];
    const span = writtenSpan(value);
    if (span) return span;
  }
  return feature.nameSpan;
}

function writtenSpan(value: unknown): Span | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { span, from, length } = value as { span?: Span; from?: unknown; length?: { span: Span; from?: unknown } };
  if (length && !length.from) return length.span;
  return span && typeof from !== 'string' ? span : undefined;
}

/** Plastics bend, melt and spring where metals do not: some limits differ. A material nobody named counts as metal. */
export function isPlastic(part: Part): boolean {
  const kind = materialOf(part)?.class;
  return kind === 'plastic' || kind === 'composite';
}

/** The next rounder number that is at least (at most) so much: tenths of a millimetre, or 5 thousandths of an inch. */
export function roundUp(mm: number, units: Units): number {
  const grid = units === 'in' ? 0.005 * MM_PER_INCH : 0.1;
  return Math.ceil(mm / grid - SAME) * grid;
}
export function roundDown(mm: number, units: Units): number {
  const grid = units === 'in' ? 0.005 * MM_PER_INCH : 0.1;
  return Math.floor(mm / grid + SAME) * grid;
}

/** What would do, in the words of the fixes that do it: nothing where there is none. */
export function wouldDo(fixes: readonly (Fix | undefined)[]): string {
  const titles = fixes.flatMap((f) => f?.title ?? []);
  const said = titles.map((t, i) => (i === 0 ? t : `${t[0]!.toLowerCase()}${t.slice(1)}`));
  return said.length > 0 ? ` ${said.join(', or ')}.` : '';
}
