/** The joints of two jobs put side by side: by name, then by what they join. */

import type { Job } from '../model/job-model';
import type { Joint, Meeting, Screwed, Shaft } from '../model/joint-model';
import { readMemberName } from '../model/member-name';
import type { Length } from '../model/model';
import { type Difference, differences, type Fact, type Facts, factsOf, keyOf, type Reader } from './meaning';
import { pairedBy } from './pairs';

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
  const blind = (joint: Joint, by: Names) => keyOf(factsOfJoint(joint, after, by, () => '*'));
  const { pairs, gone, added } = pairedBy(
    before.joints,
    after.joints,
    (a, b) => a.name === b.name && a.kind === b.kind,
    (a, b) => a.kind === b.kind && blind(a, names) === blind(b, own),
  );
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
    ...added.map((b) => whole('added', b, newFacts(b))),
    ...gone.map((a) => whole('gone', a, oldFacts(a))),
  ];
}

/** What it says, lengths in the new job's unit. */
function factsOfJoint(joint: Joint, { units }: Job, names: Names, jointOf: (name: string) => string): Facts {
  const say = new Saying({ units, nameOf: (name) => name }, names);
  if (joint.times !== 1) say.word('times', String(joint.times));
  if ('with' in joint && joint.with) say.word('with', jointOf(joint.with.name));
  if ('fit' in joint) say.word('fit', joint.fit?.kind);
  switch (joint.kind) {
    case 'screw':
      sayScrew(joint, say);
      break;
    case 'pin':
      say.word('pin', `${joint.pin.standard} ${joint.pin.diameterMm} ${joint.pin.letter}${joint.pin.grade}`);
      say.mm('length', joint.pin.lengthMm);
      say.met('in', joint.in);
      break;
    case 'shaft':
      say.shaft(joint.shaft);
      say.met('seat', [joint.seat]);
      break;
    case 'bearing':
      say.word('bearing', joint.designation);
      if (joint.designation === undefined) {
        const { bore, outside, width } = joint;
        say.lengths({ bore, outside, width });
      }
      say.met('seat', joint.seat ? [joint.seat] : []);
      say.shaft(joint.shaft);
      break;
    case 'bought': {
      const { diameter, length, width, height } = joint;
      say.word('bought', joint.what);
      say.lengths({ diameter, length, width, height });
      say.mm('corner radius', joint.cornerMm);
      say.met('seat', [joint.seat]);
      break;
    }
    case 'stack':
      say.word(
        'stack',
        joint.heights.map(({ sign, height }) => `${sign < 0 ? '-' : ''}${say.height(height)}`).join(', '),
      );
      say.word('leaves', `${Number(joint.leastMm.toFixed(4))} to ${Number(joint.mostMm.toFixed(4))} mm`);
      break;
    default:
      joint satisfies never;
  }
  return say.facts;
}

function sayScrew(joint: Screwed, say: Saying): void {
  const { screw, nut, washer, nutWasher } = joint;
  const washerText = (w: typeof washer) => w && (w.standard ?? `${w.outsideMm} × ${w.thicknessMm} mm`);
  say.word('screw', `${screw.standard ? `${screw.standard} ` : ''}${screw.thread.designation}`);
  say.mm('length', screw.lengthMm);
  say.word('class', screw.propertyClass);
  say.met('through', joint.through);
  say.met('into', joint.into);
  say.word('nut', nut?.standard);
  say.met('nut in', joint.nutIn ? [joint.nutIn] : []);
  say.word('washer', washerText(washer));
  say.word('nut washer', washerText(nutWasher));
  say.mm('between', joint.betweenMm);
}

/** Facts of a joint as they come together; what is not there is not said. */
class Saying {
  readonly facts = new Map<string, Fact>();

  constructor(
    private readonly reader: Reader,
    private readonly names: Names,
  ) {}

  word(what: string, text: string | undefined): void {
    if (text !== undefined) this.facts.set(what, { key: text, shown: text });
  }

  mm(what: string, value: number | undefined): void {
    if (value !== undefined && value !== 0) this.word(what, `${Number(value.toFixed(4))} mm`);
  }

  lengths(of: Readonly<Record<string, Length | undefined>>): void {
    for (const [what, fact] of factsOf(of, this.reader)) this.facts.set(what, fact);
  }

  met(what: string, meetings: readonly Meeting[]): void {
    if (meetings.length > 0) this.word(what, meetings.map((m) => meetingText(m, this.names)).join(', '));
  }

  shaft(of: Shaft | undefined): void {
    if (of && 'of' in of) this.word('shaft', meetingText(of.of, this.names));
    else if (of) this.lengths({ shaft: of.size });
  }

  height(of: Shaft): string {
    return 'of' in of ? meetingText(of.of, this.names) : sizeText(of.size, this.reader);
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
