/** A feature in the short language of drawings: `⌀22 H7 ↧7 flat`, `8 × 24 ↧2.5, corners R3.5`. */
import { type ByForm, type EdgeChoice, ofForm } from '../../model/feature-kinds';
import type { Depth, Feature, Length, Part, PathCorner, Shape, Units } from '../../model/model';
import { SAME } from '../../tolerance';
import type { SheetWords } from '../language/en';
import { limits, num, sized } from './numbers';

interface Saying {
  readonly units: Units;
  readonly words: SheetWords;
  /** How another feature is called on this sheet. */
  readonly named: (name: string) => string;
  /** On a drawing, which shows where it is: what is said there is left out here, what a table left out is said. */
  readonly drawn?: (feature: Feature) => string;
}

/** Parts of the description, to be set side by side; limits follow what they belong to. */
export function briefOf(feature: Feature, part: Part, words: SheetWords, named: (name: string) => string): string {
  return saidOf(feature, { units: part.units, words, named });
}

export function saidOf(feature: Feature, saying: Saying): string {
  const { words } = saying;
  const said = ofForm(BRIEFS, feature, saying);
  if (saying.drawn) return drawnOf(feature, said, saying);
  const more = [
    feature.tilt ? words.tilted(num(feature.tilt.angle.deg, 'mm'), feature.tilt.about) : '',
    feature.finish ? `Ra ${feature.finish.raUm}` : '',
    feature.note ?? '',
  ];
  return [said, ...more].filter((s) => s !== '').join(', ');
}

/** As beside a picture: where it starts, what is said of its places, its surface by the sign of ISO 21920-1. */
function drawnOf(feature: Feature, said: string, { words, named, drawn }: Saying): string {
  return [
    said,
    drawn!(feature),
    feature.from ? words.fromFloor(named(feature.from.name)) : '',
    feature.tilt ? words.tilted(num(feature.tilt.angle.deg, 'mm'), feature.tilt.about) : '',
    feature.finish ? `⎷\u00a0Ra\u00a0${feature.finish.raUm}` : '',
    feature.note ?? '',
  ]
    .filter((s) => s !== '')
    .join(', ');
}

function withLimits(length: Length, { units }: Saying): string {
  const both = length.tolerance && limits(length, units);
  return both ? `${sized(length, units)} (${both})` : sized(length, units);
}

function deep({ through, length, mm }: Depth, s: Saying): string {
  if (through) return s.words.through;
  return `↧${length ? withLimits(length, s) : num(mm, s.units)}`;
}

function shaped(shape: Shape, s: Saying): string {
  const { words, units } = s;
  if (shape.type === 'circle') return `⌀${withLimits(shape.diameter, s)}`;
  if (shape.type === 'path') return s.drawn ? words.outlineTable : words.outline;
  const corner = shape.cornerRadius.mm > 0 ? `, ${words.corners(num(shape.cornerRadius.mm, units))}` : '';
  const turned = shape.rotateDeg === 0 ? '' : `, ${num(shape.rotateDeg, 'mm')}°`;
  return `${withLimits(shape.u, s)} × ${withLimits(shape.v, s)}${corner}${turned}`;
}

function floored({ floorRadius }: { readonly floorRadius: Length }, { words, units }: Saying): string {
  return floorRadius.mm > 0 ? `, ${words.floor(num(floorRadius.mm, units))}` : '';
}

function lineLength(line: readonly PathCorner[]): number {
  return line.slice(1).reduce((sum, c, i) => sum + Math.hypot(c.u - line[i]!.u, c.v - line[i]!.v), 0);
}

/** Whether a line's middle is the feature's own place: then its place and length say it. */
export function isCentred(line: readonly PathCorner[]): boolean {
  const [a, b] = [line[0]!, line.at(-1)!];
  if (line.length !== 2 || a.arc) return false;
  return Math.abs(a.u + b.u) < SAME && Math.abs(a.v + b.v) < SAME && (Math.abs(a.u) < SAME || Math.abs(a.v) < SAME);
}

