/** The joints of two jobs put side by side: by name, then by what they join. */
import type { Job } from '../model/job-model';
import type { Joint, Meeting, Shaft } from '../model/joint-model';
import { readMemberName } from '../model/member-name';
import type { Length } from '../model/model';
import { type Difference, differences, type Fact, type Facts, factsOf, keyOf, type Reader } from './meaning';

export interface JointChange {
  readonly kinds: readonly ('added' | 'gone' | 'renamed' | 'changed')[];
  readonly kind: Joint['kind'];
  readonly name: string;
  readonly wasName?: string;
  /** What came or went: `screw ISO 4762 M5 × 16, through lid.screws, into tub.screws`. */
  readonly is?: string;
  readonly differences: readonly Difference[];
}

/** Of each part, by its name in the new job: features under their old names. */
export type Renames = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** What the old job calls something, as the new one calls it. */
interface Names {
  readonly pieces: ReadonlyMap<string, string>;
  readonly features: Renames;
}

export function jointChanges(before: Job, after: Job, names: Names): readonly JointChange[] {
  const own: Names = { pieces: new Map(), features: new Map() };
  const [olds, news] = [[...before.joints], [...after.joints]];
  const pairs: [Joint, Joint][] = [];
  const take = (alike: (a: Joint, b: Joint) => boolean) => {
    for (const b of [...news]) {
      const a = olds.find((o) => alike(o, b));
      if (!a) continue;
      pairs.push([a, b]);
      olds.splice(olds.indexOf(a), 1);
      news.splice(news.indexOf(b), 1);
    }
  };
  take((a, b) => a.name === b.name && a.kind === b.kind);
  const blind = (joint: Joint, by: Names) => keyOf(factsOfJoint(joint, after, by, () => '*'));
  take((a, b) => a.kind === b.kind && blind(a, names) === blind(b, own));
  const jointNames = new Map(pairs.map(([a, b]) => [a.name, b.name]));
  const oldFacts = (joint: Joint) => factsOfJoint(joint, after, names, (name) => jointNames.get(name) ?? name);
  const newFacts = (joint: Joint) => factsOfJoint(joint, after, own, (name) => name);
  const whole = (kind: 'added' | 'gone', joint: Joint, facts: Facts): JointChange => ({
    kinds: [kind],
    kind: joint.kind,
    name: joint.name,
    is: [...facts].map(([what, { shown }]) => `${what} ${shown}`).join(', '),
    differences: [],
  });
  return [
    ...pairs.flatMap(([a, b]): JointChange[] => {
      const found = differences(oldFacts(a), newFacts(b));
      const isRenamed = a.name !== b.name;
      if (found.length === 0 && !isRenamed) return [];
      const kinds = [...(isRenamed ? (['renamed'] as const) : []), ...(found.length > 0 ? (['changed'] as const) : [])];
      return [{ kinds, kind: b.kind, name: b.name, ...(isRenamed && { wasName: a.name }), differences: found }];
    }),
    ...news.map((b) => whole('added', b, newFacts(b))),
    ...olds.map((a) => whole('gone', a, oldFacts(a))),
  ];
}

/** What it says, lengths in the new job's unit. */
function factsOfJoint(joint: Joint, { units }: Job, names: Names, jointOf: (name: string) => string): Facts {
  const reader: Reader = { units, nameOf: (name) => name };
  const facts = new Map<string, Fact>();
  const word = (what: string, text: string | undefined) =>
    text !== undefined && facts.set(what, { key: text, shown: text });
  const lengths = (of: Readonly<Record<string, Length | undefined>>) => {
    for (const [what, fact] of factsOf(of, reader)) facts.set(what, fact);
  };
  const met = (what: string, meetings: readonly Meeting[]) =>
    word(what, meetings.length > 0 ? meetings.map((m) => meetingText(m, names)).join(', ') : undefined);
  const shaft = (of: Shaft | undefined) => {
    if (of && 'of' in of) word('shaft', meetingText(of.of, names));
    else if (of) lengths({ shaft: of.size });
  };
  const mm = (what: string, value: number | undefined) =>
    value !== undefined && value !== 0 && word(what, `${Number(value.toFixed(4))} mm`);
  if (joint.times !== 1) word('times', String(joint.times));
  if ('with' in joint && joint.with) word('with', jointOf(joint.with.name));
  if ('fit' in joint) word('fit', joint.fit?.kind);
  switch (joint.kind) {
    case 'screw': {
      const { screw, nut, washer, nutWasher } = joint;
      const washerText = (w: typeof washer) => w && (w.standard ?? `${w.outsideMm} × ${w.thicknessMm} mm`);
      word('screw', `${screw.standard ? `${screw.standard} ` : ''}${screw.thread.designation}`);
      mm('length', screw.lengthMm);
      word('class', screw.propertyClass);
      met('through', joint.through);
      met('into', joint.into);
      word('nut', nut?.standard);
      met('nut in', joint.nutIn ? [joint.nutIn] : []);
      word('washer', washerText(washer));
      word('nut washer', washerText(nutWasher));
      mm('between', joint.betweenMm);
      return facts;
    }
    case 'pin':
      word('pin', `${joint.pin.standard} ${joint.pin.diameterMm} ${joint.pin.letter}${joint.pin.grade}`);
      mm('length', joint.pin.lengthMm);
      met('in', joint.in);
      return facts;
    case 'shaft':
      shaft(joint.shaft);
      met('seat', [joint.seat]);
      return facts;
    case 'bearing':
      word('bearing', joint.designation);
      if (joint.designation === undefined) lengths({ bore: joint.bore, outside: joint.outside, width: joint.width });
      met('seat', joint.seat ? [joint.seat] : []);
      shaft(joint.shaft);
      return facts;
    case 'bought':
      word('bought', joint.what);
      lengths({ diameter: joint.diameter, length: joint.length, width: joint.width, height: joint.height });
      mm('corner radius', joint.cornerMm);
      met('seat', [joint.seat]);
      return facts;
    case 'stack': {
      const texts = joint.heights.map(({ sign, height }) => {
        const one = 'of' in height ? meetingText(height.of, names) : sizeText(height.size, reader);
        return `${sign < 0 ? '-' : ''}${one}`;
      });
      word('stack', texts.join(', '));
      word('leaves', `${Number(joint.leastMm.toFixed(4))} to ${Number(joint.mostMm.toFixed(4))} mm`);
      return facts;
    }
    default:
      return joint satisfies never;
  }
}

function sizeText(size: Length, reader: Reader): string {
  return [...factsOf({ size }, reader).values()].map((f) => f.shown).join(' ');
}

/** `lid.screws[2]`, as the new texts call part and feature. */
function meetingText({ piece, feature }: Meeting, { pieces, features }: Names): string {
  const now = pieces.get(piece.name) ?? piece.name;
  const { feature: name, member } = readMemberName(feature.name);
  const called = features.get(now)?.get(name) ?? name;
  return `${now}.${called}${member === undefined ? '' : `[${member}]`}`;
}
