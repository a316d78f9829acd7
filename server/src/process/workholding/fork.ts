/**
 * A fork between the jaws: two arms beside a gap that is open at one end, joined by a bridge at the other. Statics of a plane
 * frame in closed form; the jaws are stiff and stay parallel, so that they bear where the fork is stiffest.
 *
 * Where a jaw reaches over the bridge the force goes straight through that: the arms follow it, side by side, and nothing
 * presses them. The bridge is shorter, and so is the gap, F w / (E A). Where the jaws end short of the bridge they press on
 * the arms at that place alone, for the arms lean away from them beyond it: the bridge is bent by the force times its way to
 * the middle of the bridge, and each arm as a cantilever under one force.
 *
 * No jaw closes quite parallel: what it is out over the length of the arms it pinches them by, if its force suffices.
 */

interface Fork {
  /** Of the gap, along the force. */
  readonly gapMm: number;
  /** Thickness of each arm along the force. */
  readonly armsMm: readonly [number, number];
  /** From the bridge to the free ends. */
  readonly longMm: number;
  /** Of the bridge, across the force. */
  readonly bridgeMm: number;
  /** How far the jaws reach over the bridge from where the gap ends; negative: so far short of it. */
  readonly overMm: number;
  /** In height: what the jaws press on, and all there is. */
  readonly pressedMm: number;
  readonly highMm: number;
}

interface ForkGives {
  /** How much nearer the free ends come to each other, and the gap's sides at the bridge, for each newton, mm. */
  readonly tipsMmPerN: number;
  readonly rootMmPerN: number;
  /** The same of the free ends where the force comes to bear on them alone. */
  readonly pinchedMmPerN: number;
  /** The highest stress, MPa for each newton. */
  readonly mPaPerN: number;
}

/** A cantilever of length l with a force at a from its root, at its end: F a² (3 l − a) / (6 E I) (Timoshenko; Roark's table of beams). */
function cantileverMm(forceN: number, atMm: number, longMm: number, stiffnessNmm2: number): number {
  return (forceN * atMm ** 2 * (3 * longMm - atMm)) / (6 * stiffnessNmm2);
}

/**
 * How far the force passes beside the middle of the bridge. A jaw that lies on the bridge does not let it turn: it bears
 * farther out until the force goes through the middle, and no farther out than it reaches.
 */
function besideMiddleMm({ bridgeMm, overMm }: Pick<Fork, 'bridgeMm' | 'overMm'>): number {
  return Math.max(0, bridgeMm / 2 - overMm);
}

export function forkGives(f: Fork, youngMPa: number): ForkGives {
  const { gapMm, armsMm, longMm, bridgeMm, overMm, pressedMm, highMm } = f;
  // The force spreads upwards from what is pressed at 45 degrees, on its way to the bridge and into it.
  const wide = (awayMm: number) => Math.min(highMm, pressedMm + awayMm);
  const bridgeHigh = wide(Math.min(...armsMm));
  const bridgeI = (bridgeHigh * bridgeMm ** 3) / 12;
  const bridgeA = bridgeHigh * bridgeMm;
  const besideMm = besideMiddleMm(f);
  // Even moment over the bridge's length, from the middle of one arm to the middle of the other; each end turns by half of it.
  const betweenMm = gapMm + (armsMm[0] + armsMm[1]) / 2;
  const turnPerN = (besideMm * betweenMm) / (2 * youngMPa * bridgeI);
  const rootMmPerN = gapMm / (youngMPa * bridgeA);
  const atMm = Math.max(0, -overMm);
  const armI = (t: number) => (wide(atMm) * t ** 3) / 12;
  const arms = armsMm.map((t) => cantileverMm(1, atMm, longMm, youngMPa * armI(t)));
  const tipsMmPerN = rootMmPerN + 2 * turnPerN * (longMm + bridgeMm / 2) + arms[0]! + arms[1]!;
  const bridgeStress = 1 / bridgeA + (6 * besideMm) / (bridgeHigh * bridgeMm ** 2);
  const armStress = armsMm.map((t) => (6 * atMm) / (wide(atMm) * t ** 2));
  const pinchedMmPerN = armsMm.reduce((sum, t) => {
    const inertia = (wide(longMm) * t ** 3) / 12;
    return sum + cantileverMm(1, longMm, longMm, youngMPa * inertia);
  }, 0);
  return { tipsMmPerN, rootMmPerN, pinchedMmPerN, mPaPerN: Math.max(bridgeStress, ...armStress) };
}
