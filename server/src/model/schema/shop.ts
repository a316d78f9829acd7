/** A shop document as written: machines, vises, parallels, holders, tools, bars on the rack, rates, limits. */
import type * as z from 'zod/mini';
import { tool } from '../tool-kinds';
import { bench, drillPress } from './benches';
import { angle, length, list, map, name, named, number, optional, quantity, text, units, words } from './common';
import { ownMaterial } from './own-material';
import { rackItem } from './rack';
import { takes } from './takes';

const COOLANTS = {
  flood: 'a stream of emulsion',
  mist: 'a little in air',
  air: 'an air blast',
  none: 'dry, or by brush',
} as const;

const SPEED_SETTINGS = {
  program: 'the control sets it',
  dial: 'by hand, with a read-out',
  unmarked: 'by hand, and nothing shows the speed',
} as const;

const CONTROLS = {
  hand: 'hand wheels, read by their dials',
  'read-out': 'hand wheels, with a digital read-out',
  program: 'a control moves the axes',
} as const;

const TAPPING = {
  hand: 'with a tap wrench, started square from the spindle',
  power: 'the spindle turns the tap in and out, in step or in a tapping head',
} as const;

const SHANK_GRIPS = {
  collet: 'a collet: friction all round the shank',
  'set-screw': 'a screw on the flat of the shank: it turns with the spindle and cannot be drawn out',
} as const;

const PROJECTIONS = {
  first: 'first angle (ISO 5456-2, its usual one): the view from above is below',
  third: 'third angle (ASME Y14.3): the view from above is above',
} as const;

const DIAL_UNITS = {
  mm: 'millimetres',
  in: 'inches',
} as const;

const JAW_FACES = {
  smooth: 'ground flat',
  serrated: 'with teeth that bite: they mark the workpiece and hold on less height',
} as const;

/** Ways of finding zero, and how well each repeats in ordinary hands: common practice, no source. mm. */
export const ZERO_ERRORS = {
  'edge-finder': { what: 'a turning edge finder', usualMm: 0.02 },
  probe: { what: 'a touch probe', usualMm: 0.01 },
  'tool-edge': { what: 'the cutter’s edge touched on paper', usualMm: 0.08 },
  indicator: { what: 'a dial indicator swept round', usualMm: 0.01 },
  stop: { what: 'the vise stop, part after part', usualMm: 0.02 },
} as const;

const zeroError = Object.fromEntries(
  Object.entries(ZERO_ERRORS).map(([way, { what, usualMm }]) => [
    way,
    optional(length(`Repeatability of ${what}, ±.`, { example: String(usualMm), fallback: `${usualMm} mm` })),
  ]),
) as Record<keyof typeof ZERO_ERRORS, z.ZodMiniOptional<ReturnType<typeof length>>>;

