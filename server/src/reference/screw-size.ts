/** How screw sizes are written: one spelling for `m5`, `M5x0.8`, `#10`, `10-24 UNC`, `No. 10`, `1/4-20`. */

/** `M5`, `#10` or `1/4`; undefined where the text names no screw. A bare number is a length, not a screw. */
export function screwSize(text: string): string | undefined {
  const plain = text.trim().replace(/×/g, 'x').toLowerCase();
  const metric = /^m\s*(\d+(?:[.,]\d+)?)(?:\s*x\s*\d+(?:[.,]\d+)?)?$/.exec(plain);
  if (metric) return `M${Number(metric[1]!.replace(',', '.'))}`;
  const numbered =
    /^(?:#|no\.?\s*)(\d{1,2})(?:-\d+)?(?:\s*un[cf])?$/.exec(plain) ?? /^(\d{1,2})-\d+(?:\s*un[cf])?$/.exec(plain);
  if (numbered) return `#${Number(numbered[1])}`;
  const fraction = /^(\d+\/\d+)"?(?:-\d+)?(?:\s*un[cf])?$/.exec(plain);
  return fraction ? fraction[1] : undefined;
}
