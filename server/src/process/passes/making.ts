/** What a set-up hands to each way of making its passes, and what they answer. Shapes only. */
import type { Machine, Tool } from '../../model/shop-model';
import type { PartInShop } from '../part-in-shop';
import type { Cut } from '../stock/types';
import type { Obstacle } from '../workholding/seating';
import type { AlongSpindle } from './along-spindle';
import type { PassRow, ReadOut } from './types';

export interface Making {
  readonly asked: PartInShop;
  readonly readOut: ReadOut;
  readonly machine: Machine;
  readonly obstacles: readonly Obstacle[];
  /** The plane that the work lies on. */
  readonly seatZ: number;
  /** Of an outline that leaves tabs: their tops, as the read-out shows them, and how wide each is. */
  readonly tabs?: { readonly z: number; readonly wideMm: number };
  /** Places can be told: the work lies square to the spindle. */
  readonly square: boolean;
  /** Held at an angle: heights are told along the spindle. */
  readonly spindle?: AlongSpindle;
  /** How far a tool stands out in this cut, as judged. */
  readonly outMm: (cut: Cut, tool: Tool) => number;
}

/** A pass before it has its number and its place in the list. */
export type Pass = Omit<PassRow, 'kind' | 'number' | 'samePlace' | 'unset'>;
/** What of it turns on where the metal is. */
export type Shape = Omit<Pass, 'of' | 'operation' | 'tool' | 'stickoutMm' | 'speed' | 'feed' | 'minutes' | 'strokes'>;
