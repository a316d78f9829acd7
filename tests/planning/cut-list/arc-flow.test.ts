/**
 * Cut lists of tens to hundreds of pieces, kerf, offcuts and several lengths against another way to work out the least: flows
 * along the bars (J. M. Valério de Carvalho, Annals of Operations Research 86, 1999, from memory), which knows no patterns,
 * solved by `highs`. `SCRIBELINE_ARC_FLOWS=120` draws as many.
 */
import assert from 'node:assert/strict';
import loadHighs from 'highs';
import { solverWithin } from '../../../server/src/node/solver';
import { cutList, provenCutList } from '../../../server/src/planning/cut-list/cut-list';
import type { CutListAsk } from '../../../server/src/planning/cut-list/types';
import { random } from '../../fuzz/runs';

const RUNS = Number(process.env.SCRIBELINE_ARC_FLOWS ?? 4);
const UNIT = 20;

/** Rows of a program, by what they are of. */
class Rows {
  readonly rows = new Map<string, string[]>();
  add(row: string, term: string): void {
    this.rows.set(row, [...(this.rows.get(row) ?? []), term]);
  }
}

/** Places from the end of a bar that pieces can come to. */
function placesOf(sizes: ReadonlyMap<number, number>, longest: number): ReadonlySet<number> {
  const reached = new Set([0]);
  for (const [size, times] of sizes)
    for (let n = 0; n < times; n++) {
      const next = [...reached].map((x) => x + size).filter((x) => x <= longest && !reached.has(x));
      if (next.length === 0) break;
      for (const x of next) reached.add(x);
    }
  return reached;
}

function programOf({ pieces, bars, saw }: CutListAsk): string {
  const sizes = new Map<number, number>();
  for (const { mm, times } of pieces) {
    const size = (mm + saw.kerfMm) / UNIT;
    sizes.set(size, (sizes.get(size) ?? 0) + times);
  }
  const rooms = bars.map((b) => (b.mm + saw.kerfMm - saw.clampMm) / UNIT);
  const longest = Math.max(...rooms);
  const ordered = new Map([...sizes].sort((a, b) => b[0] - a[0]));
  const places = placesOf(ordered, longest);
  const [rows, names] = [new Rows(), [] as string[]];
  const named = (name: string) => {
    names.push(name);
    return name;
  };
  for (const size of ordered.keys())
    for (const x of places) {
      if (!places.has(x + size)) continue;
      const arc = named(`a${x}_${size}`);
      rows.add(`flow ${x}`, `- ${arc}`);
      rows.add(`flow ${x + size}`, `+ ${arc}`);
      rows.add(`size ${size}`, `+ ${arc}`);
    }
  bars.forEach((_, k) => {
    const taken = named(`z${k}`);
    rows.add('flow 0', `+ ${taken}`);
    rows.add(`kind ${k}`, `- ${taken}`);
    for (const x of places) {
      if (x === 0 || x > rooms[k]!) continue;
      const end = named(`e${k}_${x}`);
      rows.add(`flow ${x}`, `- ${end}`);
      rows.add(`kind ${k}`, `+ ${end}`);
    }
  });
  const asked = (row: string) => {
    const [what, of] = row.split(' ');
    return what === 'flow' ? '= 0' : what === 'kind' ? '<= 0' : `>= ${ordered.get(Number(of))}`;
  };
  const subject = [...rows.rows].map(([row, terms], i) => ` r${i}: ${terms.join(' ')} ${asked(row)}`);
  const counted = bars.flatMap((b, k) => (b.count === undefined ? [] : [` z${k} <= ${b.count}`]));
  const cost = bars.map((b, k) => `+ ${b.cost} z${k}`).join(' ');
  return `Minimize\n cost: ${cost}\nSubject To\n${subject.join('\n')}\nBounds\n${counted.join('\n')}\nGeneral\n ${names.join('\n ')}\nEnd\n`;
}

function drawn(seed: number): CutListAsk {
  const r = random(seed);
  const length = (least: number, more: number) => UNIT * (least + r.below(more));
  const bought = { mm: length(40, 30), cost: 2 + r.below(8) };
  const more = Array.from({ length: r.below(3) }, () =>
    r.below(2) === 0
      ? { mm: length(20, 40), cost: 0.01, count: r.below(4) }
      : { mm: length(30, 40), cost: 1 + r.below(8) },
  );
  const clampMm = r.below(3) === 0 ? UNIT : 0;
  const pieces = Array.from({ length: 2 + r.below(8) }, () => ({
    mm: length(4, bought.mm / UNIT - 6),
    times: 1 + r.below(40),
  }));
  return { pieces, bars: [bought, ...more], saw: { kerfMm: r.pick([0, UNIT, 2 * UNIT]), clampMm, trimMm: 0 } };
}

describe('cut lists against flows along the bars', function () {
  this.timeout(600_000);
  let solver: ReturnType<typeof solverWithin>;
  before(() => {
    solver = solverWithin(600_000);
  });
  after(() => solver.end());

  it('cost what the flows cost where they are proven; no bound is above it', async () => {
    const highs = await loadHighs();
    for (let seed = 1; seed <= RUNS; seed++) {
      const ask = drawn(seed);
      const solved = highs.solve(programOf(ask), { time_limit: 60 });
      if (solved.Status !== 'Optimal') continue;
      const least = solved.ObjectiveValue;
      const [quick, list] = [cutList(ask), await provenCutList(ask, solver.solve)];
      assert.deepEqual(list.unplaced, []);
      for (const found of [quick, list])
        assert.ok(found.bound <= least + 1e-6 && found.cost >= least - 1e-6, JSON.stringify(ask));
      if (list.proven)
        assert.ok(Math.abs(list.cost - least) < 1e-6, `${list.cost}, not ${least}: ${JSON.stringify(ask)}`);
    }
  });

  // Longest first, each into the first bar with room, leaves the last two; there is a way for all.
  it('offcuts alone: what goes into them all is found, what does not is told as such', () => {
    const saw = { kerfMm: 1, clampMm: 0, trimMm: 0 };
    const pieces = [4, 2, 8, 8, 6, 8, 6].map((mm) => ({ mm, times: 1 }));
    const bars = [
      { mm: 14, cost: 0.01, count: 2 },
      { mm: 12, cost: 0.01, count: 2 },
    ];
    assert.deepEqual(cutList({ pieces, bars, saw }).unplaced, []);
    const more = cutList({ pieces: [...pieces, { mm: 9, times: 1 }], bars, saw });
    assert.equal(
      more.unplaced.reduce((n, p) => n + p.times, 0),
      1,
    );
  });
});
