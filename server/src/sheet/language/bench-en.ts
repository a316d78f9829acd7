/** The words of the bench work, after the set-ups, in English. */
export const BENCH_EN = {
  title: 'Bench work, after the set-ups',
  heading: 'BENCH WORK',
  after: 'after the set-ups',
  caution:
    'Clamp the part, or hold it in a vise bolted to the table: never by hand. No gloves at a spindle, hair and sleeves tied, eyes protected. Stop the spindle before you clear chips. The shop’s rules and its trained staff go before this paper.',
  onPress: (name: string, press: string) => `${name} on ${press}`,
  atBench: (name: string) => `${name} at the bench`,
  markOut: (face: string, from: string, places: string) => `mark out on ${face} from ${from}, and punch: ${places}`,
  more: (n: number) => `and ${n} more`,
  clamp: 'clamp the part, a board under it; the punch mark under the spindle',
  through: (mm: string) => `right through ${mm}; ease off as the drill breaks through`,
  deep: (mm: string) => `${mm} deep`,
  rpm: (rpm: string) => `${rpm} rpm`,
  tap: (thread: string) => `tap ${thread} by hand`,
  tapPress: (thread: string) => `tap ${thread} by hand, spindle off, started in the chuck`,
  ream: (mm: string) => `ream ⌀${mm} by hand, turned forward only`,
  square: 'look along a square from two sides after two turns',
  minutes: (low: string, high: string) => `about ${low} to ${high} min a piece`,
  missing: (wanted: string) => `not in the shop: ${wanted}`,
};

export type BenchWords = typeof BENCH_EN;
