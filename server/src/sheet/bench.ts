/** What is done beside the mill after the set-ups, as lines: a hole on a drill press, or tapped and reamed at the bench. */
import { FACE_PLANE, type Units } from '../model/model';
import { type BenchStep, type BenchWork, benchWork } from '../process/benches';
import { LOW } from '../process/stackup/drawn';
import type { ReadPart } from '../rules/judging';
import type { Words } from './language';
import { num } from './part/numbers';

interface BenchList {
  readonly title: string;
  readonly lines: readonly string[];
}

/** More places than these are on the drawing. */
const MOST_PLACES = 8;

export function benchLists(
  read: ReadPart,
  words: Words,
  called: (name: string) => string = (name) => name,
): readonly BenchList[] {
  const { units } = read.part;
  return benchWork(read).map((work) => {
    const { hole, on, steps, minutes } = work;
    const { bench: b, part } = words;
    const name = called(hole.name);
    const many = hole.places.length > 1 ? `${hole.places.length}× ` : '';
    const time = minutes.map((m) => String(Math.max(1, Math.round(m)))) as [string, string];
    const where =
      on.type === 'press'
        ? [b.markOut(part.faces[hole.face], originOf(work, words), placesOf(work, units, b.more)), b.clamp]
        : [];
    return {
      title: `${many}${on.type === 'press' ? b.onPress(name, on.press.name) : b.atBench(name)}, ${b.minutes(...time)}`,
      lines: [...where, ...steps.map((s) => stepLine(s, work, words, units))],
    };
  });
}

/** Places count from the low faces of the finished part. */
function originOf({ hole }: BenchWork, { part }: Words): string {
  return FACE_PLANE[hole.face].map((axis) => part.faces[LOW[axis]]).join(', ');
}

function placesOf({ hole }: BenchWork, units: Units, more: (n: number) => string): string {
  const [a, b] = FACE_PLANE[hole.face].map((axis) => axis.toUpperCase());
  const told = hole.places.slice(0, MOST_PLACES).map(({ u, v }) => `${a} ${num(u, units)} ${b} ${num(v, units)}`);
  const rest = hole.places.length - told.length;
  return [...told, ...(rest > 0 ? [more(rest)] : [])].join('; ');
}

function stepLine({ operation, rpm }: BenchStep, { hole, on }: BenchWork, words: Words, units: Units): string {
  const { bench: b, setup } = words;
  if (operation.does === 'missing') return b.missing(operation.wanted);
  const deep = b.deep(num(operation.depthMm, units));
  const thread = hole.thread?.spec?.designation ?? hole.thread?.designation ?? '';
  if (operation.does === 'tap')
    return on.type === 'press'
      ? `${operation.tool.name} · ${b.tapPress(thread)}, ${deep}`
      : `${operation.tool.name} · ${b.tap(thread)}, ${deep}; ${b.square}`;
  if (on.type === 'bench') return `${operation.tool.name} · ${b.ream(num(hole.diameter.mm, units))}; ${b.square}`;
  const speed = rpm === undefined ? '' : `, ${b.rpm(String(Math.round(rpm)))}`;
  const ways = operation.does === 'drill' && hole.depth.through ? b.through(num(operation.depthMm, units)) : deep;
  return `${operation.tool.name} · ${setup.does[operation.does]}${speed}, ${ways}`;
}
