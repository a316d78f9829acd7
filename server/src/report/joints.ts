/** What stands behind a joint: grip, thread met, lengths that do, play and zones; and what of it is to be bought. */
import type { Bearing, Bought, Joint, Located, Meeting, Pinned, Screwed, Shaft } from '../model/joint-model';
import { readMemberName } from '../model/member-name';
import { featureOf } from '../process/joints/layers';
import { askedHead, lengthsThatDo, reachOf } from '../process/joints/lengths';
import { boreOf, depthIn, kindOf, type Play, playOf, type Sized, shaftOf } from '../process/joints/plays';
import { zoneOf } from '../process/joints/zones';
import { holeLimits } from '../process/tolerances/fastener';
import type { JointContext } from '../rules/joint/context';
import { leastThreadMm, lengthThatDoes } from '../rules/joint/engagement';
import { innerOf, playText } from '../rules/joint/fit';
import { pattern } from '../rules/joint/pattern';
import { type Assembled, assembled, gripsOf } from '../rules/joint/screwed';
import { list } from '../rules/kit/message';
import { EVERYDAY_CLASS, screwText } from '../tables/fasteners';
import { fitLimits } from '../tables/fits';
import { pinText } from '../tables/pins';

/** A line for each thing that is known of it. */
export function jointLines(joint: Joint, context: JointContext): readonly string[] {
  switch (joint.kind) {
    case 'screw':
      return screwLines(joint, context);
    case 'pin':
      return pinLines(joint, context);
    case 'stack':
      return [];
    case 'shaft':
    case 'bearing':
    case 'bought':
      return fitLines(joint, context);
    default:
      return joint satisfies never;
  }
}

function togetherOf(joint: Screwed | Pinned, context: JointContext): Assembled | undefined {
  return assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
}

function screwLines(joint: Screwed, context: JointContext): readonly string[] {
  const found = togetherOf(joint, context);
  if (!found) return [];
  const { length } = context;
  const round = (mm: number) => length(Number(mm.toFixed(2)));
  const all = gripsOf(joint, found);
  const asked = askedHead(found.layers[0]!);
  const least = leastThreadMm(joint, found, context);
  const meant = meantMm(joint, found, context);
  const do_ = least === undefined ? [] : lengthsThatDo(joint, asked, all, least);
  const into = joint.nut ? `its nut (${joint.nut.standard})` : joint.into.map((m) => m.text).join(', ');
  const [grip] = all;
  return [
    `${found.total} × ${screwText(joint.screw, asked, meant)}, class ${joint.screw.propertyClass}, into ${into}.`,
    ...(grip && meant !== undefined
      ? [
          `It grips ${round(grip.gripMm)} and meets ${round(reachOf(meant, grip).engagedMm)} of thread${least === undefined ? '' : `; ${round(least)} ${joint.nut ? 'fill the nut and stand a pitch behind it' : 'hold as well as the screw'}`}.`,
        ]
      : []),
    ...(least === undefined
      ? []
      : [
          do_.length > 0
            ? `Standard lengths that fit: ${do_.map((mm) => round(mm)).join(', ')}.`
            : 'No standard length does.',
        ]),
    ...found.layers.flatMap((layer) => {
      const { hole, meeting } = layer.holes[0]!;
      const zone = zoneOf(layer);
      const may =
        zone && layer.holes.length > 1
          ? `; the holes may be off by ${round(zone.mm)} (${zone.how}${zone.bonusMm ? `, up to ${round(zone.bonusMm)} more in larger holes` : ''})`
          : '';
      if (joint.into.includes(meeting))
        return zone && layer.holes.length > 1 ? [`${meeting.text}: ${may.slice(2)}.`] : [];
      return [
        `${meeting.text}: ${round(holeLimits(hole, layer.piece.part).leastMm - joint.screw.diameterMm)} of play round the screw${may}.`,
      ];
    }),
    ...found.turned.map(
      (layer) => `${layer.piece.name} lies the other way up than it is drawn, or its pattern does not agree.`,
    ),
  ];
}

function pinLines(joint: Pinned, context: JointContext): readonly string[] {
  const found = togetherOf(joint, context);
  const limits = fitLimits(joint.pin.diameterMm, joint.pin.letter, joint.pin.grade);
  if (!found || !limits) return [];
  const tolerance = { text: '', span: joint.pinSpan, upperMm: limits.upperMm, lowerMm: limits.lowerMm };
  const inner: Sized = { length: { mm: joint.pin.diameterMm, text: '', span: joint.pinSpan, tolerance } };
  return [
    `${found.total} × ${pinText(joint.pin, joint.pin.lengthMm)}.`,
    ...found.layers.map(({ holes, piece }) => {
      const { hole, meeting } = holes[0]!;
      return playLine(meeting.text, playOf({ length: hole.diameter, part: piece.part }, inner), context);
    }),
  ];
}

function playLine(what: string, play: Play, { length }: JointContext): string {
  const kind = kindOf(play);
  return `${what}: ${kind === undefined ? '' : `${kind} fit, `}${playText(play, length)}.`;
}

