/**
 * A drawing of the part as SVG, full size in mm: one face or all six, visible edges, cuts out of sight dashed, centre
 * lines, overall sizes and a title block. Line types after ISO 128-2, letters after ISO 3098-1 in size; their shape is
 * that of the reader's machine.
 */
import { within } from '../effort';
import type { Face } from '../model/faces';
import type { Part } from '../model/model';
import { markup } from '../text/shown';
import { layoutOf } from './flat/layout';
import { type Drawn, drawFace } from './flat/lines';
import { type Corner, n, outlinePath, strokePath, text } from './flat/sheet-svg';
import { overallSizes } from './flat/sizes';
import { titleBlock } from './flat/title-block';
import { ExportError, type Writer } from './writer';

/** Wide and narrow lines, mm (ISO 128-2: ratio 2 : 1). */
const WIDE = 0.5;
const NARROW = 0.25;
const MARGIN = 8;
/** Looks at an edge that one view may cost. */
const MOST_LOOKS = 1e8;

export const svgWriter: Writer = {
  extensions: ['.svg'],
  title: 'SVG: a drawing of all six faces, or of one',
  perFace: true,
  async write({ checked: { solid, part }, face }) {
    const layout = layoutOf(solid.body.box.max, face);
    const missing: Face[] = [];
    const views: { drawn: Drawn; place: Corner }[] = [];
    for (const place of layout.views) {
      const drawn = within(
        { remaining: MOST_LOOKS },
        () => drawFace(solid, place.face),
        () => undefined,
      );
      if (drawn) views.push({ drawn, place });
      else missing.push(place.face);
    }
    if (views.length === 0) throw new ExportError('its outlines are too tangled to follow');
    const block = titleBlock(
      part,
      face === undefined,
      views.some((v) => v.drawn.hidden.length > 0),
    );
    const width = Math.max(layout.width, block.width + 2 * MARGIN);
    const height = layout.height + block.height + MARGIN;
    const body = [
      ...views.map(({ drawn, place }) => viewOnSheet(drawn, place)),
      ...overallSizes(layout.views, part, solid.body),
      block.at(width - MARGIN - block.width, height - MARGIN - block.height),
    ];
    const notes = missing.map((f) => `the view of \`${f}\` is left out: its outlines are too tangled to follow.`);
    return { bytes: new TextEncoder().encode(sheet(width, height, part, body)), notes };
  },
};

function viewOnSheet({ view, shadow, visible, hidden, centreLines }: Drawn, at: Corner): string {
  const path = (name: string, d: string) => (d === '' ? '' : `\n<path class="${name}" d="${d}"/>`);
  return `<g id="${view.face}">${path('body', outlinePath(shadow, at))}${path('hidden', strokePath(hidden, at))}${path(
    'visible',
    strokePath(visible, at),
  )}${path('centre', strokePath(centreLines, at))}
${text(at.x, at.y - view.height - 3, 2.5, view.face)}
</g>`;
}

function sheet(width: number, height: number, part: Part, body: readonly string[]): string {
  const [w, h] = [n(width), n(height)];
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}" font-family="sans-serif" role="img">
<title>${markup(part.title ?? part.name)}</title>
<style>
.ground{fill:#fff}.body{fill:#f2f2f2;fill-rule:evenodd}.arrow{fill:#000}
.visible,.hidden,.centre,.size{fill:none;stroke:#000;stroke-linecap:round;stroke-linejoin:round}
.visible{stroke-width:${WIDE}}.hidden,.centre,.size{stroke-width:${NARROW}}
.hidden{stroke-dasharray:3 .75}.centre{stroke-dasharray:6 .75 .2 .75}
</style>
<rect class="ground" width="${w}" height="${h}"/>
${body.join('\n')}
</svg>
`;
}