export const machine = map(
  {
    travel: map(
      {
        x: length('To the right.', { example: '400' }),
        y: length('To the back.', { example: '220' }),
        z: length('Up.', { example: '380' }),
      },
      'How far each axis moves.',
      { example: '{ x: 400, y: 220, z: 380 }' },
    ),
    spindle: map(
      {
        rpm: list(number('Speed of the spindle, in rpm.'), 'Slowest and fastest speed, in rpm.', {
          example: '[150, 5000]',
        }),
        power: quantity('Power at the spindle, in kW, W, hp or PS.', { example: '1.1 kW' }),
        torque: optional(
          quantity('Greatest torque, in N·m, ft·lbf or in·lbf.', {
            example: '14 N·m',
            fallback: 'not checked',
          }),
        ),
        steps: optional(
          list(number('Speed of the spindle, in rpm.'), 'The only speeds it has, where belts or gears set them.', {
            example: '[200, 350, 600, 1050, 1800, 3000]',
            fallback: 'any speed between slowest and fastest',
          }),
        ),
        'speed-set-by': optional(words(SPEED_SETTINGS, 'How a speed is set.', { fallback: 'not told' })),
      },
      'The spindle.',
      { example: '{ rpm: [150, 5000], power: 1.1 kW }' },
    ),
    feed: optional(
      quantity('Fastest cutting feed: in mm/min, m/min or in/min.', {
        example: '3000 mm/min',
        fallback: 'not checked; 400 mm/min where hands feed (rule of thumb)',
      }),
    ),
    control: optional(
      words(CONTROLS, 'What moves the axes. Hands mill conventionally, never climbing.', {
        fallback: 'program',
      }),
    ),
    dials: optional(
      map(
        {
          turn: length('How far one turn of a hand wheel moves the table.', { example: '4' }),
          divisions: number('Marks round a dial.'),
          unit: optional(words(DIAL_UNITS, 'What the dials count in.', { fallback: 'the units of the shop file' })),
        },
        'The hand wheels’ dials, for a machine without a read-out: a sheet then has turns and marks.',
        { example: '{ turn: 4, divisions: 80 }' },
      ),
    ),
    tapping: optional(words(TAPPING, 'How threads are tapped on it.', { fallback: 'hand' })),
    backlash: optional(
      length('Play of its screws. Over 0.05 mm no cutter may climb, and each place is approached from one side.', {
        example: '0.1',
        fallback: '0.1 mm where hands feed, 0 under a control (rule of thumb)',
      }),
    ),
    coolant: optional(words(COOLANTS, 'How chips are cooled and washed away.', { fallback: 'none' })),
    'zero-error': optional(
      map(zeroError, 'How well each way of finding zero repeats on this machine.', {
        example: '{ edge-finder: 0.02, stop: 0.02 }',
      }),
    ),
    daylight: optional(
      length('Greatest distance between the spindle’s nose and the table.', {
        example: '420',
        fallback: 'not checked',
      }),
    ),
    'table-load': optional(
      quantity('Greatest weight on the table, in kg or lb.', {
        example: '150 kg',
        fallback: 'not checked',
      }),
    ),
    stiffness: optional(
      quantity('Between spindle and table, under the force of a cut: in N/µm or lbf/in.', {
        example: '15 N/µm',
        fallback: 'not checked',
      }),
    ),
    takes,
    'tool-change': optional(
      quantity('From one tool cutting to the next, in s or min.', {
        example: '90 s',
        fallback: 'rule of thumb: 90 s by hand',
      }),
    ),
    note: optional(text('A remark.')),
  },
  'A three-axis mill.',
  { example: '{ travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }' },
);

export const vise = map(
  {
    jaw: map(
      {
        width: length('Along the workpiece.', { example: '100' }),
        height: length('From the bed up to the jaws’ top.', { example: '32' }),
      },
      'One jaw.',
      { example: '{ width: 100, height: 32 }' },
    ),
    opens: length('Greatest distance between the jaws.', { example: '110' }),
    bed: optional(
      length('From the table up to the bed that the parallels stand on.', {
        example: '65',
        fallback: 'rule of thumb: 0.65 of the jaws’ width',
      }),
    ),
    mass: optional(
      quantity('What it weighs, in kg or lb.', {
        example: '18 kg',
        fallback: 'the `vise` limit of machine/weight',
      }),
    ),
    force: optional(
      quantity('Clamping force as it is usually drawn up, in kN, N or lbf.', {
        example: '15 kN',
        fallback: 'rule of thumb: 15 kN for a 100 mm vise, in proportion to the width',
      }),
    ),
    face: optional(words(JAW_FACES, 'What the jaws’ faces are like.', { fallback: 'smooth' })),
    count: optional(
      number('How many alike there are. Two in line hold a long workpiece.', { example: '2', fallback: '1' }),
    ),
    note: optional(text('A remark.')),
  },
  'A vise.',
  { example: '{ jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth }' },
);

export const vBlock = map(
  {
    width: length('Across the V, at its top.', { example: '32' }),
    height: length('From its foot to the top of the V.', { example: '35' }),
    length: length('Along the V.', { example: '45' }),
    angle: optional(angle('Included angle of the V.', { example: '90', fallback: '90' })),
    count: optional(number('How many alike there are.', { example: '2', fallback: '2: they come in pairs' })),
    note: optional(text('A remark.')),
  },
  'A V-block for round work.',
  { example: '{ width: 32, height: 35, length: 45 }' },
);

export const anglePlate = map(
  {
    width: length('Width of its upright side.', { example: '100' }),
    height: length('Height of its upright side, from the table.', { example: '100' }),
    thickness: optional(
      length('Thickness of its upright side: it stands in a tool’s way, and its weight on the table.', {
        example: '12',
        fallback: 'rule of thumb: an eighth of the height',
      }),
    ),
    note: optional(text('A remark.')),
  },
  'An angle plate: its upright side is square to the table.',
  { example: '{ width: 100, height: 100 }' },
);