function fitLines(joint: Located | Bearing | Bought, context: JointContext): readonly string[] {
  const opening = joint.seat && featureOf(joint.seat, context.pieces);
  const bore = opening && boreOf(opening);
  const inner = innerOf(joint, context.pieces);
  const shaft = joint.kind === 'bearing' && joint.shaft ? shaftOf(joint.shaft, context.pieces) : undefined;
  const deep = opening && depthIn(opening);
  const high = joint.kind === 'bearing' ? joint.width : joint.kind === 'bought' ? joint.height : undefined;
  const stands = deep && high ? high.mm - deep.length.mm : undefined;
  const words = (mm: number) => context.length(Number(Math.abs(mm).toFixed(3)));
  return [
    ...(joint.times > 1 ? [`There are ${joint.times} such joints.`] : []),
    ...(joint.seat && bore && inner ? [playLine(joint.seat.text, playOf(bore, inner), context)] : []),
    ...(joint.kind === 'bearing' && shaft
      ? [playLine('its bore on the shaft', playOf({ length: joint.bore }, shaft), context)]
      : []),
    ...(stands === undefined
      ? []
      : [
          stands === 0
            ? 'It is flush with its seat as drawn.'
            : `As drawn it is ${words(stands)} ${stands > 0 ? 'higher than its seat is deep' : 'below the rim of its seat'}.`,
        ]),
  ];
}

/** Every feature that a joint names. */
export function meetingsIn(joint: Joint): readonly Meeting[] {
  const ofShaft = (shaft: Shaft | undefined) => (shaft && 'of' in shaft ? [shaft.of] : []);
  switch (joint.kind) {
    case 'screw':
      return [...joint.through, ...joint.into, ...(joint.nutIn ? [joint.nutIn] : [])];
    case 'pin':
      return joint.in;
    case 'shaft':
      return [...ofShaft(joint.shaft), joint.seat];
    case 'bearing':
      return [...(joint.seat ? [joint.seat] : []), ...ofShaft(joint.shaft)];
    case 'bought':
      return [joint.seat];
    case 'stack':
      return joint.heights.flatMap((h) => ofShaft(h.height));
    default:
      return joint satisfies never;
  }
}

/** What meets a feature of one part of a job: a line a joint, then what stands behind it. */
export function metLines(piece: string, feature: string, context: JointContext): readonly string[] {
  return context.joints.flatMap((joint) => {
    const all = meetingsIn(joint);
    const own = all.filter((m) => m.piece.name === piece && readMemberName(m.feature.name).feature === feature);
    if (own.length === 0) return [];
    const others = all.filter((m) => !own.includes(m)).map((m) => m.text);
    const what = {
      screw: 'screws',
      pin: 'pins',
      shaft: 'a shaft',
      bearing: 'a bearing',
      bought: 'bought',
      stack: 'a stack of heights',
    }[joint.kind];
    return [
      `Joint ${joint.name} (${what})${others.length > 0 ? `: meets ${list(others)}` : ''}.`,
      ...jointLines(joint, context),
    ];
  });
}

export type BoughtKind = 'screw' | 'washer' | 'nut' | 'pin' | 'bearing' | 'other';

/** One thing to buy for the joints of a job. */
export interface ToBuy {
  readonly kind: BoughtKind;
  /** By its standard and size, or as the job calls it. */
  readonly name: string;
  readonly count: number;
  readonly joints: readonly string[];
}

/** Screws, nuts, washers, pins, bearings and whatever else is seated: alike ones together, in the order of the joints. */
export function boughtFor(context: JointContext): readonly ToBuy[] {
  const rows = new Map<string, ToBuy>();
  for (const joint of context.joints)
    for (const { kind, name, count } of boughtOf(joint, context)) {
      const key = `${kind} ${name}`;
      const row = rows.get(key) ?? { kind, name, count: 0, joints: [] };
      rows.set(key, { ...row, count: row.count + count, joints: [...row.joints, joint.name] });
    }
  return [...rows.values()];
}

type Row = Pick<ToBuy, 'kind' | 'name' | 'count'>;

function* boughtOf(joint: Joint, context: JointContext): Generator<Row> {
  if (joint.kind === 'screw') {
    const found = togetherOf(joint, context);
    if (found) yield* forScrew(joint, found, context);
  } else if (joint.kind === 'pin') {
    const found = togetherOf(joint, context);
    if (found) yield { kind: 'pin', name: pinText(joint.pin, joint.pin.lengthMm), count: found.total };
  } else if (joint.kind === 'bearing') {
    const { designation, bore, outside, width } = joint;
    yield {
      kind: 'bearing',
      name: designation ?? `${bore.text} × ${outside.text} × ${width.text}`,
      count: joint.times,
    };
  } else if (joint.kind === 'bought') yield { kind: 'other', name: joint.what, count: joint.times };
}

function* forScrew(joint: Screwed, found: Assembled, context: JointContext): Generator<Row> {
  const { size, propertyClass } = joint.screw;
  const count = found.total;
  const marked = propertyClass === EVERYDAY_CLASS ? '' : `, ${propertyClass}`;
  const name = screwText(joint.screw, askedHead(found.layers[0]!), meantMm(joint, found, context)) + marked;
  yield { kind: 'screw', name, count };
  for (const washer of [joint.washer, joint.nutWasher])
    if (washer)
      yield {
        kind: 'washer',
        name: washer.standard
          ? `${washer.standard} ${size}`
          : `${washer.outsideMm} × ${washer.thicknessMm} mm, ${size}`,
        count,
      };
  if (joint.nut) yield { kind: 'nut', name: `${joint.nut.standard} ${size}`, count };
}

/** The length that is written, else the shortest standard one that does. */
function meantMm(joint: Screwed, found: Assembled, context: JointContext): number | undefined {
  const least = leastThreadMm(joint, found, context);
  return joint.screw.lengthMm ?? (least === undefined ? undefined : lengthThatDoes(joint, found, least)?.mm);
}
