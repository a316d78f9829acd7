/**
 * Keyways in shafts, for parallel keys: width and depth by the shaft's diameter where the text does not say, with the
 * standard's own fits. Milled with round ends, or cut with a disc whose round it runs out in. One in a hub is broached.
 */
import { fitLimits } from '../../tables/fits';
import { type KeyStandard, keywayFor, type ShaftKeyway } from '../../tables/keyways';
import { writeLength } from '../../text/format';
import { at, type MapNode, type Span, scalarAt } from '../../text/tree';
import {
  type Axis,
  type Depth,
  FACE_AXIS,
  FACE_PLANE,
  type FeatureBase,
  type Length,
  type PathCorner,
  type Tolerance,
} from '../base';
import { baseOf, type Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';
import { depthOf } from '../resolve/places';
import { axis, length, map, name, optional, words } from '../schema/common';
import { depth, pattern } from '../schema/places';
import { CENTRE, kind, at as place, what, where } from './fields';
import type { FeatureKindHome } from './kind';

/** A channel like a slot: what is asked of one is answered of the other. */
export interface Keyway extends FeatureBase {
  readonly kind: 'keyway';
  /** Centre line, relative to the place: between the centres of round ends, or as long as the floor is level. */
  readonly line: readonly PathCorner[];
  readonly width: Length;
  readonly depth: Depth;
  readonly floorRadius: Length;
  /** Its ends run out as round as a disc of this radius; left out: they are as round as it is wide. */
  readonly runOutMm?: number;
  readonly tee?: undefined;
  readonly dovetail?: undefined;
  readonly counterbore?: undefined;
  readonly countersink?: undefined;
}

const schema = map(
  {
    kind: kind('keyway', 'A keyway for a parallel key, in a shaft: width and depth by the shaft’s diameter.'),
    ...where,
    at: place(CENTRE),
    pattern: optional(pattern),
    along: optional(axis('The part axis it runs along.', { fallback: 'the axis of a round body' })),
    length: length('As long as the key: with round ends over everything, with run-outs the level floor.', {
      example: '25',
    }),
    shaft: optional(
      length('Diameter of the shaft: it gives width and depth.', {
        example: '25',
        fallback: 'the diameter of a round body',
      }),
    ),
    standard: optional(
      words({ iso: 'ISO/R 773, DIN 6885-1, high form', asme: 'ASME B17.1, square keys' }, 'Whose widths and depths.', {
        fallback: 'iso; asme in a document in inches',
      }),
    ),
    fit: optional(
      words(
        { normal: 'N9, the key goes in by hand', close: 'P9, the key is tapped in', free: 'H9, the key slides' },
        'How the key sits, by the width’s class. ASME: its class 1, whichever is written.',
        { fallback: 'normal' },
      ),
    ),
    width: optional(length('Width, instead of the standard’s.', { example: '8 P9' })),
    depth: optional(depth('Depth below the face, which is the crest of a round body, instead of the standard’s.')),
    ends: optional(
      words(
        {
          round: 'round, as wide as the keyway: an end mill',
          'run-out': 'running out in the round of a disc: a keyseat cutter or saw from the side',
          woodruff: 'a segment for a half-round key (not supported)',
        },
        'How it ends.',
        { fallback: 'round' },
      ),
    ),
    cutter: optional(length('Diameter of the disc, for `run-out`.', { example: '50' })),
    in: optional(
      name('feature', 'The bore, for a keyway in one. It is broached, so nothing is milled.', {
        example: 'bore',
      }),
    ),
    ...what,
  },
  'A keyway for a parallel key, in a shaft or a face.',
);

const FITS = { normal: 'N9', close: 'P9', free: 'H9' } as const;

function resolve(work: Evaluation, head: Head, map: MapNode): Keyway | undefined {
  const hub = scalarAt(map, 'in');
  if (hub)
    return work.fail(
      'A keyway in a hub is broached or slotted, not milled. Delete it here, and write it in a `note` of the bore.',
      hub.span,
    );
  const ends = scalarAt(map, 'ends');
  if (ends?.value === 'woodruff')
    return work.fail(
      'A keyway for a half-round key is not read. Write one with `ends: run-out` and its `cutter`, or delete it.',
      ends.span,
    );
  const base = baseOf(work, head, map);
  if (!base) return undefined;
  const own = { width: work.length(map, 'width'), depth: depthOf(work, map, base) };
  const standard = own.width && own.depth ? undefined : standardOf(work, head, map);
  const width = own.width ?? (standard && widthBy(work, standard, map, head.nameSpan));
  const depth = own.depth ?? (standard && depthBy(work, standard, head.nameSpan));
  if (depth?.through) return work.fail('A keyway has a floor. Write its depth, like `depth: 3.5`.', depth.span);
  const overall = work.length(map, 'length');
  const along = alongOf(work, map, base.face, head.nameSpan);
  if (!width || !depth || !overall || !along || work.broken) return undefined;
  const runOutMm = runOutOf(work, map, depth.mm);
  if (work.broken) return undefined;
  const half = (runOutMm === undefined ? overall.mm - width.mm : overall.mm) / 2;
  if (half <= 0)
    return work.fail('With round ends a keyway is longer than it is wide. Make its `length` larger.', overall.span);
  const corner = (d: number): PathCorner => ({
    u: along === FACE_PLANE[base.face][0] ? d : 0,
    v: along === FACE_PLANE[base.face][0] ? 0 : d,
    span: overall.span,
  });
  return {
    ...base,
    kind: 'keyway',
    line: [corner(-half), corner(half)],
    width,
    depth,
    floorRadius: unwritten(0, head.span, 'a keyway’s floor is sharp'),
    ...(runOutMm !== undefined && { runOutMm }),
  };
}

function standardOf(work: Evaluation, head: Head, map: MapNode): ShaftKeyway | undefined {
  const written = scalarAt(map, 'standard')?.value as KeyStandard | undefined;
  const standard = written ?? (work.doc.units === 'in' ? 'asme' : 'iso');
  const shaft = work.length(map, 'shaft');
  if (at(map, 'shaft') && !shaft) return undefined;
  const shaftMm = shaft?.mm ?? work.round()?.mm;
  if (shaftMm === undefined)
    return work.fail(
      'A keyway needs the diameter of its `shaft`, or its own `width` and `depth`. Write it like `shaft: 20`.',
      head.nameSpan,
    );
  const found = keywayFor(shaftMm, standard);
  if (found) return found;
  const size = writeLength(shaftMm, work.doc.units);
  const span = shaft?.span ?? head.nameSpan;
  return work.fail(`The tables have no keyway for a shaft of ${size}. Write \`width\` and \`depth\`.`, span);
}

function widthBy(work: Evaluation, { widthMm, widthUpperMm, source }: ShaftKeyway, map: MapNode, whole: Span): Length {
  const node = scalarAt(map, 'fit');
  const span = node?.span ?? whole;
  const word = FITS[(node?.value ?? 'normal') as keyof typeof FITS];
  const text = writeLength(widthMm, work.doc.units);
  if (widthUpperMm !== undefined) {
    const limits = { text: `+${writeLength(widthUpperMm, work.doc.units)}/0`, upperMm: widthUpperMm, lowerMm: 0, span };
    return { mm: widthMm, text, span, from: source, tolerance: limits };
  }
  const [letter, grade] = [word.slice(0, -1), Number(word.slice(-1))];
  const limits = fitLimits(widthMm, letter, grade);
  const tolerance: Tolerance = { text: word, fit: { letter, grade }, span, ...limits };
  return { mm: widthMm, text, span, from: `${source}, ${word}`, tolerance };
}

function depthBy(work: Evaluation, { depthMm, depthUpperMm, source }: ShaftKeyway, span: Span): Depth {
  const text = `+${writeLength(depthUpperMm, work.doc.units)}/0`;
  const tolerance: Tolerance = { text, upperMm: depthUpperMm, lowerMm: 0, span };
  const length = { mm: depthMm, text: writeLength(depthMm, work.doc.units), span, from: source, tolerance };
  return { through: false, mm: depthMm, length, span };
}

function alongOf(work: Evaluation, map: MapNode, face: FeatureBase['face'], whole: Span): Axis | undefined {
  const node = scalarAt(map, 'along');
  const along = (node?.value as Axis | undefined) ?? work.round()?.axis;
  if (along === undefined)
    return work.fail('On a body that is not round a keyway needs `along`. Write `x`, `y` or `z`.', whole);
  if (along !== FACE_AXIS[face].axis) return along;
  return work.fail(
    `On ${face} a keyway cannot run along its depth. Write \`along: ${FACE_PLANE[face].join('` or `along: ')}\`.`,
    node?.span ?? whole,
  );
}

function runOutOf(work: Evaluation, map: MapNode, depthMm: number): number | undefined {
  const cutter = work.length(map, 'cutter');
  const runs = scalarAt(map, 'ends')?.value === 'run-out';
  if (!runs) {
    if (cutter)
      work.remark('`cutter` is the disc of `ends: run-out`; without it it means nothing. Delete it.', cutter.span);
    return undefined;
  }
  if (!cutter)
    return work.fail(
      '`ends: run-out` needs `cutter`: the diameter of the disc. Write it like `cutter: 40`.',
      scalarAt(map, 'ends')!.span,
    );
  if (cutter.mm / 2 <= depthMm)
    return work.fail('The disc’s radius is not more than the keyway’s depth. Make `cutter` larger.', cutter.span);
  return cutter.mm / 2;
}

export const keyway: FeatureKindHome<Keyway, 'channel'> = {
  form: 'channel',
  schema,
  resolve,
  plural: 'keyways',
  snippets: [
    [
      'keyway',
      'for a parallel key, by the shaft’s diameter',
      ['kind: keyway', 'face: ${2:top}', 'at: { x: ${3:center}, y: ${4:center} }', 'length: ${5:20}'],
    ],
  ],
  stands: ({ depth, runOutMm }) => ({ floor: depth, rim: runOutMm === undefined }),
  sizes: ({ width, depth }) => [
    ['width', width, 'inside', 'mill'],
    ['depth', depth.length, 'neither', 'mill'],
  ],
  across: ({ width }) => [width],
  shapes: () => [],
  paths: () => [],
  needs: () => [],
};
