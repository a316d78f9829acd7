/**
 * Dimension chains. A toleranced dimension has two ends; between them stand links, each with what it may be off. Drawn:
 * the dimensions that the text gives. As set up: what the zeros and cuts of the set-ups add. Shapes and sums only.
 */
import type { Axis } from '../../model/model';
import type { Span } from '../../text/tree';

export interface Link {
  /** `bore from left`, `body x`, `zero of second from left`. */
  readonly what: string;
  /** ±, mm. */
  readonly halfMm: number;
  /** Where the number comes from: `as written`, `ISO 2768-m`, `edge-finder, by the shop`. */
  readonly source: string;
  /** What makes it: a dimension of the text, how a zero is found again, the cut itself, all that the process of a size holds, the bar as bought, or the ridges left. */
  readonly by: 'drawn' | 'zero' | 'cut' | 'process' | 'bar' | 'finish';
  /** Of a cut: which end it makes. */
  readonly end?: string;
}

/** Every link ± added: nothing is ever further off. */
export function worstMm(chain: readonly Link[]): number {
  return chain.reduce((sum, l) => sum + l.halfMm, 0);
}

/** The root of the sum of squares: errors that know nothing of each other are seldom all at their limit. */
export function likelyMm(chain: readonly Link[]): number {
  return Math.hypot(...chain.map((l) => l.halfMm));
}

/** How a shop has errors added: `worst` for a piece that must fit whatever happens, else `likely`. */
export type Adding = 'likely' | 'worst';

/** What a chain is judged by. */
export function budgetMm(chain: readonly Link[], adding: Adding): number {
  return adding === 'worst' ? worstMm(chain) : likelyMm(chain);
}

/** A dimension that carries a tolerance of its own, as the two ends it is between. */
export interface Toleranced {
  /** `distance` (under tolerances), `at`, `pitch` of a pattern, `body`, `depth`, `width`. */
  readonly given: 'distance' | 'at' | 'pitch' | 'body' | 'depth' | 'width';
  readonly axis: Axis;
  /** Features or faces of the body. */
  readonly ends: readonly [string, string];
  readonly nominalMm: number;
  readonly limitsMm: readonly [least: number, most: number];
  /** Half of what is allowed, mm. */
  readonly allowedMm: number;
  /** The value, as written, and where. */
  readonly text: string;
  readonly span: Span;
}