export const holder = map(
  {
    diameter: length('Diameter of the nose: the nut of a collet chuck.', { example: '34' }),
    length: length('Length from the nose to where it becomes wider.', { example: '50' }),
    grips: optional(words(SHANK_GRIPS, 'What keeps the shank in it.', { fallback: 'collet' })),
    'slips-at': optional(
      quantity('Force along a shank at which a collet lets it slip, in N, kN or lbf.', {
        example: '2.5 kN',
        fallback: '140 N for each mm of the shank’s diameter',
      }),
    ),
    note: optional(text('A remark.')),
  },
  'What holds a tool in the spindle, taken as a cylinder.',
  { example: '{ diameter: 34, length: 50 }' },
);

export const rates = map(
  {
    'machine-hour': optional(number('What an hour of the machine costs.', { example: '25', fallback: '0' })),
    'person-hour': optional(number('What an hour of a person costs.', { example: '0', fallback: '0' })),
    currency: optional(text('Three letters of ISO 4217.', { example: 'EUR', fallback: 'EUR' })),
  },
  'What time costs here.',
  { example: '{ machine-hour: 25, person-hour: 0, currency: EUR }' },
);

const range = (what: string, example: string) =>
  optional(
    list(quantity('A time: in min, s or h; a bare number is minutes.'), what, {
      example,
      fallback: example.includes('s') ? example : `${example} min`,
    }),
  );

export const times = map(
  {
    'set-up': range('A set-up, once: vise cleaned and squared, parallels, stop, the first zero.', '[8, 30]'),
    load: range('One piece out, chips off, the next one in.', '[1, 3]'),
    zero: range('Setting zero again on one axis, for a piece that no stop or fixed jaw locates.', '[1, 3]'),
    'touch-off': range('A tool’s length touched off, once a set-up.', '[0.5, 2]'),
    measure: range('One toleranced size measured.', '[1, 3]'),
    deburr: range('A metre of sharp edge broken by hand.', '[5, 11]'),
    saw: range('One saw cut: marked out, clamped, sawn.', '[2, 5]'),
    tap: range('One hole tapped by hand, besides its turns: tap put in, started square, taken out.', '[0.5, 1]'),
    'tap-turn': range('One turn of a tap by hand, with its quarter back.', '[3 s, 5 s]'),
    'bore-cut': range('One trial cut of a boring head, besides the cutting: measured, the head set.', '[2, 3.5]'),
    'soft-jaws': range('A pair of soft jaws made for a set-up.', '[20, 40]'),
    'fixture-plate': range('A fixture plate made for a set-up: drilled and tapped.', '[15, 30]'),
  },
  'What hands need besides cutting: a quick time and a slow one of each. Left out: rules of thumb.',
  { example: '{ set-up: [8 min, 20 min], load: [1, 3] }' },
);

const limits = named(
  named(
    quantity('The value, in the unit the rule gives (lengths in mm unless written with a unit).'),
    'Settings of a rule.',
  ),
  'Limits of rules that this shop sets otherwise: rule, setting, value.',
  { example: '{ wall/thin: { metal: 1.0 } }', names: 'rule' },
);

export const shopSchema = map(
  {
    shop: text('Name of the shop.', { example: 'campus workshop' }),
    units: optional(units()),
    projection: optional(
      words(PROJECTIONS, 'How views are arranged on drawings.', {
        fallback: 'first; third in a shop file in inches',
      }),
    ),
    machines: optional(named(machine, 'The mills, by name.')),
    vises: optional(named(vise, 'The vises, by name.')),
    'drill-presses': optional(
      named(drillPress, 'The drill presses, by name. A hole may say that it is `made-on` one.'),
    ),
    bench: optional(bench),
    'v-blocks': optional(named(vBlock, 'The V-blocks, by name.')),
    'angle-plates': optional(named(anglePlate, 'The angle plates, by name.')),
    parallels: optional(
      list(length('Height of a pair.'), 'Heights of the pairs of parallels in the shop.', {
        example: '[10, 14, 18, 22, 26, 30]',
      }),
    ),
    holders: optional(named(holder, 'Collet chucks and other holders, by name.')),
    tools: optional(named(tool, 'The tools, by name.')),
    dies: optional(
      list(
        name('thread', 'A thread.', { example: 'M8' }),
        'Threads that there is a die for, cut by hand on a round boss.',
        {
          example: '[M6, M8]',
          fallback: 'not listed',
        },
      ),
    ),
    materials: optional(
      named(
        ownMaterial,
        'Materials of the shop’s own, by the name that parts and the rack use. They go before the tables.',
      ),
    ),
    rack: optional(list(rackItem, 'Bars and plates that can be had.')),
    rates: optional(rates),
    times: optional(times),
    limits: optional(limits),
  },
  'A shop: what it has to make parts with.',
  { title: 'Shop' },
);
