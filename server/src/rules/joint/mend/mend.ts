/** A change that may cure what was found of a joint, before it is tried: in the job's text, in those of its parts, or in both. */
import type { Joint } from '../../../model/joint-model';
import type { Length, Part } from '../../../model/model';
import type { MetHole, Piece } from '../../../process/joints/layers';
import { setText } from '../../../text/edit';
import { at, type MapNode, scalarAt, type TextTree } from '../../../text/tree';
import { scalarText } from '../../../text/write';
import { setLength } from '../../kit/edits';
import type { SpanEdit } from '../../kit/rule';
import type { JointContext } from '../context';

export interface Mend {
  readonly title: string;
  /** No part changes, and the joint is made with the same things: another length of the same screw. */
  readonly safe: boolean;
  readonly job: readonly SpanEdit[];
  readonly parts: readonly { readonly piece: Piece; readonly edits: readonly SpanEdit[] }[];
}

export interface MendContext extends JointContext {
  /** The job's text. */
  readonly tree: TextTree;
}

/** Of the job alone. */
export function inJob(
  { tree }: MendContext,
  joint: Joint,
  [key, text]: readonly [key: string, text: string],
  { title, safe }: Pick<Mend, 'title' | 'safe'>,
): Mend | undefined {
  const map = at(at(tree.root, 'joints'), joint.name);
  const job = map?.type === 'map' ? setText(tree, map, key, quotedAs(tree, map, key, text)) : [];
  return job.length > 0 ? { title, safe, job, parts: [] } : undefined;
}

/** In the quotes in which it stands now. */
function quotedAs(tree: TextTree, map: MapNode, key: string, text: string): string {
  const old = scalarAt(map, key);
  const quote = old && tree.text[tree.locate(old.span).start];
  const isPlain = !text.includes('"') && !text.includes("'") && !text.includes('\\');
  return isPlain && (quote === '"' || quote === "'") ? `${quote}${text}${quote}` : scalarText(text);
}

/** Of one part alone; undefined where it cannot be written. */
export function inPart(
  piece: Piece,
  title: string,
  edits: SpanEdit | readonly SpanEdit[] | undefined,
): Mend | undefined {
  const all = edits === undefined ? [] : 'span' in edits ? [edits] : edits;
  return all.length > 0 ? { title, safe: false, job: [], parts: [{ piece, edits: all }] } : undefined;
}

/** Both at once; undefined where one of them cannot be written. */
export function joined(title: string, one: Mend | undefined, other: Mend | undefined): Mend | undefined {
  return one && other && { title, safe: false, job: [...one.job, ...other.job], parts: [...one.parts, ...other.parts] };
}

/** Each feature once, whichever of its places are named. */
export function ownHoles(holes: readonly MetHole[]): readonly MetHole['hole'][] {
  return [...new Set(holes.map((h) => h.hole))];
}

/** A length with another tolerance, in its author's way of writing it. */
export function withTolerance(length: Length, tolerance: string, part: Part, mm = length.mm): SpanEdit | undefined {
  const { tolerance: old, ...plain } = length;
  const value = old ? { ...plain, text: length.text.slice(0, length.text.lastIndexOf(old.text)).trimEnd() } : plain;
  const edit = setLength(value, mm, part);
  return edit && { ...edit, newText: `${edit.newText} ${tolerance}` };
}
