/** One set-up to step through: its passes as the sheet has them, each with its tool where it ends and what is gone by then. */
import { arc, pointAt, sweepOf } from '../../geometry/2d/edge';
import type { Point2, Vec3 } from '../../geometry/types';
import { homeOfTool } from '../../model/tool-kinds';
import type { PartInShop } from '../../process/part-in-shop';
import { passesOfPart } from '../../process/passes';
import type { Move, PassRow, SetupPasses, Way } from '../../process/passes/types';
import { timelineOf } from '../../process/stock';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { wordsOf } from '../../sheet/language';
import { toolTitle } from '../../sheet/part/bring';
import { shown, size } from '../../sheet/setup/saying';
import { cuttersOf, partsOf } from './cutters';
import { inPartOf, touchedZero } from './lie';
import type { Done } from './moments';
import type { PictureCutter, PicturePass } from './protocol';

export interface SetUpTold {
  readonly passes: readonly PicturePass[];
  /** What is done of the set-up's cuts after each pass. */
  readonly done: readonly (readonly Done[])[];
  /** Of each cut, where it goes deepest. */
  readonly cutters: readonly PictureCutter[];
  readonly zero?: Vec3;
}

/** Undefined where there is no such set-up. */
export function setUpOf(of: PartInShop, index: number): SetUpTold | undefined {
  const { part, solid, shop } = of;
  const made = timelineOf(part, solid).setups[index];
  if (!made) return undefined;
  const cutters = cuttersOf(made, { part, solid, shop });
  const passes = passesOfPart(of).find((p) => p.index === index);
  if (!passes) return { passes: [], done: [], cutters };
  const rows = passes.rows.filter((r) => r.kind === 'pass');
  const zero = touchedZero(passes);
  return {
    passes: rows.map((row) => passOf(row, passes, of, cutters)),
    done: rows.map((_, i) => doneAfter(rows.slice(0, i + 1), rows, made)),
    cutters,
    ...(zero && { zero }),
  };
}

function passOf(row: PassRow, passes: SetupPasses, of: PartInShop, cutters: readonly PictureCutter[]): PicturePass {
  const { number, where, tipsZ } = row;
  const z = tipsZ.at(-1);
  const at = (x: number, y: number): Vec3 => inPartOf(passes.readOut, [x, y, z ?? 0]);
  const flat = (p: readonly [number, number]) => at(p[0], p[1]);
  const ways = z === undefined || where.type === 'at' || where.type === 'as drawn' ? [] : where.ways;
  const spot = where.type === 'at' ? where.places[0] : ways[0]?.start;
  const disc = homeOfTool(row.tool).disc(row.tool) !== undefined;
  const found = cutters.find((c) => row.of.includes(c.feature) && c.tool === row.tool.name);
  const stands: PictureCutter | undefined =
    z === undefined || !spot || disc
      ? found
      : {
          feature: row.of[0] ?? '',
          tool: row.tool.name,
          tip: flat(spot),
          towards: inPartOf(passes.readOut, [0, 0, 1]).map(
            (c, i) => c - inPartOf(passes.readOut, [0, 0, 0])[i]!,
          ) as unknown as Vec3,
          parts: partsOf(row.tool, row.stickoutMm, of.shop),
        };
  return {
    number,
    of: row.of,
    text: textOf(row, of),
    ...(stands && { cutter: stands }),
    ...(ways.length > 0 && { ways: ways.map((w) => pointsOf(w).map(flat)) }),
  };
}

/** `drill mount, drill ⌀4.2, to Z −14`: in the sheet's words. */
function textOf({ operation, of, tool, tipsZ, where, leavesMm }: PassRow, { part }: PartInShop): string {
  const { part: words, setup: said } = wordsOf('en');
  const { units } = part;
  const z = tipsZ.at(-1);
  return [
    `${said.does[operation.does]} ${[...new Set(of)].join(', ')}`,
    toolTitle(tool, units, words, false),
    ...(where.type === 'at' && where.places.length > 1 ? [`${where.places.length} places`] : []),
    ...(z === undefined ? [] : [`${said.toDepth} Z ${shown(z, units)}`]),
    ...(leavesMm > 0 ? [said.leaves(size(leavesMm, units))] : []),
  ].join(', ');
}

/** So many chords stand for a full turn. */
const CHORDS = 48;

function pointsOf({ start, moves }: Way): readonly (readonly [number, number])[] {
  const points: (readonly [number, number])[] = [start];
  for (const move of moves) points.push(...reached(points.at(-1)!, move));
  return points;
}

function reached(from: readonly [number, number], move: Move): readonly (readonly [number, number])[] {
  if (move.type === 'line') return [move.to];
  const [a, b, centre] = [from, move.to, move.centre].map(([u, v]): Point2 => ({ u, v })) as [Point2, Point2, Point2];
  const edge = arc(a, b, centre, move.ccw);
  const n = Math.max(2, Math.ceil((Math.abs(sweepOf(edge)) / (2 * Math.PI)) * CHORDS));
  return Array.from({ length: n }, (_, i) => {
    const p = pointAt(edge, (i + 1) / n);
    return [p.u, p.v] as const;
  });
}

/** Seats that passes of their own make: until then they stand. */
const SEATS = ['counterbore', 'countersink'] as const;

function doneAfter(rows: readonly PassRow[], all: readonly PassRow[], { cuts }: SetupInTime): readonly Done[] {
  return cuts.flatMap((cut): readonly Done[] => {
    const own = (of: readonly PassRow[]) => of.filter((r) => r.of.includes(cut.name));
    const so = own(rows);
    if (so.length === 0) return [];
    if (so.length === own(all).length) return [{ order: cut.order }];
    const some = volumesBy(so, own(all), cut);
    return some.length > 0 ? [{ order: cut.order, some }] : [];
  });
}

/** What makes a hole wider than the drill before it did. */
const WIDENS: readonly string[] = ['bore', 'rough', 'rest', 'finish'];

/** Of the cut's volumes those that the passes so far make: a centre mark and a drill for a wider bore make none, a seat its own, all else the rest. */
function volumesBy(so: readonly PassRow[], own: readonly PassRow[], { removes }: Cut): readonly number[] {
  const does = (of: readonly PassRow[], what: string) => of.some((r) => r.operation.does === what);
  const seats = SEATS.filter((s) => does(own, s) && removes.some((v) => v.role === s));
  const none = new Set<string>(['spot', ...seats, ...(WIDENS.some((w) => does(own, w)) ? ['drill'] : [])]);
  const begun = so.some((r) => !none.has(r.operation.does));
  return removes.flatMap((v, i) => {
    const seat = seats.find((s) => s === v.role);
    return (seat ? does(so, seat) : begun) ? [i] : [];
  });
}
