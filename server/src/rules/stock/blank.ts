/** What a blank lacks of the part: told by stock/too-small. */
import { lackingAtFirst } from '../../geometry/blank';
import { solidOfVolumes } from '../../geometry/part-solid';
import type { Solid, Void } from '../../geometry/types';
import type { Blank } from '../../model/model';
import type { Told } from '../kit/define';
import { capital } from '../kit/message';
import type { RuleContext } from '../kit/rule';

/** Sums over sections are sure to a millionth. */
const NOTHING_MM3 = 0.1;
const OF_ALL = 1e-5;

/** Where the part sticks out of its blank, and by how much. */
export function* missingOfBlank({ part, solid, length }: RuleContext, blank: Blank): Generator<Told> {
  for (const [face, extra] of Object.entries(part.stock.extra))
    if (extra && extra.mm < 0)
      yield {
        message: `The blank ends ${length(-extra.mm)} inside the ${face} face of the body. That much of the part is missing. Use a larger blank, or place it otherwise with \`extra\`.`,
        of: [face],
        span: extra.span,
        facts: { extra_mm: extra.mm },
      };
  const lacks = new Map<string, Void[]>();
  for (const v of lackingAtFirst(part)) lacks.set(v.feature, [...(lacks.get(v.feature) ?? []), v]);
  for (const [name, voids] of lacks) {
    const left = voids.map((v) => ({ v, left: missingOf(v, solid) }));
    const worst = left.reduce((a, b) => (b.left.mm3 > a.left.mm3 ? b : a));
    if (worst.left.mm3 <= Math.max(NOTHING_MM3, OF_ALL * worst.left.ofMm3)) continue;
    const cut = name.replace(/ of the blank$/, '');
    yield {
      message: `${capital(cut)} is cut from the blank, and ${Math.max(1, Math.round(worst.left.mm3))} mm³ of this part are there. Cut as much of it here too, or correct ${blank.file}.`,
      of: [],
      span: blank.span,
      facts: { missing_mm3: worst.left.mm3 },
    };
  }
}

/** How much of a volume is material of the finished part. */
function missingOf(v: Void, { body, voids }: Solid): { readonly mm3: number; readonly ofMm3: number } {
  const with_ = solidOfVolumes({ body, voids: [...voids, v] });
  return { mm3: with_.aloneMm3(v), ofMm3: with_.insideMm3(v) };
}
