/** How screw sizes are written: one spelling for `m5`, `M5x0.8`, `#10`, `10-24 UNC`, `No. 10`, `1/4-20`. */
import { MM_PER_INCH } from './units';

/** `M5`, `#10` or `1/4`; undefined where the text names no screw. A bare number is a length, not a screw. */
export function screwSize(text: string): string | undefined {
  // Of either hand: the head and its holes are the same.
  const plain = text.trim().replace(/×/g, 'x').toLowerCase().replace(/-lh$/, '');
  const metric = /^m\s*(\d+(?:[.,]\d+)?)(?:\s*x\s*\d+(?:[.,]\d+)?)?$/.exec(plain);
  if (metric) return `M${Number(metric[1]!.replace(',', '.'))}`;
  const numbered =
    /^(?:#|no\.?\s*)(\d{1,2})(?:-\d+)?(?:\s*un(?:c|f|ef)?)?$/.exec(plain) ??
    /^(\d{1,2})-\d+(?:\s*un(?:c|f|ef)?)?$/.exec(plain);
  if (numbered) return `#${Number(numbered[1])}`;
  const fraction = /^(\d+\/\d+)"?(?:-\d+)?(?:\s*un(?:c|f|ef)?)?$/.exec(plain);
  return fraction ? fraction[1] : undefined;
}

/** Nominal diameter of a size as `screwSize` writes it, mm; undefined for what is none. */
export function screwDiameterMm(size: string): number | undefined {
  if (/^M[\d.]+$/.test(size)) return Number(size.slice(1));
  // Numbered sizes grow by 0.013 in from 0.060 in (ASME B1.1).
  if (/^#\d+$/.test(size)) return (0.06 + 0.013 * Number(size.slice(1))) * MM_PER_INCH;
  const fraction = /^(\d+)\/(\d+)$/.exec(size);
  return fraction ? (Number(fraction[1]) / Number(fraction[2])) * MM_PER_INCH : undefined;
}
