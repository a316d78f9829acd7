/** A thread on a boss: it gives the boss its diameter, with the limits of the screw's class. */
import { formOf, isUnified, type Thread } from '../../tables/thread-form';
import { majorLimits } from '../../tables/thread-limits';
import { findThread, nearbyThreads } from '../../tables/thread-names';
import { writeLength } from '../../text/format';
import { at, type MapNode, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import type { Depth, Length } from '../base';
import type { Head } from '../resolve/base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';
import { code, listed, quote, replace } from '../resolve/problem';
import { type BossUndercut, bossUndercut } from './boss-undercut';

export interface BossThread {
  /** With its class: `M8 6g`. */
  readonly designation: string;
  readonly span: Span;
  readonly spec: Thread;
  /** Of full thread, from the boss's end. */
  readonly deep: Length;
  readonly undercut?: BossUndercut;
}

/** A die stops short of the shoulder: run-out x1 of ISO 3508, from memory. */
const RUN_OUT_PITCHES = 2.5;

/** What `thread` makes of a boss: its size, and the thread but for its length. */
export function bossThread(
  work: Evaluation,
  map: MapNode,
): { readonly diameter: Length; readonly thread: Omit<BossThread, 'deep'> } | undefined {
  const node = scalarAt(map, 'thread');
  if (!node) return undefined;
  const written = textOf(node).trim();
  const named = /[\s-]+((?:[3-9][a-zA-Z]){1,2}|[1-3][ABab])$/.exec(written)?.[1];
  const spec = findThread(written);
  if (!spec) return unknown(work, node, written);
  if (formOf(spec).name !== '60°' || spec.screw)
    return work.fail(
      `A boss takes metric and unified threads. Write its \`diameter\`, and ${quote(written)} in a \`note\`.`,
      node.span,
    );
  const usual = isUnified(spec) ? '2A' : '6g';
  const known = isUnified(spec) ? named?.toUpperCase() : named;
  const limits = majorLimits(spec, known ?? usual);
  if (!limits)
    return work.fail(
      `${quote(known ?? '')} is no class of a screw thread here. Write \`${usual}\`, the usual one.`,
      node.span,
      { fixes: [replace(node.span, `${spec.designation} ${usual}`)] },
    );
  const signed = (mm: number) => `${mm > 0 ? '+' : ''}${Number(mm.toFixed(3))}`;
  const designation = `${spec.designation} ${known ?? usual}`;
  const tolerance = { text: `${signed(limits.upperMm)}/${signed(limits.lowerMm)}`, span: node.span, ...limits };
  const diameter = {
    mm: spec.diameterMm,
    text: writeLength(spec.diameterMm, work.doc.units),
    span: node.span,
    from: `the outside of ${designation}`,
    tolerance,
  };
  return { diameter, thread: { designation, span: node.span, spec } };
}

function unknown(work: Evaluation, node: ScalarNode, written: string): undefined {
  const near = nearbyThreads(written).map((t) => t.designation);
  const write = near.length > 0 ? `${listed(code(near))}, the nearest` : 'it like `M8`, `M8x1 6g` or `1/4-20 UNC-2A`';
  work.remark(`The tables have no thread ${quote(written)}. Write ${write}.`, node.span, {}, 'thread/unknown');
  work.broken = true;
  return undefined;
}

/** How long the thread is: as written, else up to its undercut, or as far as a die comes. */
export function bossThreadDepth(
  work: Evaluation,
  map: MapNode,
  head: Head,
  depth: Depth,
  spec: Thread,
): Pick<BossThread, 'deep' | 'undercut'> | undefined {
  const written = work.length(map, 'thread-depth');
  const undercut = bossUndercut(work, map, { spec, depth, diameterMm: spec.diameterMm });
  if (work.broken) return undefined;
  if (written && written.mm > depth.mm)
    return work.fail(
      `The thread is longer than the boss. Make \`thread-depth\` \`${depth.length?.text ?? depth.mm}\` or less.`,
      written.span,
    );
  const upTo = depth.mm - (undercut?.width.mm ?? 0);
  if (undercut && written && written.mm > upTo + ROUNDING)
    return work.fail(
      `The thread runs over its undercut. Make \`thread-depth\` \`${writeLength(upTo, work.doc.units)}\` or less, or delete it.`,
      written.span,
    );
  if (at(map, 'thread-depth') && !written) return undefined;
  if (undercut)
    return { deep: written ?? unwritten(upTo, head.span, 'no `thread-depth` is given: up to its undercut'), undercut };
  if (written) return { deep: written };
  const full = Math.max(0, depth.mm - (depth.through ? 0 : RUN_OUT_PITCHES * spec.pitchMm));
  const from = `no \`thread-depth\` is given: to ${RUN_OUT_PITCHES} pitches from the shoulder`;
  return { deep: unwritten(full, head.span, from) };
}
