/** A letter for each feature that is tagged: its name's own where it is free; never one of a datum, nor I, O, Q. */
import { breaksEdges } from '../../model/feature-kinds';
import type { Feature, Part } from '../../model/model';

const NEVER = new Set(['I', 'O', 'Q']);
const ALPHABET = [...'ABCDEFGHJKLMNPRSTUVWXYZ'];

export function lettersOf(part: Part): ReadonlyMap<Feature, string> {
  const taken = new Set<string>(part.datums.keys());
  const found = new Map<Feature, string>();
  const free = (letter: string) => /^[A-Z]$/.test(letter) && !NEVER.has(letter) && !taken.has(letter);
  for (const feature of part.features) {
    if (breaksEdges(feature)) continue;
    const name = feature.name.toUpperCase();
    const own = [...initialsOf(name), ...name].find(free);
    const letter = own ?? ALPHABET.find(free) ?? numbered(taken);
    taken.add(letter);
    found.set(feature, letter);
  }
  return found;
}

/** Of the last word first: it says what the thing is. */
function initialsOf(name: string): readonly string[] {
  return name
    .split('-')
    .reverse()
    .map((word) => word.charAt(0));
}

function numbered(taken: ReadonlySet<string>): string {
  for (let i = 1; ; i++) {
    const letter = ALPHABET.map((a) => `${a}${i}`).find((l) => !taken.has(l));
    if (letter) return letter;
  }
}
