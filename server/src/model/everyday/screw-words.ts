/** A screw with its head, its standard or its length, of which a hole wants the size alone: `M5 SHCS`, `ISO 4762 M5x20`. */
import { screwSize } from '../../tables/screw-size';

const SAID =
  /^(?:shcs|bhcs|fhcs|shc|socket|cap|head|headed|hex|hexagon|screws?|bolts?|flat|countersunk|csk|button|pan|cheese|cylinder|cylindrical|clearance|through|thru|free|fit|hole|for|iso|din|en|zylinderkopf|zylinderschraube|innensechskant|senkkopf|senkschraube|schraube|durchgang|durchgangsloch|für|vis|pour|tornillo|vite|\d{3,5}(?:-\d)?)$/i;

/** The size that is left when what may stand about it is taken off; undefined where nothing stood there, or no size is left. */
export function bareScrew(source: string): string | undefined {
  const words = source.trim().split(/[\s,;]+/);
  const left = words.filter((word) => !SAID.test(word)).join(' ');
  const size = left.replace(/\s*[x×]\s*\d+(?:[.,]\d+)?$/, '');
  return size !== source.trim() && size !== '' && screwSize(size) !== undefined ? size : undefined;
}
