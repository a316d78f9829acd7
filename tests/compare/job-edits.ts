/** Jobs drawn at random as plain data, and edits of them, each with what it changed of the job. */
import fc from 'fast-check';

type Fields = Readonly<Record<string, unknown>>;
export interface JobData {
  readonly [field: string]: unknown;
  readonly parts: Readonly<Record<string, Fields>>;
  readonly joints: Readonly<Record<string, Fields>>;
}

interface Edit {
  readonly edit: (job: JobData) => JobData;
  /** What it is told under. */
  readonly job?: readonly string[];
  readonly parts?: Readonly<Record<string, readonly string[]>>;
  readonly joints?: Readonly<Record<string, readonly string[]>>;
}

const int = (min: number, max: number) => fc.integer({ min, max });

/** Every kind of joint, and every limit; numbers are drawn. JSON is YAML. */
export const drawnJob: fc.Arbitrary<JobData> = fc
  .record({ many: int(1, 4), mass: int(200, 900), hours: int(3, 20), mm: int(4, 8), kerf: int(1, 3), left: int(0, 3) })
  .map(({ many, mass, hours, mm, kerf, left }) => ({
    job: 'drawn',
    shop: 'campus.shop.yaml',
    parts: {
      lid: { spec: 'lid.part.yaml', quantity: many },
      tub: { spec: 'tub.part.yaml' },
      rail: { spec: 'rail.part.yaml', quantity: 2 },
    },
    'mass-limit': `${mass} g`,
    hours,
    evening: '3 h',
    'saw-kerf': kerf,
    joints: {
      cover: { screw: `ISO 4762 M5x${mm * 5}`, through: 'lid.screws', into: 'tub.threads', with: 'dowels' },
      dowels: { pin: `ISO 8734 4x${mm * 2}`, in: ['lid.dowels', 'tub.dowels'] },
      bolts: { screw: 'M6x30', through: ['lid.bolts', 'rail.bolts'], nut: 'ISO 4032', washer: 'ISO 7089', times: 2 },
      turning: { bearing: '608', seat: 'tub.seat', shaft: '8 h6' },
      spigot: { shaft: 'lid.spigot', seat: 'tub.bore', fit: 'clearance' },
      sensor: { bought: 'sensor', size: { length: 20, width: mm, height: 4 }, seat: 'tub.nest' },
      height: { stack: ['tub.z', '-lid.z', '-7 ±0.05'], leaves: [left, left + 1] },
    },
  }));

const head = (more: Fields) => (j: JobData) => ({ ...j, ...more });
const joint = (name: string, more: Fields) => (j: JobData) => ({
  ...j,
  joints: { ...j.joints, [name]: { ...j.joints[name]!, ...more } },
});
const without = (of: 'parts' | 'joints', name: string) => (j: JobData) => ({
  ...j,
  [of]: Object.fromEntries(Object.entries(j[of]).filter(([n]) => n !== name)),
});
/** Without fields of a joint, and with others. */
const instead = (name: string, gone: readonly string[], more: Fields) => (j: JobData) => {
  const kept = Object.entries(j.joints[name]!).filter(([key]) => !gone.includes(key));
  return { ...j, joints: { ...j.joints, [name]: { ...Object.fromEntries(kept), ...more } } };
};
const both = (first: Edit['edit'], second: Edit['edit']) => (j: JobData) => second(first(j));
/** A part under another name, wherever it is named; a joint likewise. */
const called = (name: string, other: string) => (j: JobData) => {
  const text = JSON.stringify(j)
    .replaceAll(`"${name}":`, `"${other}":`)
    .replaceAll(new RegExp(`"${name}\\.(?!part)`, 'g'), `"${other}.`)
    .replaceAll(`"-${name}.`, `"-${other}.`)
    .replaceAll(`"${name}"`, `"${other}"`);
  return JSON.parse(text) as JobData;
};

