/** What of a cut is left to hands: which way a cutter may go round, how places are come to, tapping, cut and try. */
import type { Machine } from '../../model/shop-model';
import { type Minutes, USUAL_TIMES } from '../../model/shop-times';

/** Screws with more play than about a tooth's feed let a climbing cutter pull the table through it. Common practice, no source. */
const CLIMB_BACKLASH_MM = 0.05;

/** A cutter may climb only where a control feeds, and no play lets it snatch. */
export function mayClimb({ control, backlashMm }: Machine): boolean {
  return control === 'program' && backlashMm <= CLIMB_BACKLASH_MM;
}

/** Dials count turns of the screw, play and all; a read-out's scales are on the table, and a control without play knows. */
export function fromOneSide({ control, backlashMm }: Machine): boolean {
  return control === 'hand' || (control === 'program' && backlashMm > CLIMB_BACKLASH_MM);
}

/** Minutes for one hole tapped by hand: put in and started square, then turn by turn with a quarter back each. */
export function handTapMinutes(machine: Machine, depthMm: number, pitchMm: number): Minutes {
  const [start, turn] = [timesOf(machine).tap, timesOf(machine)['tap-turn']];
  const turns = depthMm / pitchMm;
  return [start[0] + turns * turn[0], start[1] + turns * turn[1]];
}

/** Minutes of one trial cut of a boring head beside the cutting: measured, and the head set for the next. */
export function trialMinutes(machine: Machine): Minutes {
  return timesOf(machine)['bore-cut'];
}

const USUAL = {
  tap: USUAL_TIMES.tap.usual,
  'tap-turn': USUAL_TIMES['tap-turn'].usual,
  'bore-cut': USUAL_TIMES['bore-cut'].usual,
} as const;

function timesOf({ hands }: Machine): NonNullable<Machine['hands']> {
  return hands ?? USUAL;
}
