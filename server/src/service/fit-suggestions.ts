/** Classes of ISO 286 after a size, each with its limits there and what it is for. */
import type { Part } from '../model/model';
import { fitLimits } from '../tables/fits';
import { MM_PER_INCH } from '../tables/units';
import { CompletionItemKind } from './shapes';
import { signed } from './signed';
import type { Suggestion } from './suggestion';

type Fits = readonly (readonly [fit: string, what: string])[];

const BORES: Fits = [
  ['H7', 'a seat: reamed or bored'],
  ['H8', 'a seat that slides'],
  ['H9', 'loose on its shaft'],
  ['H11', 'room for a pin that is no fit'],
  ['H12', 'close clearance of a screw, ISO 273'],
  ['H13', 'clearance of a screw, ISO 273'],
  ['G7', 'slides with a little play'],
  ['F7', 'runs with play'],
  ['N7', 'held lightly'],
  ['P7', 'pressed in'],
];
/** ANSI B4.1, where the document is in inches. */
const INCH: Fits = [
  ['RC4', 'close running'],
  ['RC7', 'free running'],
  ['LC3', 'located, goes together freely'],
  ['LT3', 'located, light taps'],
  ['LN2', 'located, pressed'],
  ['FN2', 'medium drive'],
];
const WIDTHS: Fits = [
  ['N9', 'a key that goes in by hand: keyway of a shaft'],
  ['P9', 'a key that is tapped in: shaft and hub'],
  ['JS9', 'a key that goes in by hand: hub'],
  ['H9', 'a key that slides: shaft'],
  ['D10', 'a key that slides: hub'],
  ['H8', 'a guide'],
  ['H11', 'room, and no fit'],
];
/** Fields of features that a fit belongs to. */
const BY_FIELD: Readonly<Record<string, Fits>> = { diameter: BORES, width: WIDTHS };

/** A size is written, and a space: `8 `, `8 P`, `0.25 in `. */
const AFTER = /^\s*(\d+(?:\.\d+)?)\s*(mm|in)?\s+[A-Za-z]{0,2}\d{0,2}$/;

export function fitSuggestions(
  { units }: Pick<Part, 'units'>,
  path: readonly string[],
  prefix: string,
): readonly Suggestion[] {
  const fits = path[0] === 'features' ? BY_FIELD[path.at(-1) ?? ''] : undefined;
  const size = fits && AFTER.exec(prefix);
  if (!fits || !size) return [];
  const mm = Number(size[1]) * ((size[2] ?? units) === 'in' ? MM_PER_INCH : 1);
  return (units === 'in' ? [...INCH, ...fits] : fits).flatMap(([fit, what]) => {
    const parts = /^([A-Z]+)(\d+)$/.exec(fit)!;
    const limits = fitLimits(mm, parts[1]!, Number(parts[2]));
    if (!limits) return [];
    const { upperMm, lowerMm } = limits;
    return [
      { label: fit, detail: `${signed(upperMm)} / ${signed(lowerMm)} mm: ${what}`, kind: CompletionItemKind.Value },
    ];
  });
}
