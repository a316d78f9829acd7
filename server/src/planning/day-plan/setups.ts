/** The set-ups of one part of a job, with what each leaves standing on the machine. */
import { passesOfPart, type SetupPasses, type Touch } from '../../process/passes';
import type { JobPiece } from '../job';
import { orderOf, pieceTime, timeIn } from '../piece-time';
import { batchInSetup, type SetupTime, SLOW_CHANGE } from '../times';
import type { DaySetup, Standing } from './types';

/** In the order of its text, its plan, or a rough one; empty where a part has no time. */
export function daySetupsOf({ entry, checked, quantity }: JobPiece): readonly DaySetup[] {
  if (!pieceTime(checked) || quantity < 1) return [];
  const { order, setups } = orderOf(checked);
  const { machine } = timeIn(checked, order, setups);
  const passes = passesOfPart({ part: { ...checked.part, setups }, solid: checked.solid, shop: checked.shop });
  return machine.setups.map((time): DaySetup => {
    const how = passes.find((p) => p.setup === time.setup);
    const toolChange = changeOf(how);
    return {
      part: entry.name,
      name: time.setup.name,
      pieces: quantity,
      standing: how ? standingOf(how) : nothingKnown(time.setup.name),
      tools: time.tools.map((t) => t.name),
      work: workOf(time, quantity, checked.shop.times['set-up']),
      settingUp: checked.shop.times['set-up'],
      toolChange,
    };
  });
}

function changeOf(how: SetupPasses | undefined): readonly [number, number] {
  const minutes = (how?.machine?.toolChangeS ?? 60) / 60;
  return [minutes, SLOW_CHANGE * minutes];
}

/** All pieces, less what setting up on a bare table takes: that depends on what was there before. */
function workOf(time: SetupTime, pieces: number, settingUp: readonly [number, number]): readonly [number, number] {
  const all = batchInSetup(time, pieces);
  return [all[0] - settingUp[0], all[1] - settingUp[1]];
}

function nothingKnown(name: string): Standing {
  return { machine: '', holds: name, onlyHere: true, parallels: '', stop: '', zero: [undefined, undefined, undefined] };
}

function standingOf({ machine, holding, zeros }: SetupPasses): Standing {
  const stop = holding.stop && `${holding.stop.at} ${outAtStop(holding)}`;
  const parallels = holding.parallelsMm === undefined ? 'none' : `${holding.parallelsMm} mm`;
  const touch = (axis: Touch['axis']) => zeros.find((z) => z.axis === axis);
  // What is touched stays where it is on the table with the stop, the fixed jaw, the parallels: only the number is entered anew.
  const x = holding.stop && touch('X')?.of === holding.stop.face ? stop : undefined;
  const y = holding.fixed && touch('Y')?.of === holding.fixed.face;
  const z = touch('Z')?.how === 'parallels' ? parallels : undefined;
  return {
    machine: machine?.name ?? '',
    holds: holding.vise ? `${holding.vise.name} ${holding.type ?? ''}` : (holding.type ?? ''),
    onlyHere: !holding.vise || holding.type !== 'vise',
    parallels,
    stop: stop ?? 'none',
    zero: [x, y ? 'fixed jaw' : undefined, z],
  };
}

/** How far the work stands out of the jaws where the stop is: to a tenth of a millimetre. */
function outAtStop({ stop, out }: SetupPasses['holding']): string {
  const at = stop?.at;
  return out && (at === 'left' || at === 'right') ? `${out[at].mm.toFixed(1)} mm out` : '';
}
