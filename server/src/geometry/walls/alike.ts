/**
 * How much one question for walls may look for what has no closed form. Where holes run into each other by the hundred,
 * most pairs lie to each other as others do (a pattern): what was looked for between one such pair in vain need not be
 * looked for between the next. What is left is counted, pair by pair in a fixed order and whether or not an answer is
 * known already, so that the same part is judged as far whatever was asked before.
 */
import type { BodyShape, Box, Region, Vec3, Void } from '../types';

/** Searches of one question; the largest of our own parts makes a handful. Some milliseconds each. */
const MOST_SEARCHES = 300;
/** Outlines of more edges than this are like no other. */
const MOST_EDGES = 8;

export class Searches {
  private made = 0;
  private readonly vain = new Set<string>();

  /** Whether the work allowed reaches for one more, or for none since the like was in vain. */
  next(key: string): 'look' | 'vain' | 'over' {
    if (this.vain.has(key)) return 'vain';
    if (this.made >= MOST_SEARCHES) return 'over';
    this.made++;
    return 'look';
  }

  inVain(key: string): void {
    this.vain.add(key);
  }
}

/** What a volume is and how it lies, without where. `number` tells apart what is not compared. */
export function shapeOf(v: Void, number: number): string {
  const { frame, profile } = v;
  const axes = [...frame.u, ...frame.w].map((x) => Math.round(x * 1e9)).join();
  return `${JSON.stringify(profile)} ${micro(v.to - v.from)} ${axes} ${outlineKey(v.region) ?? `#${number}`}`;
}

function outlineKey({ outer, holes }: Region): string | undefined {
  if (holes.length > 0 || outer.edges.length > MOST_EDGES) return undefined;
  return outer.edges
    .map((e) => {
      const ends = [e.a.u, e.a.v, e.b.u, e.b.v].map(micro).join();
      return e.type === 'line' ? ends : `${ends},${micro(e.centre.u)},${micro(e.centre.v)},${e.a === e.b},${e.ccw}`;
    })
    .join(';');
}

/** Nanometres: positions that differ by rounding are one. */
const micro = (mm: number) => Math.round(mm * 1e6);

function placeOf({ frame, from }: Void): Vec3 {
  const { origin, w } = frame;
  return [origin[0] + w[0] * from, origin[1] + w[1] * from, origin[2] + w[2] * from];
}

/** Two pairs of the same key lie to each other, to what is around them and to the body's skin in the same way. */
export function pairKey(
  own: readonly Void[],
  near: readonly Void[],
  shape: (v: Void) => string,
  gap: Box,
  body: BodyShape,
): string {
  const start = placeOf(own[0]!);
  const lies = (v: Void) => {
    const at = placeOf(v);
    return `${shape(v)} ${[0, 1, 2].map((k) => micro(at[k as 0] - start[k as 0])).join()}`;
  };
  const skin = ([0, 1, 2] as const).map((k) => {
    const inside = body.form === 'box' && gap.min[k] > body.box.min[k] && gap.max[k] < body.box.max[k];
    return inside ? '' : micro(start[k] - body.box.min[k]);
  });
  return [...own.map(lies), skin.join(), ...near.map(lies).sort()].join('|');
}
