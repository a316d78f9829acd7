/** Forms of stock by the words that they are asked for over a counter. Common practice, no source. */
import { plainWord } from './everyday-words';

const FORMS = ['flat-bar', 'square-bar', 'round-bar', 'plate', 'block', 'tube', 'angle', 'channel', 'tee'];
const BARS = ['flat-bar', 'square-bar', 'round-bar'];

/** By what each is also called; a word that may be several names them all. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  bar: BARS,
  'bar-stock': BARS,
  stange: BARS,
  stab: BARS,
  flat: ['flat-bar'],
  rectangular: ['flat-bar'],
  'rectangular-bar': ['flat-bar'],
  flachmaterial: ['flat-bar'],
  flachstange: ['flat-bar'],
  flachstahl: ['flat-bar'],
  flach: ['flat-bar'],
  square: ['square-bar'],
  vierkant: ['square-bar'],
  vierkantmaterial: ['square-bar'],
  vierkantstange: ['square-bar'],
  vierkantstahl: ['square-bar'],
  round: ['round-bar'],
  rod: ['round-bar'],
  cylinder: ['round-bar'],
  rund: ['round-bar'],
  rundmaterial: ['round-bar'],
  rundstange: ['round-bar'],
  rundstahl: ['round-bar'],
  welle: ['round-bar'],
  pipe: ['tube'],
  tubing: ['tube'],
  'round-tube': ['tube'],
  'square-tube': ['tube'],
  'rectangular-tube': ['tube'],
  'hollow-bar': ['tube'],
  'hollow-section': ['tube'],
  hollow: ['tube'],
  rhs: ['tube'],
  shs: ['tube'],
  chs: ['tube'],
  rohr: ['tube'],
  rundrohr: ['tube'],
  vierkantrohr: ['tube'],
  rechteckrohr: ['tube'],
  hohlprofil: ['tube'],
  'angle-bar': ['angle'],
  'angle-iron': ['angle'],
  'l-bar': ['angle'],
  'l-profile': ['angle'],
  winkel: ['angle'],
  winkelprofil: ['angle'],
  winkelstahl: ['angle'],
  'l-profil': ['angle'],
  'u-bar': ['channel'],
  'u-channel': ['channel'],
  'c-channel': ['channel'],
  'u-profile': ['channel'],
  'u-profil': ['channel'],
  't-bar': ['tee'],
  't-section': ['tee'],
  't-profile': ['tee'],
  't-profil': ['tee'],
  sheet: ['plate'],
  platte: ['plate'],
  blech: ['plate'],
  tafel: ['plate'],
  billet: ['block'],
  blank: ['block'],
  cube: ['block'],
  klotz: ['block'],
  quader: ['block'],
  zuschnitt: ['block'],
};

/** The forms that a word may mean; empty for a word that is none. */
export function everydayForms(word: string): readonly string[] {
  const plain = plainWord(word);
  if (FORMS.includes(plain)) return [plain];
  return WORDS[plain] ?? FORMS.filter((form) => form.startsWith(`${plain}-`) || plain.startsWith(`${form}-`));
}
