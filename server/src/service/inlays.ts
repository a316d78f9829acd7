/**
 * Numbers beside the text that nobody wrote: what an expression comes to, the limits of a fit, the tap drill of a thread,
 * the sizes that a screw's name stands for, how deep `through` is, the tool that decides how a feature is cut.
 */

import type { Feature, Hole, Length, Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import { valuesOf } from '../model/values';
import { shareText, tapsOfHole, threadShare } from '../process/tapping';
import { minutesText, pricedCuts } from '../report/cuts';
import type { CheckedPart } from '../rules/checked-part';
import { fitText } from '../tables/clearance';
import { formatLength, lengthsIn } from '../text/format';
import { isElsewhere, type Span } from '../text/tree';
import { holds } from './lsp';
import { type InlayHint, InlayHintKind, type Range } from './shapes';
import { signed } from './signed';
import type { Snapshot } from './snapshot';

/** A value that needs no working out: a number, with or without its unit and tolerance. */
const PLAIN = /^[-+]?\d*\.?\d+(?:\s*(?:mm|in|deg|°))?(?:\s*(?:±|\+).*|\s+[A-Za-z]{1,2}\d{1,2})?$/;

export function inlaysOf(snapshot: Snapshot, range: Range): InlayHint[] {
  if (snapshot.kind !== 'part') return [];
  const { part, tree } = snapshot.checked;
  const hints: InlayHint[] = [];
  const add = (span: Span, label: string, data: NonNullable<InlayHint['data']> = 'values') => {
    if (isElsewhere(span)) return;
    const position = snapshot.lines.position(tree.locate(span).end);
    if (holds(range, position)) hints.push({ position, label, kind: InlayHintKind.Type, paddingLeft: true, data });
  };
  for (const parameter of part.parameters.values()) {
    const { value, text } = parameter;
    if (!value || PLAIN.test(text.trim())) continue;
    add(
      parameter.valueSpan,
      `= ${value.dimension === 'length' ? formatLength(value.value, part.units) : short(value.value)}`,
    );
  }
  const seen = new Set<string>();
  for (const found of valuesOf({ body: part.body, stock: part.stock, features: part.features })) {
    if (found.type !== 'length' || found.value.from !== undefined) continue;
    const { block, from } = found.value.span;
    const label = lengthLabel(found.value, part);
    if (!label || seen.has(`${block} ${from}`)) continue;
    seen.add(`${block} ${from}`);
    add(found.value.span, label);
  }
  for (const feature of part.features) {
    for (const [span, label] of derived(feature, part, snapshot.checked.shop)) add(span, label, 'sizes');
    // Only what is in sight: cuts are worked out on the way.
    if (holds(range, snapshot.lines.position(tree.locate(feature.kindSpan).end))) {
      const label = decidingLabel(feature, snapshot.checked);
      if (label) add(feature.kindSpan, label, 'cutting');
    }
  }
  return hints.sort((a, b) => a.position.line - b.position.line || a.position.character - b.position.character);
}

/** The tool that decides how the feature is cut (the one that finishes it, or makes its size), and the time of all its cuts. */
function decidingLabel(feature: Feature, checked: CheckedPart): string | undefined {
  const cuts = pricedCuts(feature, checked);
  const missing = cuts.find((c) => c.operation.does === 'missing');
  if (missing?.operation.does === 'missing') return `lacks ${lengthsIn(missing.operation.wanted, checked.part.units)}`;
  const deciding = DECIDES.flatMap((does) => cuts.filter((c) => c.operation.does === does))[0] ?? cuts.at(-1);
  if (!deciding || deciding.operation.does === 'missing') return undefined;
  const all = cuts.reduce<readonly [number, number]>(
    (sum, c) => [sum[0] + c.minutes[0], sum[1] + c.minutes[1]],
    [0, 0],
  );
  return `${deciding.operation.tool.name}, ${minutesText(all)}`;
}
/** Of a feature's cuts, which one sets what it can be: the finishing cutter before the roughing one, the tap before its drill. */
const DECIDES = [
  'finish',
  'undercut',
  'slot',
  'tap',
  'thread',
  'ream',
  'bore',
  'drill',
  'chamfer',
  'round',
  'engrave',
  'rough',
] as const;

function lengthLabel(length: Length, part: Part): string | undefined {
  const { tolerance } = length;
  const limits =
    tolerance?.fit && tolerance.upperMm !== undefined && tolerance.lowerMm !== undefined
      ? `${signed(tolerance.upperMm)} / ${signed(tolerance.lowerMm)} mm`
      : undefined;
  if (PLAIN.test(length.text.trim())) return limits;
  return [`= ${formatLength(length.mm, part.units)}`, limits].filter(Boolean).join('  ');
}

function* derived(feature: Feature, part: Part, shop: Shop): Generator<readonly [Span, string]> {
  const size = (mm: number) => formatLength(mm, part.units);
  if ('depth' in feature && feature.depth?.through) yield [feature.depth.span, `= ${size(feature.depth.mm)}`];
  if ('ring' in feature && feature.ring) yield [feature.ring.span, sealText(feature.ring)];
  if (feature.kind !== 'hole') return;
  yield* threadLabels(feature, size, shop);
  const { counterbore, countersink, clearance, seat } = feature;
  if (seat)
    yield [
      seat.span,
      `${size(feature.diameter.mm)} ${feature.diameter.tolerance?.text ?? ''}, ${playText(seat.playMm)}`,
    ];
  // Where the recess says the screw, its clearance is told with it.
  const own = clearance && clearance.span !== counterbore?.span && clearance.span !== countersink?.span;
  if (clearance && own)
    yield [clearance.span, `${size(feature.diameter.mm)}, ${fitText({ ...clearance, class: clearance.fit })}`];
  const over = clearance && !own ? `, hole ${size(feature.diameter.mm)}` : '';
  if (counterbore?.screw)
    yield [counterbore.span, `diameter ${size(counterbore.diameter.mm)}, ${size(counterbore.depth.mm)} deep${over}`];
  if (countersink?.screw)
    yield [
      countersink.span,
      `diameter ${size(countersink.diameter.mm)}, ${short(countersink.angle.deg)}°${counterbore?.screw ? '' : over}`,
    ];
}

/** The tap drill and the share of the thread it leaves; the length of thread in diameters of the screw. */
function* threadLabels(hole: Hole, size: (mm: number) => string, shop: Shop): Generator<readonly [Span, string]> {
  const spec = hole.thread?.spec;
  if (!hole.thread || !spec) return;
  const share = shareText(threadShare(spec, hole.diameter.mm, tapsOfHole(hole, shop)));
  if (hole.diameterGiven) {
    if (share !== '') yield [hole.diameter.span, share];
  } else {
    const name = spec.tapDrillName ? ` (${spec.tapDrillName})` : '';
    yield [hole.thread.span, `drill ${size(hole.diameter.mm)}${name}${share && `, ${share}`}`];
  }
  const { threadDepth } = hole;
  if (threadDepth && !threadDepth.from) yield [threadDepth.span, `${short1(threadDepth.mm / spec.diameterMm)} × D`];
}

/** `squeezed 20 to 24 %, fills 81 %`. */
function sealText({ squeeze, fill }: { readonly squeeze: readonly [number, number]; readonly fill: number }): string {
  const [least, most] = squeeze.map((share) => Math.round(share * 100));
  return `squeezed ${least} to ${most} %, fills up to ${Math.round(fill * 100)} % of the groove`;
}

/** `play -8 to +8 µm`: under 0 the two press. */
function playText(playMm: readonly [number, number]): string {
  const [least, most] = playMm.map((mm) => `${mm > 0 ? '+' : ''}${Math.round(mm * 1000)}`);
  return `play ${least} to ${most} µm`;
}

function short1(value: number): string {
  return String(Number(value.toFixed(1)));
}

function short(value: number): string {
  return String(Number(value.toFixed(4)));
}
