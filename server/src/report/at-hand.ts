/** The figures that an author wants in sight, each with how it was found: for the line above the part, the status bar and the hover. */

import { stockVolumeMm3 } from '../geometry/stock-volume';
import type { Wall } from '../geometry/types';
import { materialOf } from '../model/material-of';
import { costOf } from '../planning/cost';
import { pieceTime, spentOn } from '../planning/piece-time';
import type { ReadPart } from '../rules/judging';
import { count } from '../rules/kit/message';
import { wallsBelow } from '../rules/wall/walls';
import { formatLength } from '../text/format';
import { moneyText, mostOf, notIn, ORDER_TEXT } from './costs';
import { minutesText } from './cuts';
import { figuresOf } from './figures';
import { leftOutText } from './left-out';

/** Request: `{ uri }` → `Figure[] | null`, for the status bar. */
export const FACTS = 'scribeline/facts';

export interface Figure {
  readonly name: string;
  readonly value: string;
  readonly how: string;
}

/** Thicker walls are not looked for: nothing thin is wrong with them, and the search would cost more than it tells. */
const LOOKED_FOR_MM = 6;
/** The rules look this far anyway; only where they found nothing is looked further. */
const FIRST_MM = 1.5;

/** The thinnest wall or floor, if it is under 6 mm; what is left beside a broken edge is none. */
export function leastWall({ part, solid }: ReadPart): Wall | undefined {
  if (!part.body) return undefined;
  const thinnest = (belowMm: number) =>
    wallsBelow({ solid, part }, belowMm).reduce<Wall | undefined>(
      (least, w) => (least && least.thicknessMm <= w.thicknessMm ? least : w),
      undefined,
    );
  return thinnest(FIRST_MM) ?? thinnest(LOOKED_FOR_MM);
}

/** In the order of interest. Empty without a body. */
export function figuresAtHand(checked: ReadPart): readonly Figure[] {
  const { part } = checked;
  const { volume_mm3, mass_g, centroid_mm, stock_mm, exact } = figuresOf(checked);
  if (volume_mm3 === null) return [];
  const { units } = part;
  const about = exact ? '' : 'about ';
  const measured = exact
    ? 'added up from exact sections of the finished part, to a millionth'
    : 'partly counted on a coarse grid. It is not exact, since the cuts cross each other too often';
  const material = materialOf(part);
  const found: Figure[] = [
    mass_g === null || !material
      ? { name: 'volume', value: `${about}${(volume_mm3 / 1000).toFixed(2)} cm³`, how: measured }
      : {
          name: 'mass',
          value: `${about}${mass_g.toFixed(1)} g`,
          how: `volume × ${material.densityGPerCm3} g/cm³ of ${material.title} (${material.source}). The volume is ${measured}`,
        },
  ];
  const size = (mm: readonly number[], between: string) =>
    `${mm.map((v) => formatLength(Number(v.toFixed(2)), units).replace(/ \w+$/, '')).join(between)} ${units}`;
  if (centroid_mm)
    found.push({
      name: 'balance',
      value: about + size(centroid_mm, ', '),
      how: 'the centre of gravity, from the first moments of the same sections',
    });
  if (stock_mm) {
    found.push({
      name: 'stock',
      value: size(stock_mm, ' × '),
      how: part.stock.blank
        ? `the finished body of ${part.stock.blank.file}`
        : part.stock.written
          ? 'the body and what `extra` leaves outside it'
          : 'no stock is written, so it is taken as the body',
    });
    const bought = stockVolumeMm3(part);
    if (bought > 0)
      found.push({
        name: 'cut away',
        value: `${Math.round((1 - volume_mm3 / bought) * 100)} %`,
        how: 'the stock that does not stay in the part. The saw’s kerf and the end of the bar are not counted',
      });
  }
  const wall = leastWall(checked);
  found.push({
    name: 'thinnest wall',
    value: wall ? formatLength(wall.thicknessMm, units) : `over ${formatLength(LOOKED_FOR_MM, units)}`,
    how: wall
      ? `the shortest way through the finished part between two cuts, or from a cut to the outside. Here it is a ${wall.type}`
      : `no wall or floor thinner than ${formatLength(LOOKED_FOR_MM, units)} was found. Thicker ones are not looked for`,
  });
  return [...found, ...timeAndCost(checked), ...leftOut(checked)];
}

/** What none of the others has in it. */
function leftOut(checked: ReadPart): readonly Figure[] {
  const names = leftOutText(checked);
  if (names === undefined) return [];
  return [
    {
      name: 'without',
      value: names.replaceAll('`', ''),
      how: 'it is in the text and could not be read, so no figure includes it. Correct what is found there first',
    },
  ];
}

/** Of all pieces of the part; money only where the shop sets a rate. */
function timeAndCost(checked: ReadPart): readonly Figure[] {
  const time = pieceTime(checked);
  if (!time || time.machine.setups.every((s) => s.cuts.length === 0)) return [];
  const { quantity } = checked.part;
  const { machine } = spentOn(time, quantity);
  const { firstPiece, eachFurther, toolChanges, setups } = time.machine;
  const batch =
    quantity > 1 ? `; the first piece ${minutesText(firstPiece)}, each further ${minutesText(eachFurther)}` : '';
  const most = mostOf(time).join(', ');
  const cost = costOf([{ checked, quantity }]);
  const all = quantity > 1 ? ` for ${quantity}` : '';
  return [
    {
      name: 'time',
      value: minutesText(machine) + all,
      how: `at the machine, ${ORDER_TEXT[time.order]}: ${setups.length} set-up${setups.length === 1 ? '' : 's'}, ${count(toolChanges, 'tool')} put in${batch}${most ? `. Most of the first piece: ${most}` : ''}${notIn(
        time,
        checked,
      )
        .map((text) => `; ${text}`)
        .join('')}`,
    },
    ...(cost
      ? [
          {
            name: 'cost',
            value: moneyText(cost.total, cost.currency) + all,
            how: `hours of machine and person by the rates of ${checked.shop.name}, ${cost.unpriced.length > 0 ? 'without the material, for which the rack has no price' : 'and material by the metre or in whole bars'}`,
          },
        ]
      : []),
  ];
}
