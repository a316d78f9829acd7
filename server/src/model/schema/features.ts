/**
 * The features as written: one strict map for each kind, chosen by `kind` before anything else is looked at, so that an
 * error names the wrong field of a hole and not ten other things the hole is not.
 */
import { z } from 'zod';
import { angle, axis, FACE_WORDS, face, length, list, map, name, named, number, text, words } from './common';
import { depth, path, pattern, position, size, tilt } from './places';

const what = {
  note: text('A remark for whoever makes it; goes on the setup sheet.').optional(),
  finish: number('Surface finish wanted, Ra in µm.', { example: '1.6' }).optional(),
};
const where = {
  face: face('The face it is cut from. Left out where `from` names a feature: then that feature’s face.').optional(),
  from: name('feature', 'Starts on the floor of this feature; depth counts from there.', {
    example: 'bearing-seat',
    fallback: 'the face itself',
  }).optional(),
  tilt: tilt.optional(),
};
const kind = <K extends string>(word: K, description: string) =>
  z.literal(word).meta({ description, values: { [word]: description } });
const at = (description: string) => position(description).optional();
const CENTRE = 'Where its centre is, in part axes or by distance from faces.';
const SHIFT = 'Shifts everything drawn for this feature; left out, the corners stand where they are given.';
const floorRadius = length('Fillet between wall and floor: needs a bull-nose or ball cutter.', {
  example: '1',
  fallback: '0, a sharp floor',
}).optional();
const cornerRadius = length('Radius of the four corners; a round cutter leaves one.', {
  example: '3.5',
  fallback: '0, square corners',
}).optional();
const rotate = angle('Turned about its own centre, counter-clockwise as drawn in the two part axes.', {
  example: '30',
  fallback: '0',
}).optional();
const circle = (what: string) => length(`Diameter of ${what}.`, { example: '20' }).optional();

export const HOLE_BOTTOMS = {
  cone: 'as the drill leaves it: a cone below the stated depth',
  flat: 'flat: bored, milled, or drilled with a flat drill',
} as const;

export const hole = map(
  {
    kind: kind('hole', 'A round hole: drilled, reamed, bored or tapped.'),
    ...where,
    at: at(CENTRE),
    pattern: pattern.optional(),
    diameter: length('Diameter, with its tolerance or fit.', {
      example: '22 H7',
      fallback:
        'the tap drill of `thread`, or the clearance hole of the screw that `clearance`, `counterbore` or `countersink` names',
    }).optional(),
    clearance: name(
      'clearance',
      'The screw that passes through, instead of a diameter: ISO 273 or ASME B18.2.8; with `close` or `loose` where the normal fit is not meant.',
      { example: 'M5 close' },
    ).optional(),
    thread: name('thread', 'Thread designation: metric coarse or fine, UNC or UNF.', { example: 'M5' }).optional(),
    depth: depth('Depth of the full diameter, or `through`. A drill’s cone is below it.'),
    bottom: words(HOLE_BOTTOMS, 'How a blind hole ends.', { fallback: 'cone' }).optional(),
    point: angle('Included angle of the drill’s point.', { example: '118', fallback: '118' }).optional(),
    'thread-depth': length('Depth of full thread.', {
      example: '10',
      fallback:
        'all of a through hole; in a blind one, as deep as a plug tap can go (four pitches short of the bottom)',
    }).optional(),
    counterbore: z
      .union([
        map(
          {
            diameter: length('Diameter of the counterbore.', { example: '10' }),
            depth: length('Depth below where the hole starts.', { example: '5.5' }),
          },
          'A counterbore by its own sizes.',
        ),
        name('cap-screw', 'The screw whose cap head is to sit in it: `M5`.', { example: 'M5' }),
      ])
      .meta({ description: 'A wider, flat-bottomed start for a screw head: its sizes, or the screw.', example: 'M5' })
      .optional(),
    countersink: z
      .union([
        map(
          {
            diameter: length('Diameter at the surface.', { example: '10' }),
            angle: angle('Included angle.', { example: '90', fallback: '90' }).optional(),
          },
          'A countersink by its own sizes.',
        ),
        name('flat-screw', 'The screw whose flat head is to sit in it: `M5`.', { example: 'M5' }),
      ])
      .meta({ description: 'A cone at the start for a flat head: its sizes, or the screw.', example: 'M5' })
      .optional(),
    ...what,
  },
  'A round hole: drilled, reamed, bored or tapped; with counterbore or countersink.',
  { some: [['diameter', 'thread', 'clearance', 'counterbore', 'countersink']] },
);

