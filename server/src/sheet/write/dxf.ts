/**
 * Pages as DXF: a block each, side by side, in millimetres of the paper. Layers by what a line is for; words between the
 * ends of their baseline, so that whatever font a reader has they take the room that was measured for them.
 */
import { DxfFile } from '../../export/flat/dxf-file';
import { mapEdge } from '../../geometry/2d/plane-map';
import type { Edge, Point2 } from '../../geometry/types';
import { CHAIN, DASHED, type Fill, type Mark, type Stroke, WIDE } from '../draw/marks';
import { MARGIN, type Paper, paperSize, type Sheet } from '../page';

const LAYERS = { wide: 'wide', narrow: 'narrow', hidden: 'hidden', centre: 'centre', words: 'words' } as const;
/** Hundredths of a millimetre that the format knows; the nearest is taken. */
const WIDTHS = [13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100];
const BETWEEN = 20;

export function dxfOf(sheets: readonly Sheet[], paper: Paper): string {
  const file = new DxfFile(
    [LAYERS.wide, LAYERS.narrow, [LAYERS.hidden, 'dashed'], [LAYERS.centre, 'chain'], LAYERS.words],
    [
      { name: 'dashed', pattern: DASHED },
      { name: 'chain', pattern: CHAIN },
    ],
  );
  let x = 0;
  for (const [i, sheet] of sheets.entries())
    for (const page of sheet.pages) {
      const { w, h } = paperSize(page, paper);
      const onPaper = new OnPaper(file, h);
      file.block(`sheet-${i + 1}-${page.number}`, { x, y: 0 }, () => {
        for (const mark of page.marks) onPaper.draw(mark);
      });
      x += w + BETWEEN;
    }
  return file.text();
}

/** The page's y runs down from its upper margin, the paper's up from its foot. */
class OnPaper {
  private readonly map;

  constructor(
    private readonly file: DxfFile,
    high: number,
  ) {
    this.map = { uu: 1, uv: 0, vu: 0, vv: -1, u0: MARGIN.left, v0: high - MARGIN.top };
  }

  draw(m: Mark): void {
    switch (m.type) {
      case 'stroke':
        this.stroke(m);
        break;
      case 'fill':
        this.fill(m);
        break;
      case 'sign':
        for (const s of m.strokes) this.draw(s);
        break;
      case 'words': {
        const from = this.at({ u: m.x, v: m.y });
        const to = this.at(m.turned ? { u: m.x, v: m.y - m.width } : { u: m.x + m.width, v: m.y });
        this.file.words(LAYERS.words, m.words, { from, to, high: m.cap });
        break;
      }
      default:
        m satisfies never;
    }
  }

  private at({ u, v }: Point2): Point2 {
    return { u: u + this.map.u0, v: this.map.v0 - v };
  }

  private stroke(s: Stroke): void {
    const width = WIDTHS.reduce((best, w) => (Math.abs(w - s.width * 100) < Math.abs(best - s.width * 100) ? w : best));
    for (const e of s.edges) this.file.edge(layerOf(s), mapEdge(this.map, e), width);
  }

  private fill({ loops }: Fill): void {
    for (const loop of loops) {
      const first = loop[0];
      if (first?.type === 'arc') this.file.disc(LAYERS.narrow, this.at(first.centre), first.radius);
      else
        this.file.filled(
          LAYERS.narrow,
          cornersOf(loop).map((p) => this.at(p)),
        );
    }
  }
}

function cornersOf(loop: readonly Edge[]): readonly Point2[] {
  return loop.map((e) => e.a).slice(0, 4);
}

function layerOf({ width, dash }: Stroke): string {
  if (dash === DASHED) return LAYERS.hidden;
  if (dash) return LAYERS.centre;
  return width >= WIDE ? LAYERS.wide : LAYERS.narrow;
}