const BRIEFS: ByForm<[Saying], string> = {
  hole: (hole, s) => {
    const { words, units } = s;
    const parts: string[] = [];
    if (hole.thread) {
      const all = hole.depth.through && (hole.threadDepth?.mm ?? hole.depth.mm) > hole.depth.mm - SAME;
      const full = all
        ? words.through
        : `↧${hole.threadDepth ? withLimits(hole.threadDepth, s) : num(hole.depth.mm, units)}`;
      const drill = words.drill(withLimits(hole.diameter, s));
      parts.push(`${hole.thread.designation} ${full}`, all ? drill : `${drill} ${deep(hole.depth, s)}`);
    } else {
      const flat = hole.bottom === 'flat' && !hole.depth.through ? ` ${words.flat}` : '';
      parts.push(`⌀${withLimits(hole.diameter, s)} ${deep(hole.depth, s)}${flat}`);
      if (hole.clearance) parts.push(words.forScrew(hole.clearance.screw));
      if (hole.seat) parts.push(words.forScrew(hole.seat.name));
    }
    if (!hole.point.from && !hole.depth.through && hole.bottom === 'cone')
      parts.push(words.point(num(hole.point.deg, 'mm')));
    if (hole.counterbore)
      parts.push(`⌴⌀${withLimits(hole.counterbore.diameter, s)} ↧${withLimits(hole.counterbore.depth, s)}`);
    if (hole.countersink)
      parts.push(`⌵⌀${withLimits(hole.countersink.diameter, s)} ${num(hole.countersink.angle.deg, 'mm')}°`);
    return parts.join(', ');
  },
  opening: (pocket, s) => {
    const islands = pocket.islands.length > 0 && !s.drawn ? `, ${s.words.islands(pocket.islands.length)}` : '';
    const draft = pocket.draft ? `, ${s.words.draft(num(pocket.draft.deg, 'mm'))}` : '';
    const relief = pocket.relief ? `, ${s.words.reliefs(num(pocket.relief.diameter.mm, s.units))}` : '';
    return `${shaped(pocket.shape, s)} ${deep(pocket.depth, s)}${floored(pocket, s)}${draft}${relief}${islands}`;
  },
  channel: (slot, s) => {
    const { words, units } = s;
    const tee = slot.tee ? `, ${words.tee(num(slot.tee.width.mm, units), num(slot.tee.height.mm, units))}` : '';
    const tail = slot.dovetail ? `, ${words.dovetail(num(slot.dovetail.angle.deg, 'mm'))}` : '';
    const { counterbore: bore, countersink: sink } = slot;
    const recess = bore
      ? `, ⌴ ${words.wide(withLimits(bore.width, s))} ↧${withLimits(bore.depth, s)}`
      : sink
        ? `, ⌵ ${words.wide(withLimits(sink.width, s))} ${num(sink.angle.deg, 'mm')}°`
        : '';
    const out = slot.runOutMm ? `, ${words.runOut(num(slot.runOutMm, units))}` : '';
    const round = slot.runOutMm ? 0 : slot.width.mm;
    const long = s.drawn && !isCentred(slot.line) ? '' : `, ${words.long(num(lineLength(slot.line) + round, units))}`;
    return `${words.wide(withLimits(slot.width, s))}${long} ${deep(slot.depth, s)}${floored(slot, s)}${recess}${tee}${tail}${out}`;
  },
  shoulder: (step, s) => {
    const along = step.along.map((f) => s.words.faces[f.name]).join(', ');
    const wide = step.widths.map((w) => withLimits(w, s)).join(' × ');
    return `${s.words.wide(wide)} ${deep(step.depth, s)}, ${s.words.alongEdges(along)}${floored(step, s)}`;
  },
  outside: (contour, s) => {
    const shapes = contour.shapes.map((shape) =>
      shape.type === 'path' ? (s.drawn ? s.words.keepsTable : s.words.keepsOutline) : shaped(shape, s),
    );
    const thread = contour.thread ? `${contour.thread.designation} ↧${withLimits(contour.thread.deep, s)}, ` : '';
    const undercut = contour.thread?.undercut;
    const foot = undercut
      ? `, ${s.words.undercut(withLimits(undercut.width, s), withLimits(undercut.diameter, s), undercut.source ?? '')}`
      : '';
    return `${thread}${[...new Set(shapes)].join('; ')} ${deep(contour.depth, s)}${floored(contour, s)}${foot}`;
  },
  edge: (edge, s) => {
    const edges = edge.edges.map((e) => edgeOf(e, s)).join(', ');
    return `${edgeSize(edge, s)}: ${edges}`;
  },
  ring: (groove, s) => {
    const { words, units } = s;
    const size = `⌀${withLimits(groove.diameter, s)} × ${withLimits(groove.width, s)}`;
    const ring = groove.ring
      ? `, ${words.forScrew(`O-ring ${num(groove.ring.insideMm, 'mm')}×${num(groove.ring.sectionMm, 'mm')}`)}`
      : '';
    if (!groove.in) return `${words.groove} ${size}${groove.depth ? ` ${deep(groove.depth, s)}` : ''}${ring}`;
    const below = groove.below ? `, ${words.below(num(groove.below.mm, units))}` : '';
    return `${words.grooveIn(s.named(groove.in.name))} ${size}${below}`;
  },
  letters: ({ text, height, depth, stroke }, s) => {
    const line = s.drawn && !stroke.from ? `, ${s.words.wide(withLimits(stroke, s))}` : '';
    return `${s.words.letters(text)} ${s.words.high(num(height.mm, s.units))} ${deep(depth, s)}${line}`;
  },
  slope: (slope, s) => {
    const { words, units } = s;
    const [w, d] = [num(slope.widthMm, units), num(slope.depthMm, units)];
    const byWidth = Math.abs(slope.given.mm - slope.widthMm) < SAME;
    const given = byWidth ? words.wide(withLimits(slope.given, s)) : `↧${withLimits(slope.given, s)}`;
    const size = s.drawn ? given : `${words.wide(w)} ↧${d}`;
    return `${num(slope.angle.deg, 'mm')}° ${words.alongEdges(words.faces[slope.along.name])}, ${size}`;
  },
};

/** What an edge is broken to. */
export function edgeSize(edge: Extract<Feature, { edges: unknown }>, s: Saying): string {
  if ('radius' in edge) return `R${withLimits(edge.radius, s)}`;
  return `${withLimits(edge.size, s)} × ${num(edge.angle.deg, 'mm')}°`;
}

function edgeOf(edge: EdgeChoice, { words, named }: Saying): string {
  if (edge.type === 'face') return words.edgesOf(words.faces[edge.face]);
  if (edge.type === 'rim') return (edge.far ? words.farRimOf : words.rimOf)(named(edge.feature.name));
  return words.edgeBetween(words.faces[edge.faces[0]], words.faces[edge.faces[1]]);
}
