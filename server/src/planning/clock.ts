/** What places the workpiece in rotation in a set-up that is tried: written where nothing else does. */
import type { Setup } from '../model/model';
import { timelineOf } from '../process/stock';
import { clockingOf, waysToClock } from '../process/workholding/clocking';
import type { Trial } from './trial';

export function clocked(setup: Setup, before: readonly Setup[], trial: Pick<Trial, 'part' | 'solid' | 'shop'>): Setup {
  const { solid, shop } = trial;
  const { stock } = timelineOf(trial.part, solid);
  if (before.length === 0 || (stock.body.form !== 'round' && setup.hold?.type !== 'clamps')) return setup;
  const part = { ...trial.part, setups: [...before, setup] };
  const c = clockingOf(timelineOf(part, solid).setups[before.length]!, { part, solid, shop });
  const [way] = c?.by === 'nothing' ? waysToClock(c, part) : [];
  return way ? { ...setup, clock: { by: way.by, of: { name: way.of, span: setup.span }, span: setup.span } } : setup;
}
