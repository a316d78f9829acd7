/** The links of a chain as facts: `link_1` what it is and where its number comes from, `link_1_mm` how much. */
import type { Link } from '../../process/stackup/types';
import type { Facts } from '../kit/rule';

export function linkFacts(links: readonly Link[]): Facts {
  return Object.fromEntries(
    links.flatMap((l, i) => [
      [`link_${i + 1}`, `${l.what} (${l.source})`],
      [`link_${i + 1}_mm`, l.halfMm],
    ]),
  );
}
