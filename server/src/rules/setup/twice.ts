/** setup/twice – cut again where nothing of it is left. */
import type { Void } from '../../geometry/types';
import { type Face, OPPOSITE } from '../../model/model';
import { excessOver, timelineOf } from '../../process/stock';
import { isCutFrom } from '../../process/stock/extend-to-stock';
import { leavesSome } from '../../process/stock/partial';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { samePlace } from '../../text/tree';
import { takeOff } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { setupFor, setupsIn } from '../kit/setups';

const NAME = 'setup/twice';

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
      // A face without stock on it is skimmed: that is stock/known-face, not this.
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

export const twice: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'Cut a second time, when nothing of it is left.',
  why: 'A cut listed twice is time at the machine for nothing, or the second one was meant to be something else.',
  formula:
    'Of edges all round a part each set-up cuts what it sees; of a feature that is open to both sides each side half; with a depth written, each as much as it says. Everything else is gone after its first cut.',
  limits: [],
  bad: sample('[seat, tie, seat]'),
  good: sample('[seat, tie]'),
  mends: 'The second one left out.',
  *find(context): Generator<Finding> {
    for (const { cut, s, first, earlier } of again(context)) {
      yield {
        rule: NAME,
        severity: 'warning',
        message: `${cut.name} is cut again in ${s.setup.name}, and nothing of it is left: ${first === s ? 'it stands in the list before' : `${first.setup.name} has cut it`}. Leave one out.`,
        of: [cut.name],
        span: cut.span,
        related: [{ span: earlier.span, message: 'cut here first' }],
        facts: { set_up: s.setup.name, first: first.setup.name },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const s = setupFor(finding, context);
    const found = [...again(context)].find((a) => samePlace(a.cut.span, finding.span));
    if (!s || !found) return;
    const same = found.first === s;
    const edits = same ? takeLast(found.cut, s, context) : takeOff(context, s.setup, found.cut.name);
    if (edits) yield { title: same ? 'Leave the second out' : `Leave it out of ${s.setup.name}`, safe: false, edits };
  },
};

/** The second of two in one list. */
function takeLast(cut: Cut, s: SetupInTime, context: RuleContext) {
  const rest = { ...s.setup, cuts: s.setup.cuts.map((c) => (c.span === cut.span ? c : { ...c, name: '' })) };
  return takeOff(context, rest, cut.name);
}
