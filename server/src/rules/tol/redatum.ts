/** A place dimensioned from another face, the feature staying where it is; and a dimension given a tolerance of its own. */

import { FACE_AXIS, type Face, type Length, type Part } from '../../model/model';
import type { Dimensioned } from '../../process/stackup/drawn';
import { MM_PER_INCH, writeLength } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import type { SpanEdit } from '../kit/rule';

const PLAIN = /^(\d+(?:\.\d+)?|\.\d+)\s*(mm|in)?$/;
/** What YAML reads as more than a plain scalar inside braces. */
const NEEDS_QUOTES = /[,:#{}[\]]/;

/** The value with its tolerance cut off, and the tolerance as written. */
function parts({ text, tolerance }: Length): { readonly value: string; readonly tolerance: string } {
  if (!tolerance) return { value: text.trim(), tolerance: '' };
  return { value: text.slice(0, text.lastIndexOf(tolerance.text)).trim(), tolerance: tolerance.text };
}

/**
 * `x: 20` as `right: 40`. A number stays a number in its own unit, an expression becomes `body.x - (…)`, or loses it.
 * `tolerance` takes the place of the one that is written. Undefined where the place is not written as one value.
 */
export function fromFace(
  { written, atMm, from }: Dimensioned,
  face: Face,
  part: Part,
  tolerance?: string,
): readonly SpanEdit[] | undefined {
  if (!written || part.body?.form !== 'box' || from === face) return undefined;
  const { axis, sign } = FACE_AXIS[face];
  const was = parts(written.length);
  const sizeMm = part.size['xyz'.indexOf(axis)]!;
  const isMm = sign > 0 ? sizeMm - atMm : atMm;
  const size = part.body[axis];
  const literal = PLAIN.test(size.tolerance ? size.text.slice(0, -size.tolerance.text.length).trim() : size.text);
  const value = valueFrom(was.value, isMm, `body.${axis}`, literal, part);
  const text = [value, tolerance ?? was.tolerance].filter((t) => t !== '').join(' ');
  return [
    { span: written.keySpan, newText: face },
    { span: written.length.span, newText: NEEDS_QUOTES.test(text) ? JSON.stringify(text) : text },
  ];
}

function valueFrom(value: string, isMm: number, size: string, literal: boolean, part: Part): string {
  const plain = PLAIN.exec(value);
  if (value === 'center') return literal ? writeLength(isMm, part.units) : `${size} / 2`;
  // A negative place, outside the body, is better read as a difference.
  if (plain && literal && isMm >= 0) {
    const unit = plain[2] as 'mm' | 'in' | undefined;
    return unit ? `${writeLength(isMm, unit)} ${unit}` : writeLength(isMm, part.units);
  }
  const less = /^(body\.[xyz]) *- *([\w.-]+|\([^()]*\))$/.exec(value);
  if (less?.[1] === size && less[2]) return less[2].replace(/^\((.*)\)$/, '$1');
  return `${size} - ${/[-+]/.test(value.replace(/\w-\w/g, '')) ? `(${value})` : value}`;
}

/** The same place with this tolerance. */
export function withTolerance({ written }: Dimensioned, tolerance: string): readonly SpanEdit[] | undefined {
  if (!written || written.length.text === 'center') return undefined;
  const { value } = parts(written.length);
  if (NEEDS_QUOTES.test(value)) return undefined;
  return [{ span: written.length.span, newText: `${value} ${tolerance}` }];
}

/** `±0.02`, no wider than `halfMm`, in the document's units. */
export function plusMinus(halfMm: number, part: Part): string {
  return `±${writeLength(halfMm, part.units, 'down')}`;
}

/** A micrometre, or a tenth of a thou: finer is not written. */
export function canBeWritten(halfMm: number, part: Part): boolean {
  return halfMm >= (part.units === 'in' ? 0.0001 * MM_PER_INCH : 0.001) - ROUNDING;
}
