/** Materials by the name of their family, as they are asked for over a counter: which of them is meant is not said. */
import { MATERIALS } from '../../tables/materials';
import { plainWord } from './everyday-words';

const FAMILIES: Readonly<Record<string, string>> = {
  aluminium: 'aluminium',
  aluminum: 'aluminium',
  alu: 'aluminium',
  al: 'aluminium',
  steel: 'steel',
  'mild-steel': 'steel',
  stahl: 'steel',
  baustahl: 'steel',
  stainless: 'stainless',
  'stainless-steel': 'stainless',
  edelstahl: 'stainless',
  inox: 'stainless',
  brass: 'brass',
  messing: 'brass',
  bronze: 'bronze',
  copper: 'copper',
  kupfer: 'copper',
  titanium: 'titanium',
  titan: 'titanium',
  magnesium: 'magnesium',
  'cast-iron': 'cast-iron',
  guss: 'cast-iron',
  grauguss: 'cast-iron',
};
const MOST_OFFERED = 4;

/** The first of the table's, none of them the likelier; empty for a word that is no family's. */
export function familyOf(word: string): readonly string[] {
  const family = FAMILIES[plainWord(word)];
  if (family === undefined) return [];
  return MATERIALS.filter((m) => m.name.startsWith(`${family}-`))
    .slice(0, MOST_OFFERED)
    .map((m) => m.name);
}
