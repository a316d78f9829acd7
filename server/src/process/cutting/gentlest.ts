/** What a drill takes at the least: the gentlest feed of the tables, at the slowest that it is still turned. */

import type { Drill, Machine } from '../../model/shop-model';
import { drillingOf, kienzleOf } from '../../tables/cutting';
import type { Material } from '../../tables/materials';
import { SLOW_DRILL } from '../../tables/plunging.data';
import { SPINDLE_EFFICIENCY } from './conditions';
import { type DrillingLoad, drillingLoad } from './force';
import { drillSpeedRange, rpmOf } from './speed';

export function gentlestDrilling(
  drill: Pick<Drill, 'diameterMm' | 'pointDeg' | 'material'>,
  material: Material,
  machine: Machine,
): DrillingLoad {
  const [slowest] = drillSpeedRange(material, drill.material);
  const slow = Math.max(machine.rpm[0], rpmOf(SLOW_DRILL.share * slowest, drill.diameterMm));
  return drillingLoad(kienzleOf(material), {
    diameterMm: drill.diameterMm,
    feedPerTurnMm: drillingOf(material).feed[0] * drill.diameterMm,
    pointDeg: drill.pointDeg,
    rpm: Math.min(slow, machine.rpm[1]),
  });
}

/** Whether the spindle turns it from the full at all. */
export function isBorne({ torqueNm, powerW }: DrillingLoad, machine: Machine): boolean {
  return torqueNm <= (machine.torqueNm ?? Number.POSITIVE_INFINITY) && powerW <= SPINDLE_EFFICIENCY * machine.powerW;
}
