/** Faces at which the part is sawn off its bar, and faces that a saw makes at all. */
import type { Face, Named, Part, SawCut } from './model';

/** The set-up's saw cut at that face, where there is one: the last of them. */
export function sawnOffAt(face: Face, { setups = [] }: Pick<Part, 'setups'>): SawCut | undefined {
  return setups.findLast((s) => s.sawnOff?.name === face)?.sawnOff;
}

/** As the stock comes, and where the part is sawn off; each once. */
export function sawnFaces({ stock, setups = [] }: Part): readonly (Named & { readonly name: Face })[] {
  const off = setups.flatMap((s) => s.sawnOff ?? []);
  return [...stock.sawn, ...off.filter((o) => !stock.sawn.some((s) => s.name === o.name))];
}

/** What stands over a sawn face when its turn to be milled comes, mm. */
export function leftBySaw(face: Face, part: Part): number {
  const off = sawnOffAt(face, part);
  return off ? (off.leave?.mm ?? 0) : (part.stock.extra[face]?.mm ?? 0);
}