const outline = { size: size.optional(), 'corner-radius': cornerRadius, rotate };

export const island = map(
  {
    ...outline,
    diameter: circle('a round island'),
    path: path('Corners of the island, closed.').optional(),
    at: at('Where the island’s centre is (or by how much its path is shifted).'),
    height: length('Height above the pocket’s floor.', {
      example: '4',
      fallback: 'up to where the pocket starts',
    }).optional(),
  },
  'Material that stays standing in the pocket.',
  { one: [['size', 'diameter', 'path']] },
);

export const RELIEFS = {
  corner:
    'a round cut through each square inside corner of the outline, its centre on the corner’s bisector, as deep as the pocket, so that a square mate can seat; a corner with a radius of its own keeps it',
} as const;

export const pocket = map(
  {
    kind: kind('pocket', 'A milled recess: rectangular, round or along a path; a cutout when it goes through.'),
    ...where,
    at: at(`${CENTRE} A path is shifted by it.`),
    pattern: pattern.optional(),
    ...outline,
    diameter: circle('a round pocket'),
    path: path('Corners of the outline, closed.').optional(),
    depth: depth('How deep, or `through`.'),
    'floor-radius': floorRadius,
    relief: words(RELIEFS, 'What is done where a square mate must seat in a corner.', {
      fallback: 'corners stay as they are drawn',
    }).optional(),
    'relief-diameter': length(
      'Diameter of the round cuts of `relief`: as small as a cutter reaches the floor with, as each leaves a gap beside the mate.',
      {
        example: '4',
        fallback:
          'a quarter of the outline’s smaller side, at most 6 mm; with a `floor-radius` at least twice that, at most half the smaller side',
      },
    ).optional(),
    islands: named(island, 'Material that stays standing in the pocket, by name.').optional(),
    ...what,
  },
  'A milled recess; open where it crosses the body’s edge.',
  { one: [['size', 'diameter', 'path']] },
);

export const slot = map(
  {
    kind: kind('slot', 'A groove as wide as its cutter or wider: straight or along a path.'),
    ...where,
    at: at(SHIFT),
    pattern: pattern.optional(),
    ends: list(position('One end of the centre line.'), 'The two ends of the centre line.', {
      example: '[{ x: 10, y: 20 }, { x: 40, y: 20 }]',
    }).optional(),
    path: path('Corners of the centre line, open.').optional(),
    width: length('Width across the slot.', { example: '8' }),
    depth: depth('How deep, or `through`.'),
    'floor-radius': floorRadius,
    tee: map(
      {
        width: length('Width of the wide part.', { example: '14' }),
        height: length('Height of the wide part, up from the floor.', { example: '6' }),
      },
      'A wider part at the floor: a T-slot.',
    ).optional(),
    dovetail: map(
      { angle: angle('Between the flank and the floor.', { example: '60' }) },
      'Flanks that lean outward toward the floor, below the neck.',
    ).optional(),
    ...what,
  },
  'A slot: round ends inside the body, open where it runs out of it.',
  { one: [['ends', 'path']] },
);

export const step = map(
  {
    kind: kind('step', 'A shoulder along one edge of a face; or only the corner where two meet.'),
    face: where.face,
    from: where.from,
    tilt: where.tilt,
    along: z
      .union([face('The side it runs along.'), list(face('A side it runs along.'), 'Two sides that meet in a corner.')])
      .meta({
        description:
          'The side of the body it runs along. Two sides: only the corner where they meet. A shoulder along both is two steps.',
        names: 'face',
        example: 'front',
      }),
    width: z
      .union([
        length('Width, in from the side.', { example: '8' }),
        list(length('Width, in from one side.'), 'One width for each of `along`.'),
      ])
      .meta({
        description: 'How far in from the side; for two sides one width, or one for each.',
        unit: 'length',
        example: '8',
      }),
    depth: depth('How deep below the face, or `through`.'),
    'floor-radius': floorRadius,
    ...what,
  },
  'A shoulder along one edge of a face, or the corner where two meet.',
);

export const contour = map(
  {
    kind: kind('contour', 'The outside cut to an outline: what is inside stays.'),
    ...where,
    at: at(`${SHIFT} The centre, where the outline has a \`size\` or \`diameter\`.`),
    path: path('What stays: corners, closed.').optional(),
    paths: list(path('One boss.'), 'Several outlines that stay: several bosses.').optional(),
    ...outline,
    diameter: circle('a round boss'),
    depth: depth('How deep everything outside goes, or `through`.'),
    'floor-radius': floorRadius,
    ...what,
  },
  'Everything outside the outline goes, down to the depth: an outside profile, or bosses.',
  { one: [['path', 'paths', 'size', 'diameter']] },
);

