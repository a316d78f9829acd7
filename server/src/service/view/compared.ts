/** Two parts as the view shows them side by side: their meshes, the material that went and came, and what changed, as a list. */
import type { Place, Section } from '../../compare/entries';
import { base64Of } from '../../geometry/mesh/base64';
import type { Differing, Lumps } from '../../geometry/mesh/differing';
import { entry, type TextNode } from '../../text/tree';
import { rangeOf } from '../lsp';
import type { Range } from '../shapes';
import { type JobSnapshot, type PartSnapshot, partShowing } from '../snapshot';
import type { MadeMesh, MeshMaker } from './mesh-maker';
import { pictured } from './picture';
import type { ComparedPicture, PartPicture, PictureChange, PictureLumps, Side } from './protocol';
import { wholly } from './told';

export type Sides = { readonly [S in Side]: PartSnapshot };

/** What is drawn of both. */
export interface Shapes {
  readonly before?: MadeMesh;
  readonly after?: MadeMesh;
  readonly differing?: Differing;
}

/** `model`: a name of its own for this pair, so that it makes no other order needless. */
export async function shapesOf(sides: Sides, maker: MeshMaker, model: string): Promise<Shapes> {
  const of = ({ checked: { part, solid } }: PartSnapshot, side: Side) =>
    part.body ? maker.make({ model: `${model}#${side}`, body: solid.body, voids: solid.voids }) : undefined;
  const [a, b] = [sides.before.checked, sides.after.checked];
  const [before, after, differing] = await Promise.all([
    of(sides.before, 'before'),
    of(sides.after, 'after'),
    a.part.body && b.part.body ? maker.differing(a.solid, b.solid) : undefined,
  ]);
  return { ...(before && { before }), ...(after && { after }), ...(differing && { differing }) };
}

/** `changes` as `changesOf` lists them. */
export function comparedPicture(
  sides: Sides,
  shapes: Shapes,
  told: Pick<ComparedPicture, 'titles' | 'verdict' | 'changes'>,
): ComparedPicture {
  const { differing } = shapes;
  const [before, after] = [plainPicture(sides.before, shapes.before), plainPicture(sides.after, shapes.after)];
  return {
    name: sides.after.checked.part.name,
    ...told,
    ...(before && { before }),
    ...(after && { after }),
    ...(differing && { went: lumps(differing.went), came: lumps(differing.came) }),
  };
}

/** The list of what changed, each with its place in the text. */
export function changesOf(sections: readonly Section[], sides: Sides): readonly PictureChange[] {
  return sections.flatMap(({ title: section, entries }) =>
    entries.map(({ word = '', text, before, after, at }): PictureChange => {
      const range = at && placeIn(sides[at.side], at);
      return { section, word, text, before, after, ...(at && range && { line: { side: at.side, range } }) };
    }),
  );
}

/** Where it stands, as near as the text has it. */
export function placeIn(snapshot: PartSnapshot | JobSnapshot, at: Place): Range | undefined {
  if ('of' in at) return rangeOf(snapshot, at.of.span);
  let node: TextNode | undefined = snapshot.checked.tree.root;
  let found: ReturnType<typeof entry>;
  for (const key of at.path) {
    const next = entry(node, key);
    if (!next) break;
    found = next;
    node = next.value;
  }
  return found && rangeOf(snapshot, found.key.span);
}

function plainPicture(snapshot: PartSnapshot, made: MadeMesh | undefined): PartPicture | undefined {
  if (!made) return undefined;
  const { voids } = snapshot.checked.solid;
  return wholly(pictured(partShowing(snapshot, []), { version: 0, made, voids }, { setups: [], summary: '' }));
}

function lumps({ points, triangles, volumeMm3, boxes }: Lumps): PictureLumps {
  const middles = boxes.map(({ min, max }) => [0, 1, 2].map((i) => (min[i]! + max[i]!) / 2));
  return {
    points: base64Of(points),
    triangles: base64Of(triangles),
    volumeMm3,
    middles: middles as unknown as PictureLumps['middles'],
  };
}
