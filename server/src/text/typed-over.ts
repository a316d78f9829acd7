/** What a person types over a dimension: its unit and its tolerance stay unless others are typed. */
import { cutTolerance } from './tolerance';
import { GrammarError, UNIT_PATTERN } from './units';

const UNIT_AT_END = new RegExp(`(${UNIT_PATTERN})$`);
const NUMBER = /^-?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;

/** `24` over `22 mm H7` is `24 mm H7`; `24 H8` is that; an expression or a word is taken as it is. */
export function typedOver(written: string, typed: string): string {
  const [old, fresh] = [parted(written), parted(typed.trim())];
  const core = fresh.core.replace(/^(-?\d*),(\d+)/, '$1.$2');
  const hasUnit = UNIT_AT_END.test(core);
  const isNumber = NUMBER.test(fresh.core.replace(UNIT_AT_END, '').trim());
  if (!isNumber) return typed.trim();
  const unit = hasUnit ? '' : (/^-?[\d.]/.test(old.core) && UNIT_AT_END.exec(old.core)?.[0].trim()) || '';
  const rest = fresh.rest === '' ? old.rest : fresh.rest;
  const spaced = unit === '' || /^["″]/.test(unit) || /\d(?:mm|in)$/.test(old.core) ? unit : ` ${unit}`;
  return `${core}${spaced}${rest === '' ? '' : ` ${rest}`}`;
}

/** Value with unit, and tolerance. */
function parted(source: string): { readonly core: string; readonly rest: string } {
  try {
    const { end } = cutTolerance(source);
    return { core: source.slice(0, end).trim(), rest: source.slice(end).trim() };
  } catch (failure) {
    if (!(failure instanceof GrammarError)) throw failure;
    return { core: source.trim(), rest: '' };
  }
}
