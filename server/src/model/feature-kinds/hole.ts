/** Round holes: drilled, reamed, bored or tapped; with counterbore or countersink. */
import * as z from 'zod/mini';
import type { Thread } from '../../tables/thread-form';
import { findThread, nearbyThreads, otherFamily } from '../../tables/thread-names';
import { writeLength } from '../../text/format';
import { at, type MapNode, type Span, scalarAt } from '../../text/tree';
import type { Angle, Depth, FeatureBase, Length, Named } from '../base';
import { baseOf, type Head } from '../resolve/base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';
import { depthOf } from '../resolve/places';
import { code, listed, quote, replace } from '../resolve/problem';
import { angle, length, map, name, noted, optional, words } from '../schema/common';
import { depth, pattern } from '../schema/places';
import { CENTRE, kind, at as place, what, where } from './fields';
import {
  type Clearance,
  type Counterbore,
  type Countersink,
  clearanceIn,
  counterboreOf,
  countersinkOf,
} from './hole-screws';
import { type Seat, seatIn } from './hole-seats';
import type { FeatureKindHome, SizeOf } from './kind';

export interface Hole extends FeatureBase {
  readonly kind: 'hole';
  /** The drilled (or bored) diameter: as given, or the thread's tap drill, or the clearance of a screw. */
  readonly diameter: Length;
  /** Whether `diameter` is in the text. */
  readonly diameterGiven: boolean;
  readonly thread?: { readonly designation: string; readonly span: Span; readonly spec?: Thread };
  /** The screw that passes through, where the diameter follows from it: named itself, or by its counterbore or countersink. */
  readonly clearance?: Clearance;
  /** What sits in it, where the diameter follows from that. */
  readonly seat?: Seat;
  readonly depth: Depth;
  readonly bottom: 'cone' | 'flat';
  readonly bottomSpan?: Span;
  readonly point: Angle;
  readonly threadDepth?: Length;
  readonly counterbore?: Counterbore;
  readonly countersink?: Countersink;
  /** Beside the mill: drilled on a press of the shop, or tapped and reamed at the bench. */
  readonly madeOn?: Named;
}

const HOLE_BOTTOMS = {
  cone: 'as the drill leaves it: a cone below the stated depth',
  flat: 'flat: bored, milled, or drilled with a flat drill',
} as const;

const schema = map(
  {
    kind: kind('hole', 'A round hole: drilled, reamed, bored or tapped.'),
    ...where,
    at: place(CENTRE),
    pattern: optional(pattern),
    diameter: optional(
      length('Diameter, with its tolerance or fit.', {
        example: '22 H7',
        fallback: 'by `thread`, `pin`, `bearing` or `clearance`, or by the screw that a recess names',
      }),
    ),
    clearance: optional(
      name(
        'clearance',
        'The screw that passes through, instead of a diameter (ISO 273 or ASME B18.2.8). Add `close` or `loose` for another fit than the normal one.',
        { example: 'M5 close' },
      ),
    ),
    pin: optional(
      name(
        'pin',
        'The parallel pin that sits in it, instead of a diameter. It is pressed into H7. Add `slip` for one that slips in (F7).',
        { example: 'ISO 8734 5x20' },
      ),
    ),
    bearing: optional(
      name(
        'bearing',
        'The ball bearing that sits in it, instead of a diameter. It is pushed into H7. Add `press` for one that is pressed in (N7).',
        { example: '608' },
      ),
    ),
    thread: optional(
      name(
        'thread',
        'Thread designation: metric (ISO 261), UNC, UNF, UN (ASME B1.1), pipe (`G1/4`, `Rp1/8`, `Rc1/8`, `1/8-27 NPT`), trapezoidal (`Tr20x4`). Write `EG M5` for a wire thread insert, and `-LH` for left-hand.',
        { example: 'M5' },
      ),
    ),
    depth: depth('Depth of the full diameter, or `through`. A drill’s cone is below it.'),
    bottom: optional(words(HOLE_BOTTOMS, 'How a blind hole ends.', { fallback: 'cone' })),
    point: optional(angle('Included angle of the drill’s point.', { example: '118', fallback: '118' })),
    'thread-depth': optional(
      length('Depth of full thread.', {
        example: '10',
        fallback: 'through hole: its whole depth; blind hole: its depth minus four pitches, for a plug tap',
      }),
    ),
    counterbore: optional(
      noted(
        z.union([
          map(
            {
              diameter: length('Diameter of the counterbore.', { example: '10' }),
              depth: length('Depth below where the hole starts.', { example: '5.5' }),
            },
            'A counterbore by its own sizes.',
          ),
          name('cap-screw', 'The screw whose cap head is to sit in it: `M5`.', { example: 'M5' }),
        ]),
        { description: 'A wider, flat-bottomed start for a screw head: its sizes, or the screw.', example: 'M5' },
      ),
    ),
    countersink: optional(
      noted(
        z.union([
          map(
            {
              diameter: length('Diameter at the surface.', { example: '10' }),
              angle: optional(angle('Included angle.', { example: '90', fallback: '90' })),
            },
            'A countersink by its own sizes.',
          ),
          name('flat-screw', 'The screw whose flat head is to sit in it: `M5`.', { example: 'M5' }),
        ]),
        { description: 'A cone at the start for a flat head: its sizes, or the screw.', example: 'M5' },
      ),
    ),
    'made-on': optional(
      name(
        'drill-press',
        'Where it is made, instead of on the mill. A drill press of the shop: all of it there, marked out and punched, after the set-ups. `bench`: drilled in a set-up, then tapped or reamed by hand.',
        { example: 'pillar-drill', fallback: 'on the mill' },
      ),
    ),
    ...what,
  },
  'A round hole: drilled, reamed, bored or tapped; with counterbore or countersink.',
  { some: [['diameter', 'thread', 'clearance', 'pin', 'bearing', 'counterbore', 'countersink']] },
);