export const JOB_EDITS: Readonly<Record<string, Edit>> = {
  'its name': { edit: head({ job: 'other' }), job: ['name'] },
  'its shop': { edit: head({ shop: 'other.shop.yaml' }), job: ['shop'] },
  'its own shop no more': { edit: ({ shop: _, ...j }) => j as JobData, job: ['shop'] },
  'the mass limit': { edit: head({ 'mass-limit': '1.2 kg' }), job: ['mass limit'] },
  'the hours': { edit: head({ hours: 40 }), job: ['hours'] },
  'the evening': { edit: head({ evening: '2 h' }), job: ['evening'] },
  'the saw': { edit: head({ 'saw-kerf': 4, 'saw-clamp': 30 }), job: ['saw kerf', 'saw clamp'] },
  'a quantity': {
    edit: (j) => ({ ...j, parts: { ...j.parts, tub: { ...j.parts.tub!, quantity: 7 } } }),
    parts: { tub: ['changed'] },
  },
  'another file': {
    edit: (j) => ({ ...j, parts: { ...j.parts, tub: { spec: 'other/tub.part.yaml' } } }),
    parts: { tub: ['changed'] },
  },
  'a part more': {
    edit: (j) => ({ ...j, parts: { ...j.parts, post: { spec: 'post.part.yaml' } } }),
    parts: { post: ['added'] },
  },
  'a part less, and its joint': {
    edit: both(without('parts', 'rail'), without('joints', 'bolts')),
    parts: { rail: ['gone'] },
    joints: { bolts: ['gone'] },
  },
  'another name of a part': { edit: called('rail', 'post'), parts: { post: ['renamed'] } },
  'another name of a joint': { edit: called('dowels', 'locating'), joints: { locating: ['renamed'] } },
  'a joint more': {
    edit: (j) => ({ ...j, joints: { ...j.joints, more: { screw: 'M3', through: 'lid.small', into: 'tub.small' } } }),
    joints: { more: ['added'] },
  },
  'a joint less': { edit: without('joints', 'spigot'), joints: { spigot: ['gone'] } },
  'a screw’s length': { edit: joint('cover', { screw: 'ISO 4762 M5x60' }), joints: { cover: ['changed'] } },
  'a screw’s standard': { edit: joint('bolts', { screw: 'ISO 4017 M6x30' }), joints: { bolts: ['changed'] } },
  'a screw’s size': { edit: joint('bolts', { screw: 'M5x30' }), joints: { bolts: ['changed'] } },
  'a screw’s strength': { edit: joint('bolts', { screw: 'M6x30 10.9' }), joints: { bolts: ['changed'] } },
  'a nut in place of a thread': {
    edit: instead('cover', ['into'], { through: ['lid.screws', 'tub.threads'], nut: 'ISO 7040' }),
    joints: { cover: ['changed'] },
  },
  'where a nut is let in': { edit: joint('bolts', { 'nut-in': 'rail.nest' }), joints: { bolts: ['changed'] } },
  'a washer': { edit: joint('bolts', { washer: 'ISO 7092' }), joints: { bolts: ['changed'] } },
  'a washer under the nut': { edit: joint('bolts', { 'nut-washer': 'ISO 7089' }), joints: { bolts: ['changed'] } },
  'what lies between': { edit: joint('cover', { between: 0.5 }), joints: { cover: ['changed'] } },
  'what agrees with it no more': { edit: instead('cover', ['with'], {}), joints: { cover: ['changed'] } },
  'how many there are': { edit: joint('bolts', { times: 3 }), joints: { bolts: ['changed'] } },
  'one hole of a pattern': { edit: joint('cover', { through: 'lid.screws[2]' }), joints: { cover: ['changed'] } },
  'a pin': { edit: joint('dowels', { pin: 'ISO 2338 4 h8 x 30' }), joints: { dowels: ['changed'] } },
  'a bearing': { edit: joint('turning', { bearing: '6000' }), joints: { turning: ['changed'] } },
  'a bearing by its sizes': {
    edit: joint('turning', { bearing: { bore: 9, outside: 24, width: 7 } }),
    joints: { turning: ['changed'] },
  },
  'a shaft’s class': { edit: joint('turning', { shaft: '8 g6' }), joints: { turning: ['changed'] } },
  'a fit': { edit: joint('spigot', { fit: 'transition' }), joints: { spigot: ['changed'] } },
  'a seat': { edit: joint('spigot', { seat: 'tub.other' }), joints: { spigot: ['changed'] } },
  'a bought thing’s size': {
    edit: joint('sensor', { size: { length: 21, width: 3, height: 4 } }),
    joints: { sensor: ['changed'] },
  },
  'a height’s limits': {
    edit: joint('height', { stack: ['tub.z', '-lid.z', '-7 ±0.1'] }),
    joints: { height: ['changed'] },
  },
  'what a stack may leave': { edit: joint('height', { leaves: [8, 9] }), joints: { height: ['changed'] } },
};

export const SAME_JOB: Readonly<Record<string, (job: JobData) => JobData>> = {
  itself: (j) => j,
  'its parts and joints in another order': (j) => {
    const turned = <T extends object>(of: T) => Object.fromEntries(Object.entries(of).reverse()) as T;
    return turned({ ...j, parts: turned(j.parts), joints: turned(j.joints) });
  },
  'its limits in other units': (j) => ({
    ...j,
    'mass-limit': `${Number.parseInt(String(j['mass-limit']), 10) / 1000} kg`,
    hours: `${Number(j.hours) * 60} min`,
  }),
  'inches, with its lengths as they were': (j) => ({
    ...j,
    units: 'in',
    'saw-kerf': `${String(j['saw-kerf'])} mm`,
    joints: {
      ...j.joints,
      sensor: {
        ...j.joints.sensor!,
        size: Object.fromEntries(
          Object.entries(j.joints.sensor!.size as object).map(([k, v]) => [k, `${String(v)} mm`]),
        ),
      },
      turning: { ...j.joints.turning!, shaft: '8 mm h6' },
      height: {
        stack: ['tub.z', '-lid.z', '-7 mm ±0.05 mm'],
        leaves: (j.joints.height!.leaves as readonly number[]).map((mm) => `${mm} mm`),
      },
    },
  }),
  'with remarks': (j) => ({
    ...j,
    note: 'for the launch',
    joints: { ...j.joints, spigot: { ...j.joints.spigot!, note: 'by hand' } },
  }),
};
