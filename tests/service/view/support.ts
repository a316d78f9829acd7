/** Pictures without a server or a thread: the same mesher, in this process. */
import { differing } from '../../../server/src/geometry/mesh/differing';
import { Pieces } from '../../../server/src/geometry/mesh/pieces';
import { Asker } from '../../../server/src/service/asker';
import { Pace } from '../../../server/src/service/pace';
import type { PartSnapshot } from '../../../server/src/service/snapshot';
import type { MeshMaker } from '../../../server/src/service/view/mesh-maker';
import { Pictures } from '../../../server/src/service/view/pictures';
import type { Moment, PartPicture } from '../../../server/src/service/view/protocol';
import { Workspace } from '../../../server/src/service/workspace';
import { kernel } from '../../geometry/mesh/proof';

const here: MeshMaker = {
  async make({ body, voids }) {
    const mesher = new Pieces(await kernel());
    try {
      return mesher.build(body, voids);
    } finally {
      mesher.dispose();
    }
  },
  differing: async (before, after) => differing(await kernel(), before, after, 0.02),
};

export interface Taken {
  readonly picture: PartPicture;
  readonly snapshot: PartSnapshot;
  readonly pictures: Pictures;
}

/** `text` as version 1 of a part; `shop` beside it where given. */
export async function pictureOfText(text: string, moment?: Moment, shop?: string): Promise<Taken | undefined> {
  const workspace = new Workspace({
    read: async (path) => (path === '/p/shop.shop.yaml' ? shop : undefined),
    list: async () => (shop === undefined ? [] : ['shop.shop.yaml']),
    documents: async () => [],
    log: () => {},
  });
  const path = '/p/a.part.yaml';
  workspace.open(path, text);
  const snapshot = (await workspace.snapshot(path)) as PartSnapshot;
  const pictures = new Pictures(here, new Asker(new Pace(), undefined));
  const picture = await pictures.picture(snapshot, 1, moment ? { moment } : {});
  return picture ? { picture, snapshot, pictures } : undefined;
}

/** Of the triangles in a picture, mm³. */
export function shownVolume({ mesh }: PartPicture): number {
  const floats = (text: string) => new Float32Array(new Uint8Array(Buffer.from(text, 'base64')).buffer);
  const at = floats(mesh.positions);
  const triangles = new Uint32Array(new Uint8Array(Buffer.from(mesh.triangles, 'base64')).buffer);
  let six = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [3 * triangles[i]!, 3 * triangles[i + 1]!, 3 * triangles[i + 2]!];
    six +=
      at[a]! * (at[b + 1]! * at[c + 2]! - at[b + 2]! * at[c + 1]!) +
      at[a + 1]! * (at[b + 2]! * at[c]! - at[b]! * at[c + 2]!) +
      at[a + 2]! * (at[b]! * at[c + 1]! - at[b + 1]! * at[c]!);
  }
  return six / 6;
}
