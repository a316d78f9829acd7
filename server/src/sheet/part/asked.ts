/** What is asked of the whole part in words: treatment, coat with the sizes to cut to, notes. */
import type { Part } from '../../model/model';
import { coatedSizes } from '../../rules/kit/coating';
import type { SheetWords } from '../language/en';
import { num, sized } from './numbers';

/** For a paper without the sign of ISO 13715: edges without a size in words, too. */
export function askedInWords(part: Part, words: SheetWords, called: (name: string) => string): readonly string[] {
  return [...askedLines(part, words, called), ...edgeLines(part, words)];
}

function edgeLines({ deburr, units }: Part, words: SheetWords): readonly string[] {
  const { outside, inside } = deburr ?? {};
  if (!outside && !inside) return [];
  return [words.edgesLeft(outside && num(outside.mm, units), inside && num(inside.mm, units))];
}

export function askedLines(part: Part, words: SheetWords, called: (name: string) => string): readonly string[] {
  return [...(part.treatment ? [part.treatment.name] : []), ...coatLines(part, words, called), ...part.notes];
}

function coatLines(part: Part, words: SheetWords, called: (name: string) => string): readonly string[] {
  const { coating, units } = part;
  if (!coating) return [];
  const masked = coating.masked.map((m) => called(m.name)).join(', ');
  const what = [
    `${words.coats[coating.name]}${coating.thickness ? ` ${sized(coating.thickness, units)}` : ''}`,
    ...(masked === '' ? [] : [words.masked(masked)]),
  ].join(', ');
  const sizes = coatedSizes(part).map(({ size, lowerMm, upperMm }) => {
    const [low, high] = [size.length.mm + lowerMm, size.length.mm + upperMm].map((mm) => num(mm, units));
    return `${size.feature ? called(size.feature.name) : size.what} ${low} … ${high}`;
  });
  return [what, ...(sizes.length > 0 ? [words.cutTo(sizes.join(', '))] : [])];
}