/** A plug tap's chamfer: so many threads at its tip are not full. Common practice, no source. */
const PLUG_CHAMFER_PITCHES = 4;
const POINT_DEG = 118;

function resolve(work: Evaluation, head: Head, map: MapNode): Hole | undefined {
  const base = baseOf(work, head, map);
  const thread = threadOf(work, map);
  const given = at(map, 'diameter') !== undefined;
  const seat = given || thread ? undefined : seatIn(work, map);
  const clearance = given || thread || seat ? undefined : clearanceIn(work, map);
  const diameter = given ? work.length(map, 'diameter') : (tapDrill(work, thread) ?? seat?.hole ?? clearance?.hole);
  judgeSizes(work, map, head);
  const point: Angle | undefined = at(map, 'point')
    ? work.angle(map, 'point', 0, 180)
    : { deg: POINT_DEG, text: String(POINT_DEG), span: head.span, from: 'the usual drill point' };
  const depth = depthOf(work, map, base);
  const written = work.length(map, 'thread-depth');
  if (written && !thread)
    work.remark('`thread-depth` means nothing without a `thread`. Write `thread: M5`, or delete it.', written.span);
  const counterbore = counterboreOf(work, map, diameter);
  const countersink = countersinkOf(work, map, head, diameter);
  if (!base || !diameter || !point || !depth || work.broken) return undefined;
  const bottom = scalarAt(map, 'bottom');
  const place = scalarAt(map, 'made-on');
  const madeOn = place && { name: textOf(place).trim(), span: place.span };
  const threadDepth = thread && (written ?? depthOfThread(thread.spec, depth, head));
  return {
    ...base,
    kind: 'hole',
    diameter,
    diameterGiven: given,
    ...(thread && { thread }),
    ...(clearance && { clearance: clearance.clearance }),
    ...(seat && { seat: seat.seat }),
    depth,
    bottom: bottom?.value === 'flat' ? 'flat' : 'cone',
    ...(bottom && { bottomSpan: bottom.span }),
    point,
    ...(threadDepth && { threadDepth }),
    ...(counterbore && { counterbore }),
    ...(countersink && { countersink }),
    ...(madeOn && { madeOn }),
  };
}

/** A hole's width is said once: by its diameter, its thread, or the screw it clears. */
function judgeSizes(work: Evaluation, map: MapNode, head: Head): void {
  const said = (['diameter', 'thread', 'pin', 'bearing', 'clearance'] as const).filter((key) => at(map, key));
  const clearance = scalarAt(map, 'clearance');
  for (const key of ['pin', 'bearing'] as const) {
    const seat = said[0] === key ? undefined : scalarAt(map, key);
    if (!seat) continue;
    const message = `\`${key}\` beside \`${said[0]}\` counts for nothing: both give the hole’s diameter. Delete one of them.`;
    work.remark(message, seat.span);
  }
  if (clearance && said.length > 1) {
    const other = said[0]!;
    const why = other === 'thread' ? 'a hole is tapped, or it lets the screw through' : 'both give the hole’s diameter';
    work.remark(`\`clearance\` beside \`${other}\` counts for nothing: ${why}. Delete one of them.`, clearance.span);
  }
  if (said.length > 0 || scalarAt(map, 'counterbore') || scalarAt(map, 'countersink')) return;
  const recess = at(map, 'counterbore') ?? at(map, 'countersink');
  work.fail(
    'A hole needs `diameter`, `thread`, `clearance`, `pin` or `bearing`, like `diameter: 5.5`. A counterbore or countersink named by its screw (`counterbore: M5`) gives it too.',
    recess?.span ?? head.span,
  );
}

