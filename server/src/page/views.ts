/**
 * Flat views of a part, or of two revisions of it, as SVG: what a page shows without a script, and a Markdown page at all.
 * What went and what came have a hatching and a word each. Presentation attributes only: a page's policy lets no others in.
 */
import { within } from '../effort';
import { type Drawn, drawView } from '../export/flat/lines';
import { outlinePath, strokePath, text } from '../export/flat/sheet-svg';
import { type View, viewOf } from '../export/flat/view';
import { mapPoint } from '../geometry/2d/plane-map';
import type { Differing, Lumps } from '../geometry/mesh/differing';
import type { Solid } from '../geometry/types';
import type { Face } from '../model/faces';
import { markup } from '../text/shown';

export interface Pair {
  readonly before?: Solid | undefined;
  readonly after?: Solid | undefined;
  readonly differing?: Differing | undefined;
}
export type Shown = 'before' | 'after' | 'both';

interface Wanted {
  readonly show: Shown;
  readonly faces: readonly Face[];
  readonly title: string;
  /** Of ids, that several pictures may stand in one page. */
  readonly prefix: string;
}

const WENT = '#b3261e';
const CAME = '#0b57a4';
const GAP = 12;
/** Of letters, mm; and of what stands below the views. */
const LETTER = 3.5;
const FOOT = 10;
/** Looks at an edge that one view may cost. */
const MOST_LOOKS = 1e8;

/** All faces that are wanted in one picture, one millimetre a unit. Undefined where none can be followed. */
export function viewsSvg(pair: Pair, { show, faces, title, prefix }: Wanted): string | undefined {
  const main = show === 'before' ? pair.before : (pair.after ?? pair.before);
  if (!main) return undefined;
  const placed: string[] = [];
  let x = GAP;
  let high = 0;
  for (const face of faces) {
    const view = viewOf(face, main.body.box.max);
    const size = sizeOf(view, pair, show);
    const at = { x: x + size.left, y: size.above };
    const drawn = viewMarks(pair, show, view, { ...at, prefix });
    if (!drawn) continue;
    placed.push(`<g>${drawn}\n${text(at.x, at.y + size.below + LETTER + 2, LETTER, face)}</g>`);
    x += size.left + size.right + GAP;
    high = Math.max(high, size.above + size.below);
  }
  if (placed.length === 0) return undefined;
  const legend = pair.differing ? legendOf(show, prefix, high + FOOT + 6) : { marks: '', width: 0 };
  const [width, height] = [Math.max(x, legend.width), high + FOOT + (legend.marks ? 14 : 0)];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 ${-GAP} ${mm(width)} ${mm(height + GAP)}" font-family="sans-serif" role="img">
<title>${markup(title)}</title>
${pair.differing ? patterns(prefix) : ''}<rect y="${-GAP}" width="${mm(width)}" height="${mm(height + GAP)}" fill="#fff"/>
${placed.join('\n')}
${legend.marks}
</svg>`;
}

const mm = (x: number) => String(Number(x.toFixed(3)));

/** How far a view reaches from its lower left corner, both parts in it. */
function sizeOf(view: View, { before, after }: Pair, show: Shown) {
  const shown = show === 'both' ? [before, after] : [show === 'before' ? before : after];
  const corners = shown.flatMap((s) => {
    if (!s) return [];
    const { min, max } = s.body.box;
    const [i, k] = [(view.axis + 1) % 3, (view.axis + 2) % 3];
    return [min, max].map((p) => mapPoint(view.map, { u: p[i]!, v: p[k]! }));
  });
  const reach = (of: 'u' | 'v', way: 1 | -1) => Math.max(0, ...corners.map((c) => way * c[of]));
  return { left: reach('u', -1), right: reach('u', 1), above: reach('v', 1), below: reach('v', -1) };
}

type Place = { readonly x: number; readonly y: number; readonly prefix: string };

function viewMarks({ before, after, differing }: Pair, show: Shown, view: View, at: Place): string | undefined {
  const main = show === 'before' ? before : (after ?? before);
  const drawn = main && followed(main, view);
  if (!drawn) return undefined;
  const old = show === 'both' && before && after ? followed(before, view) : undefined;
  const hatch = (lumps: Lumps | undefined, name: 'went' | 'came', hidden: Shown) =>
    lumps && show !== hidden ? hatched(lumps, view, name, at) : '';
  return [
    `<path d="${outlinePath(drawn.shadow, at)}" fill="#eee" fill-rule="evenodd"/>`,
    hatch(differing?.went, 'went', 'after'),
    hatch(differing?.came, 'came', 'before'),
    old && old.visible.length > 0 ? lines(strokePath(old.visible, at), WENT, 0.3, '1.5 1') : '',
    lines(strokePath(drawn.hidden, at), '#000', 0.2, '3 .75'),
    lines(strokePath(drawn.visible, at), '#000', 0.45),
    lines(strokePath(drawn.centreLines, at), '#000', 0.2, '6 .75 .2 .75'),
  ].join('');
}

function followed(solid: Solid, view: View): Drawn | undefined {
  return within(
    { remaining: MOST_LOOKS },
    () => drawView(solid, view),
    () => undefined,
  );
}

function lines(d: string, colour: string, width: number, dash?: string): string {
  if (d === '') return '';
  const dashed = dash === undefined ? '' : ` stroke-dasharray="${dash}"`;
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round"${dashed}/>`;
}

/** The outline of what went or came, as it is seen along the view, whether the part hides it or not. */
function hatched({ shadows }: Lumps, view: View, name: 'went' | 'came', { x, y, prefix }: Place): string {
  const point = ([u, v]: readonly [number, number]) => {
    const p = mapPoint(view.map, { u, v });
    return `${mm(x + p.u)} ${mm(y - p.v)}`;
  };
  const d = shadows[view.axis].map((outline) => `M${outline.map(point).join('L')}Z`).join('');
  if (d === '') return '';
  const colour = name === 'went' ? WENT : CAME;
  return `<path d="${d}" fill="url(#${prefix}${name})" fill-rule="evenodd" stroke="${colour}" stroke-width="0.35"><title>${name}</title></path>`;
}

/** Strokes that rise to the right for what went, dots for what came. */
function patterns(prefix: string): string {
  return `<defs>
<pattern id="${prefix}went" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="2" height="2" fill="${WENT}" fill-opacity="0.1"/><path d="M1 0V2" stroke="${WENT}" stroke-width="0.6"/></pattern>
<pattern id="${prefix}came" width="1.6" height="1.6" patternUnits="userSpaceOnUse"><rect width="1.6" height="1.6" fill="${CAME}" fill-opacity="0.1"/><circle cx="0.8" cy="0.8" r="0.4" fill="${CAME}"/></pattern>
</defs>
`;
}

function legendOf(show: Shown, prefix: string, y: number): { readonly marks: string; readonly width: number } {
  const rows: readonly (readonly ['went' | 'came', string, Shown])[] = [
    ['went', 'went: only in the old part', 'after'],
    ['came', 'came: only in the new part', 'before'],
  ];
  let x = GAP;
  const marks = rows.flatMap(([name, words, hidden]) => {
    if (show === hidden) return [];
    const colour = name === 'went' ? WENT : CAME;
    const swatch = `<rect x="${x}" y="${mm(y - 4)}" width="9" height="5" fill="url(#${prefix}${name})" stroke="${colour}" stroke-width="0.35"/>`;
    const said = text(x + 11, y, LETTER, words);
    x += 66;
    return [swatch + said];
  });
  return { marks: marks.join('\n'), width: x };
}
