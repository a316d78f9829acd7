/** The table by letter: what it is, how many, where. */

import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_PLANE, type Feature, type Part } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import type { Figure } from '../draw/marks';
import { NOTHING, table } from '../draw/stack';
import { bold } from '../draw/text';
import type { SheetWords } from '../language/en';
import { briefOf } from './brief';
import { calledBy } from './frames';
import { locatedBy } from './located';
import { num } from './numbers';

interface TableOf {
  readonly part: Part;
  readonly solid: Solid;
  readonly words: SheetWords;
  readonly letters: ReadonlyMap<Feature, string>;
}

/** A table of fewer rows is not begun. */
const LEAST_ROWS = 2;
const LETTER = 7;
const COUNT = 6;
const WHERE = 24;
/** More places than these are told by the ordinates alone. */
const MOST = 12;

/** As many rows as fit into a height, and what is left. */
export function featureTables(of: TableOf, w: number, room: number): readonly [Figure, Figure] {
  const all = [...of.letters];
  for (let n = all.length; n >= LEAST_ROWS; n--) {
    const part = featureTable({ ...of, letters: new Map(all.slice(0, n)) }, w, of.letters);
    if (part.h <= room) return [part, featureTable({ ...of, letters: new Map(all.slice(n)) }, w, of.letters)];
  }
  return [NOTHING, featureTable(of, w, of.letters)];
}

function featureTable(of: TableOf, w: number, named: TableOf['letters']): Figure {
  const { part, words, letters } = of;
  if (letters.size === 0) return NOTHING;
  const columns = [
    { w: LETTER, align: 'middle' as const },
    { w: w - LETTER - COUNT - WHERE },
    { w: COUNT, align: 'middle' as const },
    { w: WHERE },
  ];
  const head = [words.at, words.what, words.count, words.where].map((h) => ({ text: bold(h) }));
  const called = calledBy({ part, words, letters: named });
  const rows = [...letters].map(([feature, letter]) => [
    { text: bold(letter) },
    { text: briefOf(feature, part, words, called) },
    { text: String(feature.places.length || 1) },
    { text: whereOf(feature, of) },
  ]);
  return table(columns, [head, ...rows]);
}

/** `x 8, 52 · z 8` where they stand in rows; else each place; of what has no place of its own the sides of its box. */
function whereOf(feature: Feature, { part, solid, words }: TableOf): string {
  const { units } = part;
  const [a, b] = FACE_PLANE[feature.face];
  const from = feature.startMm > ROUNDING ? `, ${words.below(num(feature.startMm, units))}` : '';
  const { table: by, view } = locatedBy(feature);
  if (by === 'face') return words.faces[feature.face];
  const voids = solid.voidsOf(feature.name);
  if (by === 'reach' || feature.places.length === 0 || (view === 'sides' && !isCentred(feature, voids))) {
    const box = voids.map((v) => v.bounds);
    if (box.length === 0) return words.faces[feature.face];
    const span = (axis: 'x' | 'y' | 'z') => {
      const i = AXIS_INDEX[axis];
      const low = Math.max(0, Math.min(...box.map((v) => v.min[i])));
      const high = Math.min(solid.body.box.max[i], Math.max(...box.map((v) => v.max[i])));
      return `${axis} ${num(low, units)}…${num(high, units)}`;
    };
    return `${words.faces[feature.face]}, ${span(a)} ${span(b)}`;
  }
  const us = unique(feature.places.map((p) => num(p.u, units)));
  const vs = unique(feature.places.map((p) => num(p.v, units)));
  if (us.length * vs.length === feature.places.length) return `${a} ${us.join(', ')} · ${b} ${vs.join(', ')}${from}`;
  const all = feature.places.map((p) => `${num(p.u, units)} · ${num(p.v, units)}`);
  const shown = all.length > MOST ? [...all.slice(0, MOST), words.more(all.length - MOST)] : all;
  return `${a} · ${b}: ${shown.join('; ')}${from}`;
}

/** Whether its places are the middles of what it takes away: an outline's or a path's place is only where it counts from. */
function isCentred({ face, places }: Feature, voids: ReturnType<Solid['voidsOf']>): boolean {
  const [a, b] = FACE_PLANE[face];
  const members = [...new Set(voids.map((v) => v.member))].sort((p, q) => p - q);
  return places.every((p, i) => {
    const own = voids.filter((v) => v.member === members[i]).map((v) => v.bounds);
    const middle = (axis: 'x' | 'y' | 'z') => {
      const k = AXIS_INDEX[axis];
      return (Math.min(...own.map((o) => o.min[k])) + Math.max(...own.map((o) => o.max[k]))) / 2;
    };
    return own.length === 0 || (Math.abs(middle(a) - p.u) < ROUNDING && Math.abs(middle(b) - p.v) < ROUNDING);
  });
}

function unique(values: readonly string[]): readonly string[] {
  return [...new Set(values)].sort((p, q) => Number(p.replace('−', '-')) - Number(q.replace('−', '-')));
}
