/** General tolerances as lines of text: what every dimension without one of its own gets. */
import { type General, generalsOf, generalsOfFaces } from '../machining/tolerances/general';
import type { Angle, Length, Part } from '../spec/model';
import { formatLength } from '../text/format';

/** All of a part's: the body and its faces, then feature by feature. */
export function partGenerals(part: Part): readonly General[] {
  return [
    ...(part.body ? generalsOf(part.body, part) : []),
    ...generalsOfFaces(part),
    ...part.features.flatMap((f) => generalsOf(f, part)),
  ];
}

/** `±0.2 mm`, `±1°`, `0.1 mm` for a zone. */
export function generalText({ value, unit, of }: General, units: 'mm' | 'in'): string {
  const size = unit === 'mm' ? formatLength(value, units) : degrees(value);
  return of ? `±${size}` : size;
}

function degrees(deg: number): string {
  const minutes = Math.round(deg * 60);
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [...(whole > 0 ? [`${whole}°`] : []), ...(rest > 0 || whole === 0 ? [`${rest}′`] : [])].join(' ');
}

/** What a value gets that carries no tolerance of its own, with its limits; undefined where none is given. */
export function generalLine(value: Length | Angle, part: Part): string | undefined {
  const found = partGenerals(part).find((g) => g.of === value);
  if (!found || !part.tolerance) return undefined;
  const limits =
    'mm' in value && found.unit === 'mm'
      ? `: ${formatLength(value.mm - found.value, part.units)} to ${formatLength(value.mm + found.value, part.units)}`
      : '';
  return `No tolerance of its own: ${part.tolerance.name} gives ${generalText(found, part.units)}${limits} (${found.source})`;
}