const rim = map(
  { rim: name('feature', 'The feature whose upper edge is broken.', { example: 'bearing-seat' }) },
  'The rim of a feature.',
  { example: '{ rim: bearing-seat }' },
);
const aFace = face('A face: all its outer edges.');
const edge = z
  .union([aFace, rim, list(face('A face.'), 'Two faces that meet: the edge between them.')])
  .meta({ description: 'A face, a pair of faces that meet, or a rim.', names: 'face', example: 'top' });
const edges = z
  .union([
    aFace,
    rim,
    list(edge, 'Two faces that meet: the edge between them. Otherwise: several choices, each a face, a pair or a rim.'),
  ])
  .meta({
    description:
      'Which edges: a face (all its outer edges), a pair of faces that meet (the edge between them), `{ rim: FEATURE }`, or a list of these. Two opposite faces are each a face.',
    names: 'face',
    example: '[top, left]',
  });

export const chamfer = map(
  {
    kind: kind('chamfer', 'Outside edges broken at an angle.'),
    face: face('The face the angle and size are measured on, where an edge has two.', {
      fallback: 'the first face named',
    }).optional(),
    edges,
    size: length('Width of the chamfer, measured on the face.', { example: '0.5' }),
    angle: angle('Between the chamfer and the face.', { example: '45', fallback: '45' }).optional(),
    ...what,
  },
  'Outside edges broken at an angle.',
);

export const round = map(
  {
    kind: kind('round', 'Outside edges rounded over.'),
    face: face('The face it is cut from, where an edge has two.', { fallback: 'the first face named' }).optional(),
    edges,
    radius: length('Radius of the rounding.', { example: '2' }),
    ...what,
  },
  'Outside edges rounded over: needs a form cutter, or many passes.',
);

export const groove = map(
  {
    kind: kind('groove', 'A ring: on a face, or inside a hole.'),
    ...where,
    at: at('Centre of a ring on a face.'),
    pattern: pattern.optional(),
    in: name('feature', 'The hole it is cut in; left out for a ring on a face.', {
      example: 'bearing-seat',
    }).optional(),
    diameter: length('On a face: the inner diameter. In a hole: the diameter it reaches.', { example: '24' }),
    width: length('On a face: outward from the diameter. In a hole: along its axis.', { example: '1.3' }),
    depth: depth('On a face only: how deep.').optional(),
    below: length('In a hole only: from the face down to the groove.', { example: '5' }).optional(),
    ...what,
  },
  'A ring on a face (seal groove), or inside a hole (snap-ring groove).',
);

export const engraving = map(
  {
    kind: kind('engraving', 'Letters cut with a small cutter.'),
    ...where,
    at: at('Where the middle of the text is.'),
    pattern: pattern.optional(),
    text: text('What it says.', { example: 'YOKE 2' }),
    height: length('Height of a capital letter.', { example: '4' }),
    depth: depth('How deep; 0.2 to 0.4 mm is usual.', { example: '0.3' }),
    stroke: length('Width of the line: the cutter’s tip.', {
      example: '0.5',
      fallback: 'an eighth of the height',
    }).optional(),
    ...what,
  },
  'Text cut into a face.',
);

export const incline = map(
  {
    kind: kind('incline', 'A planar cut that leans to the body.'),
    face: where.face,
    from: where.from,
    along: face('The side where it is deepest.', { example: 'front' }),
    angle: angle('Between the cut and the face.', { example: '15' }),
    width: length('How far it reaches along the face, in from the side.', { example: '12' }).optional(),
    depth: length('How far it goes down the side.', { example: '4' }).optional(),
    ...what,
  },
  'A plane that leans: given by its angle and its width or depth.',
  { one: [['width', 'depth']] },
);

export const FEATURES = { hole, pocket, slot, step, contour, chamfer, round, groove, engraving, incline } as const;
export const KINDS = Object.keys(FEATURES) as (keyof typeof FEATURES)[];

export const feature = z
  .discriminatedUnion('kind', [hole, pocket, slot, step, contour, chamfer, round, groove, engraving, incline])
  .meta({ description: 'One thing that is cut: its `kind` decides which fields it has.' });

export { axis, FACE_WORDS };
