/** The words of the bench work, after the set-ups, in German. */
import type { BenchWords } from './bench-en';

export const BENCH_DE: BenchWords = {
  title: 'Arbeit an der Werkbank, nach den Spannungen',
  heading: 'WERKBANK',
  after: 'nach den Spannungen',
  caution:
    'Teil festspannen, oder in einem Schraubstock halten, der am Tisch verschraubt ist: nie von Hand. Keine Handschuhe an der Spindel, Haare und Ärmel gebunden, Augen geschützt. Spindel steht, bevor Späne entfernt werden. Die Regeln der Werkstatt und ihr geschultes Personal gehen diesem Blatt vor.',
  onPress: (name, press) => `${name} auf ${press}`,
  atBench: (name) => `${name} an der Werkbank`,
  markOut: (face, from, places) => `auf ${face} anreißen von ${from}, körnen: ${places}`,
  more: (n) => `und ${n} weitere`,
  clamp: 'Teil festspannen, ein Brett darunter; die Körnung unter der Spindel',
  through: (mm: string) => `ganz durch ${mm}; beim Durchbrechen nachlassen`,
  deep: (mm) => `${mm} tief`,
  rpm: (rpm) => `${rpm} 1/min`,
  tap: (thread) => `${thread} von Hand schneiden`,
  tapPress: (thread) => `${thread} von Hand schneiden, Spindel aus, im Futter angesetzt`,
  ream: (mm) => `⌀${mm} von Hand reiben, nur vorwärts gedreht`,
  square: 'nach zwei Umdrehungen mit dem Winkel von zwei Seiten prüfen',
  minutes: (low, high) => `etwa ${low} bis ${high} min je Stück`,
  missing: (wanted) => `nicht in der Werkstatt: ${wanted}`,
};
