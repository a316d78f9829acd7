/** The keyway that belongs to a shaft: width, depth and what both may vary, by the standard. */
import { ASME_DEEPER, ASME_KEYS, ASME_WIDER, ISO_KEYS, type KeyRow } from './keyways.data';
import { MM_PER_INCH } from './units';

export type KeyStandard = 'iso' | 'asme';

export interface ShaftKeyway {
  readonly widthMm: number;
  /** Of the key. */
  readonly heightMm: number;
  /** Below the shaft's crest. */
  readonly depthMm: number;
  readonly depthUpperMm: number;
  /** On the width, where the standard gives limits of its own and no class of ISO 286. */
  readonly widthUpperMm?: number;
  readonly source: string;
}

/** Undefined outside the tables. `over` is excluded, `to` included, as the standards have it. */
export function keywayFor(shaftMm: number, standard: KeyStandard): ShaftKeyway | undefined {
  const unit = standard === 'asme' ? MM_PER_INCH : 1;
  const fits = ([over, to]: KeyRow) => shaftMm > over * unit + 1e-9 && shaftMm <= to * unit + 1e-9;
  const row = (standard === 'asme' ? ASME_KEYS : ISO_KEYS).find(fits);
  if (!row) return undefined;
  const [, , width, height, depth] = row;
  if (standard === 'iso') {
    // Of the public extracts: up to a key of 6 by 6 +0.1, beyond +0.2; from 36 wide +0.3 (DIN 6885-1, from memory).
    const depthUpperMm = width <= 6 ? 0.1 : width < 36 ? 0.2 : 0.3;
    return { widthMm: width, heightMm: height, depthMm: depth, depthUpperMm, source: 'DIN 6885-1, ISO/R 773' };
  }
  const wider = ASME_WIDER.find(([to]) => width <= to + 1e-9)?.[1] ?? 0;
  const widthMm = width * unit;
  return {
    widthMm,
    heightMm: height * unit,
    depthMm: depth * unit + crestMm(shaftMm, widthMm),
    depthUpperMm: ASME_DEEPER * unit,
    widthUpperMm: wider * unit,
    source: 'ASME B17.1 class 1',
  };
}

/** How much lower the sides of a keyway begin than the shaft's crest. */
function crestMm(shaftMm: number, widthMm: number): number {
  return (shaftMm - Math.sqrt(Math.max(0, shaftMm * shaftMm - widthMm * widthMm))) / 2;
}
