/** Reading what a shop has beside its mills: drill presses, and the bench. */
import { entry, type MapEntry, type MapNode, mapAt, type Span } from '../text/tree';
import { isSound } from './header';
import { quote } from './resolve/problem';
import { bench, drillPress, USUAL_BENCH, USUAL_PRESS } from './schema/benches';
import type { Fields } from './shop-fields';
import { sound } from './shop-sound';

export interface DrillPress {
  readonly name: string;
  readonly span: Span;
  readonly largestMm: number;
  readonly throatMm: number;
  readonly openingMm: number;
  readonly strokeMm: number;
  /** Slowest first. */
  readonly rpm: readonly number[];
  readonly powerW: number;
  readonly placeMm: number;
  readonly leanDeg: number;
}

export interface Bench {
  readonly largestTapMm?: number;
  readonly largestReamerMm?: number;
  readonly leanDeg: number;
}

/** One drill press; undefined, its problems told, where a field is missing or wrong. */
export function readDrillPress(fields: Fields, entry: MapEntry): DrillPress | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, drillPress, entry, `Drill press ${quote(name)}`);
  if (!node) return undefined;
  const assume = (field: string, value: number, unit: string) =>
    fields.assume(
      { of: `drill-presses/${name}`, span: entry.key.span, field },
      value,
      'common practice, no source',
      unit,
    );
  const [largestMm, throatMm, openingMm, strokeMm] = ['largest', 'throat', 'opening', 'stroke'].map((key) =>
    fields.size(node, key),
  );
  const speeds = entryList(node).flatMap((item) =>
    item.type === 'scalar' ? (fields.numberOf(item, 'rpm', 1) ?? []) : [],
  );
  if (!largestMm || !throatMm || !openingMm || !strokeMm || speeds.length === 0) return undefined;
  return {
    name,
    span: entry.span,
    largestMm,
    throatMm,
    openingMm,
    strokeMm,
    rpm: [...speeds].sort((a, b) => a - b),
    powerW: fields.quantity(node, 'power', 'power') ?? assume('power', USUAL_PRESS.powerW, ' W'),
    placeMm: fields.lengthFrom0(node, 'place-error') ?? assume('place-error', USUAL_PRESS.placeMm, ' mm'),
    leanDeg: fields.angle(node, 'lean', 0, 45) ?? assume('lean', USUAL_PRESS.leanDeg, '°'),
  };
}

function entryList(node: MapNode) {
  const list = entry(node, 'rpm')?.value;
  return list?.type === 'list' ? list.items : [];
}

/** Undefined where none is told of. */
export function readBench(fields: Fields, root: MapNode | undefined): Bench | undefined {
  const node = entry(root, 'bench');
  if (!node?.value) return undefined;
  isSound(fields, bench, node.value, '`bench`', node.key.span);
  const map = mapAt(root, 'bench');
  const [largestTapMm, largestReamerMm] = ['largest-tap', 'largest-reamer'].map((key) => fields.size(map, key));
  const assumed = { of: 'bench', span: node.key.span, field: 'lean' };
  const leanDeg =
    fields.angle(map, 'lean', 0, 45) ?? fields.assume(assumed, USUAL_BENCH.leanDeg, 'common practice, no source', '°');
  return {
    ...(largestTapMm !== undefined && { largestTapMm }),
    ...(largestReamerMm !== undefined && { largestReamerMm }),
    leanDeg,
  };
}
