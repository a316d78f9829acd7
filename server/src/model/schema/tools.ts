/**
 * The tools of a shop as written: one strict map for each kind, chosen by `kind` before anything else is looked at.
 * Words are ISO 13399's or a machinist's.
 */
import { z } from 'zod';
import { angle, length, map, name, number, text, words } from './common';

export const TOOL_MATERIALS = {
  hss: 'high-speed steel',
  cobalt: 'high-speed steel with cobalt',
  carbide: 'solid carbide, or carbide inserts',
} as const;

export const TAP_CHAMFERS = {
  taper: '7 to 10 threads ground away: starts easily, never reaches the bottom',
  plug: '3 to 5 threads ground away: the everyday tap',
  bottoming: '1 to 2 threads ground away: for blind holes, after a plug tap',
} as const;

const kind = <K extends string>(word: K, description: string) =>
  z.literal(word).meta({ description, values: { [word]: description } });
const diameter = (description: string, example: string) => length(description, { example });
const flutes = (fallback: string) => number('Number of cutting edges.', { example: fallback, fallback }).optional();
const fluteLength = (fallback: string) =>
  length('Length of the cutting edges, from the tip.', { example: '16', fallback }).optional();
const reach = (fallback: string) =>
  length('From the tip to where something wider than the cut begins: shank, neck or collet.', {
    example: '18',
    fallback,
  }).optional();
const shank = (fallback: string) => length('Diameter of the shank.', { example: '6', fallback }).optional();
const neck = length('Diameter of the neck above the cutting head.', { example: '8' });

const gripped = (fallback: 'hss' | 'carbide') => ({
  material: words(TOOL_MATERIALS, 'What its edges are made of.', { fallback }).optional(),
  holder: name('holder', 'The holder it sits in.', {
    example: 'er20-short',
    fallback: 'none: access to it is not judged',
  }).optional(),
  stickout: length('How far it stands out of the holder.', {
    example: '24',
    fallback: 'what the cut needs',
  }).optional(),
  'largest-speed': number('Turns a minute that it bears, as its maker marks it.', {
    example: '1000',
    fallback: 'what the spindle turns; 1000 for a boring head (common practice, no source)',
  }).optional(),
  note: text('A remark: where it lies, what it is kept for.').optional(),
});

