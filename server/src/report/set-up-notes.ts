/** What hands must know of a set-up besides its numbers, in sentences: for the plan, the hover and the figures. */
import type { Solid } from '../geometry/types';
import type { Part, Setup } from '../model/model';
import type { Shop } from '../model/shop-model';
import { timelineOf } from '../process/stock';
import {
  ballTopMm,
  boreToIndicate,
  type OverTilted,
  type SquaredUp,
  squaredUp,
  tiltedZero,
} from '../process/workholding/square-up';
import { trimmed } from '../rules/kit/message';
import { formatLength } from '../text/format';
import { clockText } from './clock';

interface Told {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
}

/** A list for each set-up, in the order of the text. */
export function setUpNotes(
  { part, solid, shop }: Told,
  setups: readonly Setup[] = part.setups ?? [],
): readonly (readonly string[])[] {
  if (setups.length === 0) return [];
  const there: Part = setups === part.setups ? part : { ...part, setups };
  return timelineOf(there, solid).setups.map((s) => {
    const square = squaredUp(s, { part: there, solid, shop });
    const bore = boreToIndicate(s, there, solid);
    const tilted = tiltedZero(s, there);
    const clock = clockText(s.setup);
    return [
      ...(square ? [squareText(square)] : []),
      ...(clock ? [`Placed in rotation by ${clock}`] : []),
      ...(bore ? [`Indicate the bore ${bore.name}: what is bored here is on its axis`] : []),
      ...(tilted ? [tiltedText(tilted, part)] : []),
    ];
  });
}

const STATES = { sawn: 'sawn', raw: 'rough', supplied: 'as supplied', cut: 'milled' } as const;

function squareText({ fixed, moving, fixedState, movingState }: SquaredUp): string {
  const states = `${fixed} is ${STATES[fixedState]}, ${moving} ${STATES[movingState]}`;
  return fixedState === 'sawn' || fixedState === 'raw'
    ? `Squares up: ${states}. A round bar between ${moving} and the moving jaw; the first face milled is the one to go by`
    : `Squares up: ${states}. A round bar between ${moving} and the moving jaw, so that ${fixed} lies flat on the fixed jaw`;
}

/** A ball that every workshop has, or a pin of that diameter. Common size, no source. */
const BALL_MM = 10;

function tiltedText({ on, deg }: OverTilted, { units }: Part): string {
  const length = (mm: number) => formatLength(Math.round(mm * 1000) / 1000, units);
  const r = BALL_MM / 2;
  return `Zero on ${on}, tilted by ${trimmed(deg, 2)}°: touch off on a ball or pin of ${length(BALL_MM)} lying on it. Its top is ${length(ballTopMm(r, deg))} above the plane there, ${trimmed(r, 2)} + ${trimmed(r, 2)} / cos ${trimmed(deg, 2)}°`;
}
