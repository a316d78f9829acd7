/** From a record's text to the record: sizes as they came out, minutes as they were. What names mean is known with its part only. */
import type { Span } from '../text/tree';
import { at, type MapNode, scalarAt, type TextTree } from '../text/tree';
import { isSound, judgeTop } from './header';
import type { Named, SpecProblem, Units } from './model';
import { measured, recordSchema, spent } from './schema/record';
import { Fields } from './shop-fields';
import type { ShopTimes } from './shop-times';

export interface Measured {
  /** Absent: a size of the body. */
  readonly of?: Named;
  readonly size: Named;
  readonly piece?: number;
  readonly valueMm: number;
  /** By its name in the shop. */
  readonly tool?: Named;
  readonly speed?: number;
  /** Of the paper it was made by. */
  readonly mark?: string;
  readonly span: Span;
}

interface SpentTime {
  readonly what: Exclude<keyof ShopTimes, 'given'>;
  readonly minutes: number;
}

export interface PartRecord {
  /** As written, from the record's folder. */
  readonly part?: Named;
  readonly units: Units;
  readonly measured: readonly Measured[];
  readonly times: readonly SpentTime[];
  readonly changed: readonly string[];
  readonly problems: readonly SpecProblem[];
}

/** Never throws; what could not be understood is left out and named in `problems`. */
export function resolveRecord(tree: TextTree): PartRecord {
  const { root } = tree;
  const fields = new Fields(scalarAt(root, 'units')?.source === 'in' ? 'in' : 'mm');
  judgeTop(fields, recordSchema, root, 'A record', 'record');
  const part = scalarAt(root, 'record');
  return {
    ...(part && { part: { name: part.source.trim().replaceAll('\\', '/'), span: part.span } }),
    units: fields.units,
    measured: entriesOf(root, 'measured').flatMap((node) => readMeasured(fields, node) ?? []),
    times: entriesOf(root, 'times').flatMap((node) => readTime(fields, node) ?? []),
    changed: listOf(root, 'changed').flatMap((node) => (node.type === 'scalar' ? [node.source] : [])),
    problems: fields.problems,
  };
}

function listOf(root: MapNode | undefined, key: string) {
  const node = at(root, key);
  return node?.type === 'list' ? node.items : [];
}

function entriesOf(root: MapNode | undefined, key: string): readonly MapNode[] {
  return listOf(root, key).flatMap((node) => (node.type === 'map' ? [node] : []));
}

function readMeasured(fields: Fields, node: MapNode): Measured | undefined {
  if (!isSound(fields, measured, node, 'A measured size', node.span)) return undefined;
  const value = scalarAt(node, 'value');
  const valueMm = value && fields.lengthOf(value, 'value', 'from 0');
  const size = scalarAt(node, 'size');
  if (valueMm === undefined || !size) return undefined;
  const named = (key: string): Named | undefined => {
    const found = scalarAt(node, key);
    return found && { name: found.source, span: found.span };
  };
  const [of, tool] = [named('of'), named('tool')];
  const piece = fields.number(node, 'piece', 1, true);
  const speed = fields.number(node, 'speed', 0);
  const mark = fields.word(node, 'mark');
  return {
    size: { name: size.source, span: size.span },
    valueMm,
    ...(of && { of }),
    ...(tool && { tool }),
    ...(piece !== undefined && { piece }),
    ...(speed !== undefined && { speed }),
    ...(mark !== undefined && { mark }),
    span: node.span,
  };
}

function readTime(fields: Fields, node: MapNode): SpentTime | undefined {
  if (!isSound(fields, spent, node, 'A time', node.span)) return undefined;
  const seconds = fields.quantity(node, 'took', 'time', 'min');
  const what = scalarAt(node, 'what')?.source;
  return seconds === undefined || what === undefined
    ? undefined
    : { what: what as SpentTime['what'], minutes: seconds / 60 };
}