export const TOOLS = {
  'end-mill': map(
    {
      kind: kind(
        'end-mill',
        'Cuts on its side and its end: square, bull-nose (a corner radius), or ball (radius = half the diameter).',
      ),
      diameter: diameter('Cutting diameter.', '6'),
      flutes: flutes('3'),
      'flute-length': fluteLength('the standard series of ISO 1641-1'),
      reach: reach('the flute length'),
      shank: shank('the next usual shank, not under 6 mm'),
      'corner-radius': length('Radius at the corner: 0 square, half the diameter ball.', {
        example: '0.5',
        fallback: '0',
      }).optional(),
      helix: angle('Helix of its flutes: a steeper one cuts more softly and lifts more.', {
        example: '35°',
        fallback: 'what is usual for what it is made of: each judgement takes the least favourable',
      }).optional(),
      'centre-cutting': words(
        {
          yes: 'its end edges meet: it can go straight down',
          no: 'it needs a helix, a ramp or a drilled hole to get in',
        },
        'Whether it cuts over its centre.',
        { fallback: 'yes up to 3 flutes, and for 4 of carbide' },
      ).optional(),
      ...gripped('carbide'),
    },
    'An end mill: square, bull-nose or ball.',
    { example: '{ kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 18, shank: 6, material: carbide }' },
  ),
  'face-mill': map(
    {
      kind: kind('face-mill', 'Wide, with inserts: for faces and long shoulders.'),
      diameter: diameter('Over the cutting edges.', '50'),
      flutes: flutes('4'),
      'flute-length': fluteLength('a tenth of the diameter'),
      reach: reach('half the diameter'),
      shank: shank('22 mm'),
      'corner-radius': length('Radius it leaves between floor and shoulder.', {
        example: '0.8',
        fallback: '0',
      }).optional(),
      ...gripped('carbide'),
    },
    'A face mill.',
  ),
  'corner-rounder': map(
    {
      kind: kind('corner-rounder', 'A form cutter that rounds an outside edge in one pass.'),
      diameter: diameter('Over everything.', '10'),
      'corner-radius': length('The radius it makes.', { example: '2' }),
      flutes: flutes('4'),
      reach: reach('the radius it makes'),
      shank: shank('the next usual shank'),
      ...gripped('carbide'),
    },
    'A corner rounder.',
  ),
  engraver: map(
    {
      kind: kind('engraver', 'A pointed or fine-tipped cutter for letters.'),
      diameter: diameter('Width of the tip: the line it cuts.', '0.3'),
      angle: angle('Included angle of the point.', { example: '60', fallback: '60' }).optional(),
      flutes: flutes('1'),
      'flute-length': fluteLength('2 mm'),
      reach: reach('the flute length'),
      shank: shank('the next usual shank, not under 6 mm'),
      ...gripped('carbide'),
    },
    'An engraving cutter.',
  ),
  'tee-cutter': map(
    {
      kind: kind('tee-cutter', 'A disc on a neck: T-slots, keyways, grooves inside a bore.'),
      diameter: diameter('Over the disc.', '14'),
      neck,
      thickness: length('Thickness of the disc.', { example: '6' }),
      reach: length('From the face of the disc to where something wider than the neck begins.', { example: '18' }),
      flutes: flutes('6'),
      shank: shank('the next usual shank'),
      ...gripped('hss'),
    },
    'A T-slot or grooving cutter.',
  ),
  'dovetail-cutter': map(
    {
      kind: kind('dovetail-cutter', 'Wider at its face than above: dovetails.'),
      diameter: diameter('At its face, the widest.', '16'),
      neck,
      thickness: length('Height of the cutting cone.', { example: '6' }),
      angle: angle('Between its side and its face.', { example: '60', fallback: '60' }).optional(),
      reach: length('From its face to where something wider than the neck begins.', { example: '18' }),
      flutes: flutes('6'),
      shank: shank('the next usual shank'),
      ...gripped('hss'),
    },
    'A dovetail cutter.',
  ),
  'ball-undercutter': map(
    {
      kind: kind('ball-undercutter', 'A ball on a thin neck: reaches under an edge.'),
      diameter: diameter('Of the ball.', '6'),
      neck,
      reach: length('From the tip to where something wider than the neck begins.', { example: '20' }),
      flutes: flutes('2'),
      shank: shank('the next usual shank'),
      ...gripped('carbide'),
    },
    'A ball undercutter.',
  ),
  drill: map(
    {
      kind: kind('drill', 'A twist drill.'),
      diameter: diameter('Diameter.', '4.2'),
      'flute-length': fluteLength('jobber length, DIN 338'),
      point: angle('Included angle of the point.', { example: '118', fallback: '118' }).optional(),
      ...gripped('hss'),
    },
    'A twist drill.',
    { example: '{ kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss }' },
  ),
  'spot-drill': map(
    {
      kind: kind('spot-drill', 'Short and stiff: marks the place for the drill, breaks the edge of small holes.'),
      diameter: diameter('Diameter.', '8'),
      'flute-length': fluteLength('twice the diameter'),
      point: angle('Included angle of the point.', { example: '90', fallback: '90' }).optional(),
      ...gripped('hss'),
    },
    'A spotting drill.',
  ),
  'flat-drill': map(
    {
      kind: kind('flat-drill', 'A drill with a flat end: for flat-bottomed holes.'),
      diameter: diameter('Diameter.', '6'),
      'flute-length': fluteLength('three times the diameter'),
      ...gripped('carbide'),
    },
    'A flat-bottom drill.',
  ),
  reamer: map(
    {
      kind: kind('reamer', 'Sizes a drilled hole to a fit.'),
      diameter: diameter('Nominal diameter.', '6'),
      fit: text('The tolerance class it makes.', { example: 'H7', fallback: 'H7' }).optional(),
      reach: reach('four times the diameter'),
      ...gripped('hss'),
    },
    'A reamer.',
  ),
  'boring-head': map(
    {
      kind: kind('boring-head', 'One adjustable edge: any diameter in its range, to a close tolerance.'),
      diameter: diameter('The smallest bore it makes.', '10'),
      largest: length('The largest bore it makes.', { example: '50' }),
      reach: length('How deep its bar reaches.', { example: '50' }),
      ...gripped('carbide'),
    },
    'A boring head with its bars.',
  ),
  tap: map(
    {
      kind: kind('tap', 'Cuts a thread in a drilled hole, or forms it.'),
      thread: name('thread', 'The thread it cuts.', { example: 'M5' }),
      chamfer: words(TAP_CHAMFERS, 'How its first threads are ground away.', { fallback: 'plug' }).optional(),
      forming: words(
        {
          yes: 'presses the thread in, without chips: a form tap, for a hole of about D − 0.44 P',
          no: 'cuts it, in a hole of about D − P',
        },
        'Whether it forms its thread.',
        { fallback: 'no' },
      ).optional(),
      reach: reach('four times the diameter'),
      ...gripped('hss'),
    },
    'A tap.',
    { example: '{ kind: tap, thread: M5, chamfer: plug, reach: 22 }' },
  ),
  'chamfer-mill': map(
    {
      kind: kind('chamfer-mill', 'A pointed mill for breaking edges along any outline.'),
      diameter: diameter('Largest diameter of the cone.', '8'),
      angle: angle('Included angle.', { example: '90', fallback: '90' }).optional(),
      tip: length('Diameter of its flat tip.', { example: '1', fallback: '0' }).optional(),
      reach: reach('the diameter'),
      ...gripped('carbide'),
    },
    'A chamfer mill.',
  ),
  countersink: map(
    {
      kind: kind('countersink', 'A cone for the rims of holes: flat heads, deburring.'),
      diameter: diameter('Largest diameter of the cone.', '16.5'),
      angle: angle('Included angle: 90 for metric flat heads, 82 for inch ones.', {
        example: '90',
        fallback: '90',
      }).optional(),
      tip: length('Smallest hole it starts in.', { example: '3', fallback: '0' }).optional(),
      reach: reach('the diameter'),
      ...gripped('hss'),
    },
    'A countersink.',
  ),
  'counterbore-cutter': map(
    {
      kind: kind('counterbore-cutter', 'Flat-ended, with a pilot: seats for cap heads.'),
      diameter: diameter('Cutting diameter.', '10'),
      pilot: length('Diameter of its pilot.', { example: '5.5', fallback: 'none' }).optional(),
      reach: reach('twice the diameter'),
      ...gripped('hss'),
    },
    'A counterbore cutter.',
  ),
} as const;

export type ToolKind = keyof typeof TOOLS;
export const TOOL_KINDS = Object.keys(TOOLS) as readonly ToolKind[];

const [first, ...rest] = Object.values(TOOLS);
export const tool = z
  .discriminatedUnion('kind', [first!, ...rest])
  .meta({ description: 'One tool: its `kind` decides which fields it has.' });
