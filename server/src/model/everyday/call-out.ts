/**
 * A hole as one call-out of a drawing: `Ø5 thru`, `5 x 10 deep`, `M5 tief 10`, `4x Ø5 ↧10`. Order and marks by ISO 129-1 and
 * ASME Y14.5 (from memory); the words are common practice, no source.
 */
import { findThread } from '../../tables/thread-names';
import { parseDimension } from '../../text/dimension';
import { at, type MapEntry, type MapNode } from '../../text/tree';
import { plainDimension, THROUGH } from './dimension';
import { plainWord } from './everyday-words';
import { keyOf, type Reading } from './reading';
import { bareScrew } from './screw-words';

interface CallOut {
  /** The field that gives its size, and its size. */
  readonly size: readonly ['thread' | 'diameter' | 'clearance', string];
  readonly depth?: string;
}

const LEAD = /^(?:hole|drill|bore|tap|thread|ream|bohrung|gewinde|loch|trou|taraudage|agujero|foro)\s*[:,]?\s+/i;
const COUNT = /^\d{1,3}\s*(?:[x×]|off)\s*(?=[øØ⌀∅MmRrDd])/;
const DEPTH =
  /^(.*?)(?:\s*[;↧⌴]\s*|\s*,\s+|\s*[x×]\s*(?=\d)|\s+(?:x\s+|to\s+)?)(?:t\s*=\s*|tief\s+|depth\s+|dp\.?\s*|deep\s+|prof(?:ondeur)?\.?\s+|↧\s*)?(\S.*?)(?:\s*(?:deep|dp\.?|tief|blind|depth|prof\.?))?$/i;

/** Undefined where it says a size alone (but for `alone`), or something that is none of a hole. */
export function callOut(source: string, alone = false): CallOut | undefined {
  const text = source.trim().replace(LEAD, '').replace(COUNT, '');
  const [, before, after] = DEPTH.exec(text) ?? [];
  const size = before && sizeIn(before);
  const depth = after && (THROUGH.test(after) ? 'through' : lengthIn(after));
  if (size && depth && !findThread(text) && !isPitch(size, depth)) return { size, depth };
  const whole = sizeIn(text);
  const isSure = whole && (whole[0] !== 'diameter' || /[øØ⌀∅]/.test(source));
  return whole && ((alone && isSure) || text !== source.trim()) ? { size: whole } : undefined;
}

/** `M5x0.6`: a pitch that is in no table is no depth. */
function isPitch([field, name]: CallOut['size'], depth: string): boolean {
  const nominal = field === 'thread' ? Number(/^m\s*(\d+(?:\.\d+)?)/i.exec(name)?.[1] ?? 0) : 0;
  return Number(depth) < nominal / 2;
}

function sizeIn(text: string): CallOut['size'] | undefined {
  const plain = text.trim();
  if (/^[mM]\s*\d|^\d+\/\d+"?-\d|^#?\d+-\d/.test(plain) && findThread(plain)) return ['thread', plain];
  const screw = bareScrew(plain);
  if (screw !== undefined) return ['clearance', screw];
  const length = lengthIn(plain);
  return length === undefined ? undefined : ['diameter', length];
}

/** A number with its tolerance; no name and no sum. */
function lengthIn(text: string): string | undefined {
  const plain = plainDimension(text, { through: false, angle: false });
  const written = plain ? (plain.texts.length === 1 && !plain.radius ? plain.texts[0]! : '') : text.trim();
  return /^\.?\d/.test(written) && parseDimension(written).ok && !/^\d[\d.]*\s*[-+*/]\s*\d/.test(written)
    ? written
    : undefined;
}

/** A whole feature that is a call-out and nothing else: in the middle of the top, until it is said where. */
export function calledOutAlone(source: string): string | undefined {
  const said = callOut(source, true);
  if (!said) return undefined;
  const [field, text] = said.size;
  return `{ kind: hole, face: top, at: { x: center, y: center }, ${field}: ${text}, depth: ${said.depth ?? 'through'} }`;
}

const KEYS =
  /^(?:diameter|dia|diam|d|size|hole|drill|bore|thread|tap|tapped|clearance|screw|bolt|kind|type|ream|reamed)$/;

/** Its entries as fields of a hole. `depth` only where none is written yet; of a thread with one it is the thread's. */
export function* calledOut(map: MapNode): Generator<Reading> {
  for (const e of map.entries) {
    const key = plainWord(keyOf(e));
    if (!KEYS.test(key) || e.value?.type !== 'scalar') continue;
    const isKind = /^(?:kind|type)$/.test(key);
    const said = callOut(e.value.source, isKind);
    if (!said || (keyOf(e) === 'diameter' && said.depth === undefined && said.size[0] === 'diameter')) continue;
    yield asFields(map, e, said);
    return;
  }
}

function asFields(map: MapNode, e: MapEntry, { size, depth }: CallOut): Reading {
  const [field, text] = size;
  const isThread = field === 'thread';
  const into =
    depth === undefined
      ? undefined
      : !at(map, 'depth')
        ? 'depth'
        : isThread && !at(map, 'thread-depth')
          ? 'thread-depth'
          : undefined;
  const isKind = /^(?:kind|type)$/.test(keyOf(e)) || !(at(map, 'kind') ?? at(map, 'type'));
  const now = `${isKind ? 'kind: hole' : `${field}: ${text}`}`;
  const fields: [string, string][] = [
    ...(isKind ? [[field, text] as [string, string]] : []),
    ...(into ? [[into, depth!] as [string, string]] : []),
  ];
  const all = [now, ...fields.map(([k, v]) => `${k}: ${v}`)].map((t) => `\`${t}\``);
  const says = `Write ${all.length > 1 ? `${all.slice(0, -1).join(', ')} and ${all.at(-1)}` : all[0]}`;
  return {
    message: `Each size of a hole is a field of its own. ${says}.`,
    entries: [e],
    gives: [...(isKind ? ['kind'] : []), field, ...(into ? [into] : [])],
    fixes: [
      { title: says, edits: [{ span: e.span, newText: now }], added: fields.map(([k, v]) => [map, k, v] as const) },
    ],
  };
}
