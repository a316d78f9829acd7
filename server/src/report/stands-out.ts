/** How the work lies in a vise, set-up by set-up: how much of it is between the jaws, and how far it stands out of them on each side. */
import { FACE_AXIS, FACES, type Face } from '../model/model';
import { timelineOf } from '../process/stock';
import { type InJaws, inJaws } from '../process/workholding/in-jaws';
import type { CheckedPart } from '../rules/checked-part';
import { formatLength } from '../text/format';

interface StandsOut {
  readonly setup: string;
  readonly text: string;
}

/** Of every set-up in a vise. */
export function standsOutOf({ part, solid, shop }: Pick<CheckedPart, 'part' | 'solid' | 'shop'>): readonly StandsOut[] {
  if (!part.setups) return [];
  return timelineOf(part, solid).setups.flatMap((s) => {
    const x = inJaws(s, part, shop);
    if (!x) return [];
    const told = (mm: number) => formatLength(Math.round(mm * 1000) / 1000, part.units);
    const [low, high] = endsOf(x);
    const sides = [
      `${told(x.aboveMm)} above the jaws`,
      ...[low, high].map(({ face, mm }) =>
        mm >= 0 ? `${told(mm)} out of them on the ${face}` : `${told(-mm)} inside them on the ${face}`,
      ),
    ];
    return [
      { setup: s.setup.name, text: `${told(x.gripMm)} in the jaws of ${x.inVise.vise.name}, ${sides.join(', ')}` },
    ];
  });
}

interface End {
  readonly face: Face;
  readonly mm: number;
}

/** Along the jaws: how far the work stands out at each end; negative where the jaws are longer. */
function endsOf({ inVise: h }: InJaws): readonly [End, End] {
  const at = (sign: number) =>
    FACES.find((f) => 'xyz'.indexOf(FACE_AXIS[f].axis) === h.alongAxis && FACE_AXIS[f].sign === sign)!;
  return [
    { face: at(-1), mm: h.jawFromMm - h.workFromMm },
    { face: at(1), mm: h.workToMm - h.jawToMm },
  ];
}
