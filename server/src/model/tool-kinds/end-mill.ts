/** End mills: square, bull-nose or ball. */
import { END_MILL_HELIX, END_MILL_HELIX_SOURCE } from '../../tables/cutting.data';
import { endMillFluteMm } from '../../tables/tool-lengths';
import { angle, length, map, optional, words } from '../schema/common';
import { diameter, fluteLength, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolKindHome } from './kind';
import { checkMill, type Mill, readMill } from './mills';
import { PRACTICE, type ToolMaterial, type ToolReader } from './reader';

const schema = map(
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
    'corner-radius': optional(
      length('Radius at the corner: 0 square, half the diameter ball.', {
        example: '0.5',
        fallback: '0',
      }),
    ),
    taper: optional(
      angle('Angle between its sides and its axis, for walls with draft; `diameter` is then that of its tip.', {
        example: '3',
        fallback: 'none: a straight mill',
      }),
    ),
    helix: optional(
      angle('Helix of its flutes: a steeper one cuts more softly and lifts more.', {
        example: '35°',
        fallback: 'what is usual for what it is made of; each check uses the least favourable',
      }),
    ),
    'centre-cutting': optional(
      words(
        {
          yes: 'its end edges meet: it can go straight down',
          no: 'it needs a helix, a ramp or a drilled hole to get in',
        },
        'Whether it cuts over its centre.',
        { fallback: 'yes up to 3 flutes, and for 4 of carbide; no with inserts' },
      ),
    ),
    roughing: optional(
      words(
        {
          yes: 'wavy teeth: it leaves grooves on a wall, and another mill finishes',
          no: 'it roughs and finishes',
        },
        'Whether it is for roughing alone.',
        { fallback: 'no' },
      ),
    ),
    inserts: optional(
      words(
        {
          yes: 'edges that are screwed on; `corner-radius` is theirs',
          no: 'edges ground from the solid',
        },
        'Whether its edges are inserts.',
        { fallback: 'no' },
      ),
    ),
    ramp: optional(
      angle('The steepest ramp or helix that it goes down, by its maker. Over 3° it is still taken down 3°.', {
        example: '2',
        fallback: '3° (common practice)',
      }),
    ),
    'smallest-hole': optional(
      length('The smallest hole that it opens going down a helix, by its maker.', {
        example: '28',
        fallback: '1.2 times the diameter; 1.8 times with inserts (common practice)',
      }),
    ),
    ...toothed,
    ...gripped('carbide'),
  },
  'An end mill: square, bull-nose or ball.',
  { example: '{ kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 18, shank: 6, material: carbide }' },
);

type EndMill = Mill & { readonly kind: 'end-mill' };

function read(r: ToolReader): EndMill | undefined {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const fluteLengthMm = r.size('flute-length', () => endMillFluteMm(d), 'ISO 1641-1 standard series, from memory');
  const reachMm = r.size('reach', () => fluteLengthMm, 'the flute length');
  const mill = readMill(r, 'end-mill', d, { fluteLengthMm, reachMm, flutes: 3, leastShankMm: 6, material: 'carbide' });
  const inserts = r.fields.word(r.node, 'inserts') === 'yes';
  return {
    ...mill,
    helixDeg: helixOf(r, mill.material),
    centreCutting: cutsOverCentre(r, mill, inserts),
    ...waysDown(r, d, inserts),
    ...taperOf(r),
    ...(r.fields.word(r.node, 'roughing') === 'yes' && { roughing: true }),
  };
}

function taperOf(r: ToolReader): Pick<Mill, 'taperDeg'> {
  const taperDeg = r.has('taper') ? r.fields.angle(r.node, 'taper', 0, 45) : undefined;
  return taperDeg === undefined ? {} : { taperDeg };
}

/** A body between its inserts stands on the core that a narrow helix leaves. Common practice, no source. */
const INSERT_HOLE = 1.8;

function waysDown(r: ToolReader, d: number, inserts: boolean): Pick<Mill, 'rampDeg' | 'leastHoleMm'> {
  const rampDeg = r.has('ramp') ? r.fields.angle(r.node, 'ramp', 0, 90) : undefined;
  const leastHoleMm =
    r.has('smallest-hole') || inserts ? r.size('smallest-hole', () => INSERT_HOLE * d, PRACTICE) : undefined;
  return { ...(rampDeg !== undefined && { rampDeg }), ...(leastHoleMm !== undefined && { leastHoleMm }) };
}

/** Slot drills and small solid cutters do; of the others from four edges on many have a hole there. */
function cutsOverCentre(r: ToolReader, { flutes, material }: Mill, inserts: boolean): boolean {
  const told = r.fields.word(r.node, 'centre-cutting');
  if (told !== undefined) return told === 'yes';
  const usual = !inserts && (flutes <= 3 || (flutes === 4 && material === 'carbide'));
  r.assume('centre-cutting', usual ? 'yes' : 'no', PRACTICE);
  return usual;
}

function helixOf(r: ToolReader, material: ToolMaterial): readonly [number, number] {
  if (r.has('helix')) {
    const deg = r.fields.angle(r.node, 'helix', -1, 70) ?? 0;
    return [deg, deg];
  }
  const usual = END_MILL_HELIX[material];
  r.assume('helix', usual.join(' to '), END_MILL_HELIX_SOURCE, '°');
  return usual;
}

export const endMill: ToolKindHome<EndMill> = {
  form: 'mill',
  hole: 'round',
  schema,
  read,
  check(tool, tell, mm) {
    checkMill(tool, tell, mm);
    const { diameterMm, leastHoleMm } = tool;
    if (leastHoleMm !== undefined && leastHoleMm <= diameterMm)
      tell(
        'smallest-hole',
        `A hole of ${mm(leastHoleMm)} has no room for a cutter ${mm(diameterMm)} wide that goes round in it. Correct one of the two.`,
      );
  },
  reachMm: byReach,
  body: ({ diameterMm, shankMm, reachMm }) => onShank(diameterMm, shankMm, reachMm),
  disc: noDisc,
};