function threadOf(work: Evaluation, map: MapNode): Hole['thread'] {
  const node = scalarAt(map, 'thread');
  if (!node) return undefined;
  const designation = textOf(node);
  const spec = findThread(designation);
  if (!spec) {
    const near = nearbyThreads(designation).map((t) => t.designation);
    const family = otherFamily(designation);
    const write =
      near.length > 0 ? `${listed(code(near))}, the nearest` : 'it like `M5`, `M8x1`, `10-24 UNC` or `G1/4`';
    const message = family
      ? `${quote(designation)} is ${family}. Write the thread that the hole gets; or its tap drill as \`diameter\`, and the thread in a \`note\`.`
      : `The tables have no thread ${quote(designation)}. Write ${write}.`;
    // Another thread is another hole: it is offered, and never taken for granted.
    const fixes = near.map((n) => ({ ...replace(node.span, n), equal: true as const }));
    work.remark(message, node.span, fixes.length > 0 ? { fixes } : {}, 'thread/unknown');
    if (!at(map, 'diameter')) work.broken = true;
  }
  return { designation, span: node.span, ...(spec && { spec }) };
}

function tapDrill(work: Evaluation, thread: Hole['thread']): Length | undefined {
  if (!thread?.spec) return undefined;
  const { tapDrillMm, tapDrillName } = thread.spec;
  const named = tapDrillName ? ` (${tapDrillName})` : '';
  const from = `tap drill of ${thread.designation}${named}`;
  return { mm: tapDrillMm, text: writeLength(tapDrillMm, work.doc.units), span: thread.span, from };
}

function depthOfThread(spec: Thread | undefined, depth: Depth, head: Head): Length {
  if (depth.through) return unwritten(depth.mm, head.span, 'no `thread-depth` is given: all of the through hole');
  const full = spec ? depth.mm - PLUG_CHAMFER_PITCHES * spec.pitchMm : 0;
  if (full <= 0) return unwritten(depth.mm, head.span, 'no `thread-depth` is given: the depth of the hole');
  const from = `no \`thread-depth\` is given: as deep as a plug tap cuts full thread, ${PLUG_CHAMFER_PITCHES} pitches short of the bottom`;
  return unwritten(full, head.span, from);
}

function* sizes(hole: Hole): Generator<SizeOf> {
  // Of a tapped hole the tap hole's limits are the thread's business.
  yield ['diameter', hole.diameter, 'inside', hole.thread ? 'form' : 'bore', hole.depth.mm];
  yield ['depth', hole.depth.length, 'neither', hole.bottom === 'flat' ? 'mill' : 'form'];
  const { counterbore, countersink } = hole;
  yield ['counterbore', counterbore?.diameter, 'inside', 'bore', counterbore?.depth.mm];
  yield ['counterbore depth', counterbore?.depth, 'neither', 'mill'];
  yield ['countersink', countersink?.diameter, 'neither', 'form'];
}

const AT = 'at: { x: ${3:center}, y: ${4:center} }';

export const hole: FeatureKindHome<Hole, 'hole'> = {
  form: 'hole',
  schema,
  resolve,
  plural: 'holes',
  snippets: [
    [
      'drilled hole',
      'a round hole, drilled or bored',
      ['kind: hole', 'face: ${2:top}', AT, 'diameter: ${5:6}', 'depth: ${6:through}'],
    ],
    [
      'tapped hole',
      'a threaded hole with its tap drill',
      ['kind: hole', 'face: ${2:top}', AT, 'thread: ${5:M5}', 'depth: ${6:14}', 'thread-depth: ${7:10}'],
    ],
    [
      'screw hole',
      'a clearance hole with a counterbore for a screw head, both by the screw',
      ['kind: hole', 'face: ${2:top}', AT, 'clearance: ${5:M5}', 'depth: through', 'counterbore: ${5:M5}'],
    ],
    [
      'pin hole',
      'a reamed hole for a parallel pin, by the pin',
      ['kind: hole', 'face: ${2:top}', AT, 'pin: ${5:5}', 'depth: ${6:12}'],
    ],
  ],
  stands: ({ depth, diameter }) => ({ floor: depth, rim: true, boreMm: diameter.mm }),
  sizes,
  across: ({ diameter }) => [diameter],
  shapes: () => [],
  paths: () => [],
  needs: () => [],
};
