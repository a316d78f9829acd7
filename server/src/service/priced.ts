/** What a job's sum needs of a piece, worked out while one types. */
import { gramsOf } from '../planning/job';
import { pieceTime } from '../planning/piece-time';
import type { CheckedPart } from '../rules/checked-part';
import { CUT, type Pace } from './pace';

/** Slices that a piece is worked out in before its sum is made all the same. */
const MOST_SLICES = 12;

/** Works out what a piece weighs and takes, in slices that go on from each other, so that the sum is quickly made. */
export async function priced(checked: CheckedPart, pace: Pace): Promise<void> {
  for (let slices = 0; slices < MOST_SLICES; slices++) {
    if (pace.isOver || slices > 0) await pace.pause();
    const worked = pace.slice(() => {
      gramsOf(checked);
      pieceTime(checked);
    });
    if (worked !== CUT) return;
  }
}
