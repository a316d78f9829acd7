/** The forces of a helical cutter summed over small pieces: shares no code with the project. */
import type { HelicalCut } from '../../../server/src/process/cutting/helix';

/** Every tooth, its edge in 120 slices where it cuts, the cutter turned in 3000 steps: forces in x and y by hand. */
export function summed({ diameterMm: D, teeth: N, aeMm, apMm, helixDeg }: HelicalCut, mc: number, share: number) {
  const lag = (2 * Math.tan((helixDeg / 180) * Math.PI)) / D;
  const out = Math.acos(1 - (2 * Math.min(aeMm, D)) / D);
  const [slices, turns] = [120, 3000];
  let [resultant, tangential, normal] = [0, 0, 0];
  for (let turn = 0; turn < turns; turn++) {
    let [fx, fy, ft] = [0, 0, 0];
    // Teeth that came by in turns before are still in the cut further up.
    for (let tooth = -9 * N; tooth < N; tooth++) {
      const tip = (2 * Math.PI * turn) / turns / N - (2 * Math.PI * tooth) / N;
      const [low, high] = [Math.max(0, (tip - out) / lag), Math.min(apMm, tip / lag)];
      if (high <= low) continue;
      for (let slice = 0; slice < slices; slice++) {
        const angle = tip - lag * (low + ((high - low) * (slice + 0.5)) / slices);
        const around = (Math.sin(angle) ** (1 - mc) * (high - low)) / slices;
        ft += around;
        // A mirror image (the other direction of milling) only turns a sign.
        fx += around * Math.cos(angle) - share * around * Math.sin(angle);
        fy += around * Math.sin(angle) + share * around * Math.cos(angle);
      }
    }
    resultant = Math.max(resultant, Math.hypot(fx, fy));
    tangential = Math.max(tangential, ft);
    normal = Math.max(normal, Math.abs(fy));
  }
  return { resultant, tangential, normal };
}
