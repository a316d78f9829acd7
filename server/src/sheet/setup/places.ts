/** Where passes go: one place large, a few listed, many in a list of their own below the table, each list once. */

import type { PassRow, Station, Way, Where } from '../../process/passes';
import { SAME } from '../../tolerance';
import { type Figure, moved } from '../draw/marks';
import { column, NOTHING } from '../draw/stack';
import { bold, type Inline, LARGE, NUMBER, SMALL, textFigure } from '../draw/text';
import { unsetAxes } from '../words';
import { type Saying, shown, size, stationText, stationTold, turnsText } from './saying';

/** Places and moves beyond these go into a list. */
const MOST_HERE = 3;
const MOST_MOVES = 40;

interface List {
  readonly name: string;
  readonly key: string;
  readonly where: Where;
  readonly passes: number[];
}

export class Places {
  readonly #lists: List[] = [];

  constructor(readonly saying: Saying) {}

  cell({ where, number: pass, unset }: Pick<PassRow, 'where' | 'number' | 'unset'>, w: number): Figure {
    const { said } = this.saying;
    const [later, nowhere] = [unsetAxes(unset, 'later').join(', '), unsetAxes(unset, 'nowhere').join(', ')];
    const first = [...(later ? [said.notSet(later)] : []), ...(nowhere ? [said.cannotSet(nowhere)] : [])];
    return column([...first.map((text) => textFigure(bold(text), { width: w })), this.#where(where, pass, w)]);
  }

  #where(where: Where, pass: number, w: number): Figure {
    const { said, units } = this.saying;
    const lines = (all: readonly Inline[], cap = SMALL) => column(all.map((l) => textFigure(l, { width: w, cap })));
    switch (where.type) {
      case 'as drawn':
        return lines([said.asDrawn]);
      case 'at': {
        const [first] = where.places;
        if (!first) return NOTHING;
        if (where.places.length === 1) {
          const one = (axis: string, mm: number) => [`${axis} `, bold(shown(mm, units), LARGE)];
          const turns = (axis: string, mm: number) =>
            this.saying.passes.dial ? [textFigure(`${axis} ${turnsText(mm, this.saying)}`, { width: w })] : [];
          return column([
            textFigure(one('X', first[0]), { width: w, cap: LARGE }),
            ...turns('X', first[0]),
            textFigure(one('Y', first[1]), { width: w, cap: LARGE }),
            ...turns('Y', first[1]),
          ]);
        }
        if (where.places.length <= MOST_HERE) return lines(where.places.map((p) => bold(stationTold(p, this.saying))));
        return lines([said.listed(this.#named(where, 'P', pass))]);
      }
      case 'along':
      case 'over': {
        const moves = where.ways.reduce((sum, way) => sum + way.moves.length, 0);
        const over = where.type === 'over' ? [said.allOver(size(where.stepMm, units, 1))] : [];
        if (moves <= MOST_HERE) return lines([...over, ...where.ways.map((way) => wayText(way, this.saying))]);
        return lines([...over, said.wayListed(this.#named(where, 'W', pass))]);
      }
      default:
        return where satisfies never;
    }
  }

  #named(where: Where, letter: string, pass: number): string {
    const key = JSON.stringify(where.type === 'at' ? where.places : where.type === 'as drawn' ? '' : where.ways);
    const known = this.#lists.find((l) => l.key === key);
    if (known) {
      known.passes.push(pass);
      return known.name;
    }
    const name = `${letter}${this.#lists.filter((l) => l.name.startsWith(letter)).length + 1}`;
    this.#lists.push({ name, key, where, passes: [pass] });
    return name;
  }

  /** The lists, one below the other, in parts that a page holds. */
  figures(w: number): readonly Figure[] {
    const { said } = this.saying;
    const [first, ...rest] = this.#lists.flatMap((l) => listFigures(l, this.saying, w));
    if (!first) return [];
    return [column([textFigure(bold(said.placesHead), { width: w }), first], 0.6), ...rest];
  }
}

/** So much of one list stands together, mm. */
const MOST_H = 60;

function listFigures({ name, where }: List, s: Saying, w: number): readonly Figure[] {
  const head = 12;
  const title = textFigure(bold(name, NUMBER), { width: head, cap: NUMBER });
  const rows = where.type === 'at' ? gridRows(where.places, s, w - head) : wayRows(where, s, w - head);
  const parts: Figure[][] = [[]];
  for (const row of rows) {
    const last = parts.at(-1)!;
    if (last.length > 0 && column(last).h + row.h > MOST_H) parts.push([row]);
    else last.push(row);
  }
  return parts.map((part) => {
    const inside = column(part);
    return { marks: [...title.marks, ...moved(inside.marks, head, 0.6)], w, h: Math.max(title.h, inside.h + 1) };
  });
}

function gridRows(places: readonly Station[], s: Saying, w: number): readonly Figure[] {
  const figures = places.map((p, i) => textFigure(`${i + 1}: ${stationTold(p, s)}`));
  const widest = Math.max(...figures.map((f) => f.w)) + 4;
  const columns = Math.max(1, Math.floor(w / widest));
  return Array.from({ length: Math.ceil(figures.length / columns) }, (_, r) => {
    const row = figures.slice(r * columns, (r + 1) * columns);
    return { marks: row.flatMap((f, k) => moved(f.marks, k * widest, 0)), w, h: row[0]!.h };
  });
}

function wayRows(where: Where, s: Saying, w: number): readonly Figure[] {
  if (where.type !== 'along' && where.type !== 'over') return [];
  return where.ways.map((way) => textFigure(wayText(way, s), { width: w }));
}

function isSame(a: Station, b: Station): boolean {
  return Math.hypot(a[0] - b[0], a[1] - b[1]) < SAME;
}

/** Of what stays the same one number. */
function straightText(from: Station, to: Station, s: Saying): string {
  const [x0, y0, x1, y1] = [...from, ...to].map((mm) => shown(mm, s.units)) as [string, string, string, string];
  if (s.passes.dial || (x0 !== x1 && y0 !== y1)) return `${stationTold(from, s)} → ${stationTold(to, s)}`;
  return x0 === x1 ? `X\u00a0${x0} Y\u00a0${y0} → ${y1}` : `Y\u00a0${y0} X\u00a0${x0} → ${x1}`;
}

function wayText({ start, moves }: Way, s: Saying): string {
  const { said, units } = s;
  const [only] = moves;
  if (moves.length === 1 && only) {
    if (only.type === 'arc' && isSame(only.to, start))
      return said.circle(stationTold(start, s), stationText(only.centre, units));
    if (only.type === 'line') return straightText(start, only.to, s);
  }
  if (moves.length > MOST_MOVES) return `${stationTold(start, s)} → ${said.curve}`;
  const to = moves.map((m) =>
    m.type === 'line' ? stationTold(m.to, s) : said.roundTo(stationText(m.centre, units), stationTold(m.to, s)),
  );
  return [stationTold(start, s), ...to].join(' → ');
}
