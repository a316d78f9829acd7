/** A screwed or pinned joint as the rules look at it: its layers, its rows, worked out once. */
import { memo } from '../../memo';
import type { Joint, Pinned, Screwed } from '../../model/joint-model';
import { type Layer, layersOf, type MetHole, type Pieces, spotsOf } from '../../process/joints/layers';
import { type Gripped, grippedBy } from '../../process/joints/lengths';
import { type Rows, rowsOf, type WithSpots } from '../../process/joints/rows';

export interface Assembled extends Rows {
  readonly layers: readonly Layer[];
}

/** Undefined where fewer parts are known than it joins. */
export const assembled = memo(
  (joint: Screwed | Pinned, pieces: Pieces, joints: readonly Joint[], withinMm: number): Assembled | undefined => {
    const layers = layersOf(meetingsOf(joint), pieces);
    const named = new Set(meetingsOf(joint).map((m) => m.piece.name));
    if (layers.length === 0 || new Set(layers.map((l) => l.piece.name)).size < named.size) return undefined;
    const more = marked(joint, layers, pieces, joints);
    const withSpots = layers.map((layer, i): WithSpots => ({ layer, ...(more?.[i] && { more: more[i] }) }));
    return { layers, ...rowsOf(joint, withSpots, withinMm) };
  },
  { owners: 2 },
);

function meetingsOf(joint: Screwed | Pinned) {
  return joint.kind === 'screw' ? [...joint.through, ...joint.into] : joint.in;
}

/** The holes of the joint that this one is to agree with, part by part; undefined where they are not of the same parts. */
function marked({ with: other }: Screwed | Pinned, layers: readonly Layer[], pieces: Pieces, joints: readonly Joint[]) {
  const joint = other && joints.find((j) => j.name === other.name);
  if (joint?.kind !== 'screw' && joint?.kind !== 'pin') return undefined;
  const theirs = layersOf(meetingsOf(joint), pieces);
  const found = layers.map(({ piece, holes }) => {
    const same = theirs.find((l) => l.piece === piece && l.holes[0]?.hole.face === holes[0]?.hole.face);
    return same && spotsOf(same, 'with');
  });
  return found.every((spots) => spots?.length === found[0]?.length) ? found : undefined;
}

/** What each screw of the joint grips; one that leans is left out. */
export function gripsOf(joint: Screwed, { layers, rows }: Assembled): readonly Gripped[] {
  const found = rows.flatMap((row: readonly MetHole[]) => {
    const at = row.map((hole, i) => ({ layer: layers[i]!, hole }));
    return grippedBy(joint, at) ?? [];
  });
  const seen = new Map(found.map((g) => [`${g.gripMm.toFixed(4)} ${g.threadMm.toFixed(4)} ${g.stopMm.toFixed(4)}`, g]));
  return [...seen.values()];
}
