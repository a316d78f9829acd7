/** setup/twice – cut again where nothing of it is left. */
import type { Void } from '../../geometry/types';
import { type Face, OPPOSITE } from '../../model/model';
import { excessOver, timelineOf } from '../../process/stock';
import { isCutFrom } from '../../process/stock/extend-to-stock';
import { leavesSome } from '../../process/stock/partial';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { type Span, samePlace } from '../../text/tree';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { takeOff } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';
import { setupsIn } from '../kit/setups';

/** What of a feature a tool sees with a face up. */
function seen(cut: Cut, up: Face | undefined, { solid }: RuleContext): readonly Void[] {
  return solid.voidsOf(cut.name).filter((v) => !up || isCutFrom(v, up));
}

/** From the opposite side a through feature is cut half and half. */
function fromBothSides(cut: Cut, a: SetupInTime, b: SetupInTime, { solid }: RuleContext): boolean {
  return a.up !== undefined && b.up === OPPOSITE[a.up] && solid.voidsOf(cut.name).some((v) => v.through);
}

function* again(context: RuleContext): Generator<{ cut: Cut; s: SetupInTime; first: SetupInTime; earlier: Cut }> {
  const { part, solid } = context;
  const done = new Map<string, { cut: Cut; s: SetupInTime }[]>();
  for (const s of setupsIn(context)) {
    for (const cut of s.cuts) {
      const before = done.get(cut.name) ?? [];
      const inShares = [...before.map((b) => b.cut), cut].some((c) => c.share !== undefined);
      const rest =
        inShares &&
        leavesSome(
          before.map((b) => b.cut),
          (c) => setupsIn(context)[c.setup]!.up,
        );
      const known = before.find((b) => {
        if (inShares) return !rest;
        if (cut.face) return true;
        if (b.s !== s && fromBothSides(cut, b.s, s, context)) return false;
        const had = seen(b.cut, b.s.up, context);
        const now = seen(cut, s.up, context);
        return now.length > 0 && now.every((v) => had.includes(v));
      });
      // A face without stock on it is skimmed: that is stock/already-to-size, not this.
      const nothing = cut.face && excessOver(cut.face, timelineOf(part, solid).stock.body, solid.body) === 0;
      if (known && !nothing) yield { cut, s, first: known.s, earlier: known.cut };
      done.set(cut.name, [...before, { cut, s }]);
    }
  }
}

const sample = (cuts: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 6, depth: 10 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts: ${cuts}
`;

export const twice: Rule = defineRule({
  name: 'setup/twice',
  severity: 'warning',
  summary: 'A set-up cuts a feature of which nothing is left.',
  why: 'A cut that is listed twice costs time for nothing, or the second one was meant to be something else.',
  formula:
    'Of edges all round a part each set-up cuts what it sees. Of a feature that is open to both sides each side cuts half. With a depth written, each cuts as much as it says. Everything else is cut away by its first cut.',
  bounds: 'Geometry: what is cut away cannot be cut again.',
  limits: [],
  bad: sample('[seat, tie, seat]'),
  good: sample('[seat, tie]'),
  mends: 'Delete the second one.',
  find: again,
  tell({ cut, s, first, earlier }) {
    return {
      message: `${first === s ? `Set-up ${s.setup.name} cuts ${cut.name} twice` : `Set-ups ${first.setup.name} and ${s.setup.name} both cut ${cut.name}`}. The second time nothing is left to cut. Delete one of them.`,
      of: [cut.name],
      span: cut.span,
      related: [{ span: earlier.span, message: 'cut here first' }],
      facts: { set_up: s.setup.name, first: first.setup.name },
    };
  },
  keep: ({ cut: { name, span }, s, first }) => ({ name, span, setup: s.index, inOneList: first === s }),
  *mend({ name, span, setup, inOneList }, context) {
    const s = setupsIn(context)[setup];
    if (!s) return;
    if (inOneList) yield change('Delete the second one', takeAt(span, name, s, context));
    else yield change(`Delete it from ${s.setup.name}`, takeOff(context, s.setup, name));
  },
});

/** The one that stands there, of two in one list. */
function takeAt(span: Span, name: string, s: SetupInTime, context: RuleContext) {
  const cuts = s.setup.cuts.map((c) => (samePlace(c.span, span) ? c : { ...c, name: '' }));
  return takeOff(context, { ...s.setup, cuts }, name);
}
