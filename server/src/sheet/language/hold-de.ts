/** How work is held where it is not by plain jaws alone, in German. */
import type { HoldWords } from './hold-en';

export const HOLD_DE: HoldWords = {
  notSaid: 'der Text sagt nicht, wie es gespannt ist',
  on: { table: 'Tisch', plate: 'Platte' },
  clean: (on) => `${on} sauber, Grate ab`,
  down: (face, state, on) => `${face} (${state}) unten, auf: ${on}`,
  toStop: (face) => `${face} an den Anschlag`,
  inVBlocks: (block, on) => `rund, in ${block} auf: ${on}, je eins unter den äußeren Spanneisen`,
  blockInVise: (block, face) => `${block} zwischen ${face} und der losen Backe`,
  atPlate: (face, plate) => `${face} an ${plate}, deren Seite ausgerichtet`,
  abovePlate: (mm) => `steht ${mm} über den Winkel hinaus`,
  overEdge: 'Fuß an der Tischkante: das Teil hängt daneben herab',
  besideFoot: 'steht auf dem Tisch neben dem Fuß des Winkels',
  clampsAt: (n, places) => `${n} Spanneisen, Druck bei ${places}`,
  screwsAt: (holes, places) => `Schrauben durch ${holes}${places ? `, bei ${places}` : ''}`,
  frame: (on) => `Rahmen des Rohteils gespannt auf: ${on}`,
  tabs: (n, wide, high) => `${n} Stege bleiben, ${wide} breit, ${high} hoch: danach trennen und abfeilen`,
  tabsAt: (places) => `die Mitten der Stege am Umriss bei ${places}`,
  twoVises: (mm) => `zweiter gleicher Schraubstock in Reihe, ${mm} von Mitte zu Mitte; feste Backen fluchten`,
  twoPieces: (way, gap) =>
    `zweites Teil ${way === 'left' ? 'links' : 'rechts'} vom ersten, ${gap ? `Abstandstück ${gap} dazwischen` : 'an ihm anliegend'}; keines lose beim Klopfen`,
  pad: (mm) => `weicher Streifen, ${mm} dick, an der losen Backe über beide`,
  secondZero: (x) => `zweites Teil: Null X an ihm angetastet, etwa ${x} von der des ersten; jeder Gang an beiden`,
  lastAlone: 'ein letztes Teil allein: gleich breiter Abfall anstelle des zweiten',
  tilted: (deg, about) => `geneigt ${deg}°${about ? ` um ${about}` : ''}, Winkel geprüft`,
  clocked: {
    indicator: (of) => `gedreht, bis die Messuhr an ${of} ruhig läuft`,
    pin: (of) => `gedreht nach einem Stift in ${of}, waagrecht`,
    square: (of) => `gedreht, bis ein Winkel an ${of} anliegt`,
  },
  barOut: (face, mm) => `beim Einlegen stehen ${mm} an ${face} aus den Backen`,
};
