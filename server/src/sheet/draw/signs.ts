/**
 * Signs of drawings as strokes, in shares of a capital's height, the baseline at 0 and y upwards (proportions after
 * ISO 7083, from memory). A font that lacks one cannot spoil it, and the one that has it cannot shape it otherwise.
 */
import { arc, circleEdge, line } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';

interface Drawing {
  /** What the pen moves on by. */
  readonly advance: number;
  readonly edges: readonly Edge[];
  /** Filled outlines. */
  readonly filled?: readonly (readonly Edge[])[];
  /** How far below the baseline and above the capital's height it goes. */
  readonly below?: number;
  readonly above?: number;
}

const p = (u: number, v: number): Point2 => ({ u, v });
/** `'0,0 1,0 1,1'`: a chain of lines. */
function chain(places: string): Edge[] {
  const points = places.split(' ').map((s) => s.split(',').map(Number) as [number, number]);
  return points.slice(1).map(([u, v], i) => line(p(...points[i]!), p(u, v)));
}
const circle = (u: number, v: number, r: number): Edge => circleEdge(p(u, v), r);
const head = (u: number, v: number, to: 1 | -1): Edge[] =>
  chain(`${u - 0.14},${v - 0.3 * to} ${u},${v} ${u + 0.14},${v - 0.3 * to}`);

/** By the character that stands for each in a text. */
const DRAWINGS: Readonly<Record<string, Drawing>> = {
  '⌀': { advance: 1.06, edges: [circle(0.5, 0.5, 0.36), ...chain('0.2,-0.02 0.8,1.02')], below: 0.05, above: 0.05 },
  '⌴': { advance: 1.16, edges: chain('0.08,0.85 0.08,0.1 1,0.1 1,0.85') },
  '⌵': { advance: 1.16, edges: chain('0.06,0.85 0.53,0.1 1,0.85') },
  '↧': { advance: 0.9, edges: [...chain('0.1,0.92 0.7,0.92'), ...chain('0.4,0.92 0.4,0.04'), ...head(0.4, 0.04, -1)] },
  '⏥': { advance: 1.3, edges: chain('0.06,0.15 0.9,0.15 1.18,0.85 0.34,0.85 0.06,0.15') },
  '⏤': { advance: 1.2, edges: chain('0.08,0.5 1.08,0.5') },
  '○': { advance: 1.06, edges: [circle(0.5, 0.5, 0.42)] },
  '⌭': {
    advance: 1.3,
    edges: [circle(0.62, 0.5, 0.28), ...chain('0.04,0.06 0.46,0.94'), ...chain('0.78,0.06 1.2,0.94')],
  },
  '⌒': { advance: 1.2, edges: [arc(p(1.1, 0.3), p(0.1, 0.3), p(0.6, 0.3), true)] },
  '⌓': { advance: 1.2, edges: [arc(p(1.1, 0.25), p(0.1, 0.25), p(0.6, 0.25), true), ...chain('0.1,0.25 1.1,0.25')] },
  '∥': { advance: 1, edges: [...chain('0.1,0.04 0.5,0.96'), ...chain('0.45,0.04 0.85,0.96')] },
  '⟂': { advance: 1.16, edges: [...chain('0.06,0.08 1.04,0.08'), ...chain('0.55,0.08 0.55,0.95')] },
  '∠': { advance: 1.16, edges: [...chain('1,0.08 0.06,0.08 0.92,0.8')] },
  '⌖': {
    advance: 1.26,
    edges: [circle(0.58, 0.5, 0.3), ...chain('0.06,0.5 1.1,0.5'), ...chain('0.58,-0.02 0.58,1.02')],
    below: 0.04,
    above: 0.04,
  },
  '◎': { advance: 1.1, edges: [circle(0.5, 0.5, 0.42), circle(0.5, 0.5, 0.22)] },
  '⌯': {
    advance: 1.2,
    edges: [...chain('0.1,0.5 1.06,0.5'), ...chain('0.32,0.8 0.84,0.8'), ...chain('0.32,0.2 0.84,0.2')],
  },
  '↗': { advance: 1, edges: [...chain('0.08,0.06 0.84,0.92'), ...chain('0.52,0.76 0.84,0.92 0.76,0.56')] },
  '⌰': {
    advance: 1.4,
    edges: [
      ...chain('0.44,0.92 0.08,0.06 0.7,0.06 1.06,0.92'),
      ...chain('0.1,0.66 0.44,0.92 0.4,0.5'),
      ...chain('0.72,0.66 1.06,0.92 1.02,0.5'),
    ],
  },
  'Ⓜ': {
    advance: 1.2,
    edges: [circle(0.56, 0.5, 0.5), ...chain('0.3,0.24 0.3,0.76 0.56,0.4 0.82,0.76 0.82,0.24')],
    below: 0.02,
    above: 0.02,
  },
  'Ⓟ': {
    advance: 1.2,
    edges: [circle(0.56, 0.5, 0.5), ...chain('0.4,0.2 0.4,0.8 0.64,0.8 0.74,0.72 0.74,0.58 0.64,0.5 0.4,0.5')],
    below: 0.02,
    above: 0.02,
  },
  '☐': {
    advance: 1.55,
    edges: chain('0.08,-0.14 1.36,-0.14 1.36,1.14 0.08,1.14 0.08,-0.14'),
    below: 0.16,
    above: 0.16,
  },
  // surface: material is taken off, the value behind it (ISO 21920-1)
  '⎷': {
    advance: 1.5,
    edges: [...chain('0.06,0.55 0.36,0.02 1.0,1.12 1.4,1.12'), ...chain('0.06,0.55 0.66,0.55')],
    above: 0.16,
  },
  // edges without a mark of their own: the corner, and what is left of the burr outside it (ISO 13715)
  '⌞': {
    advance: 1.5,
    edges: [...chain('0.45,1.1 0.45,0.4 1.3,0.4'), ...chain('0.45,0.4 0.04,-0.02'), ...chain('0.7,0.78 1.05,0.78')],
    above: 0.14,
    below: 0.04,
  },
  '→': { advance: 1.4, edges: [...chain('0.08,0.45 1.28,0.45'), ...chain('0.98,0.6 1.28,0.45 0.98,0.3')] },
  '⌲': {
    advance: 1.9,
    edges: [
      ...chain('0.06,0.26 0.86,0.06 0.86,0.94 0.06,0.74 0.06,0.26'),
      circle(1.42, 0.5, 0.4),
      circle(1.42, 0.5, 0.22),
    ],
  },
  '⌱': {
    advance: 1.9,
    edges: [circle(0.44, 0.5, 0.4), circle(0.44, 0.5, 0.22), ...chain('1,0.26 1.8,0.06 1.8,0.94 1,0.74 1,0.26')],
  },
};

/** Undefined for a letter of the font. `⌲` stands for first angle, `⌱` for third (ISO 5456-2). */
export function drawingOf(letter: string): Drawing | undefined {
  return Object.hasOwn(DRAWINGS, letter) ? DRAWINGS[letter] : undefined;
}
