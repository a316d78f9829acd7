/** The part view's side of the server: a picture from nothing, after one edit, and the memory of many. */
import { performance } from 'node:perf_hooks';
import { arraysOf } from '../../client/view/decode';
import { type Arrays, joined } from '../../server/src/geometry/mesh/joined';
import { type HeldPicture, heldAfter } from '../../server/src/service/view/held';
import type { Moment, ToldPicture } from '../../server/src/service/view/protocol';
import { Client } from '../server/client';
import { residentMb } from './keystroke';
import { plate } from './parts';

interface ViewTimes {
  /** Opening → picture in a server that has just started. */
  readonly coldMs: number;
  /** Change → picture, with the connection and reading the answer. */
  readonly edits: readonly number[];
  readonly triangles: number;
  readonly megabytes: number;
  /** Resident memory of server and thread after the first fifth of the edits and after all of them; none where it cannot be told. */
  readonly memory?: { readonly early: number; readonly late: number };
}

/** Asks as the view does, and holds what the view holds. */
class Viewed {
  held: HeldPicture<Arrays> | undefined;
  #told: ToldPicture | undefined;

  constructor(
    private readonly client: Client,
    private readonly uri: string,
  ) {}

  /** All of the mesh as it is drawn. */
  async picture(moment?: Moment): Promise<Arrays> {
    const asked = { uri: this.uri, ...(moment && { moment }), held: this.held?.id ?? '' };
    const told = await this.client.connection.sendRequest<ToldPicture | null>('scribeline/picture', asked);
    this.#told = told ?? undefined;
    this.held = told ? heldAfter(told, this.held, arraysOf) : undefined;
    if (!this.held) throw new Error('no picture');
    return joined(this.held.pieces, this.held.names);
  }

  /** What the last answer was long. */
  get bytes(): number {
    return JSON.stringify(this.#told).length;
  }
}

export async function viewTimes(count: number, edits: number): Promise<ViewTimes> {
  const client = await Client.start();
  const uri = 'file:///bench/plate.part.yaml';
  const viewed = new Viewed(client, uri);
  const picture = () => viewed.picture();
  const begun = performance.now();
  client.open(uri, plate(count));
  const first = await picture();
  const coldMs = performance.now() - begun;
  const firstBytes = viewed.bytes;
  const times: number[] = [];
  let early: number | undefined;
  for (let i = 0; i < edits; i++) {
    const text = client.text(uri);
    const all = [...text.matchAll(/depth: \d[\d.]*$/gm)];
    const match = all[Math.floor(all.length / 2)]!;
    const before = text.slice(0, match.index).split('\n');
    const start = { line: before.length - 1, character: before[before.length - 1]!.length };
    const range = { start, end: { line: start.line, character: start.character + match[0].length } };
    const at = performance.now();
    client.edit(uri, [{ range, newText: `depth: ${(4 + (i % 9) * 0.25).toFixed(2)}` }]);
    await picture();
    times.push(performance.now() - at);
    if (i === Math.floor(edits / 5)) early = residentMb(client.child.pid!);
  }
  const late = residentMb(client.child.pid!);
  await client.stop();
  return {
    coldMs,
    edits: times.slice(Math.min(30, Math.floor(edits / 5))),
    triangles: first.triangles.length / 3,
    megabytes: firstBytes / 1e6,
    ...(early !== undefined && late !== undefined ? { memory: { early, late } } : {}),
  };
}

/** The plate with all of its top in one set-up, under clamps at two corners. */
function clampedPlate(count: number): string {
  const text = plate(count);
  const names = [...text.matchAll(/^ {2}([\w-]+):.*\n {4}kind: \w[\w-]*\n {4}face: top/gm)].map((m) => m[1]!);
  const hold = '{ clamps: [{ left: 6, front: 6 }, { right: 6, back: 6 }], on: table }';
  return `${text}setups:\n  first: { up: top, hold: ${hold}, cuts: [${names.join(', ')}] }\n`;
}

/** From one pass of a set-up to the next, with the connection and reading the answer: all of them in turn, once the first is there. */
export async function stepTimes(count: number): Promise<readonly number[]> {
  const client = await Client.start();
  const uri = 'file:///bench/clamped.part.yaml';
  const viewed = new Viewed(client, uri);
  const shown = (pass?: number) => viewed.picture({ setup: 0, when: 'after', ...(pass && { pass }) });
  try {
    client.open(uri, clampedPlate(count));
    await shown();
    const passes = viewed.held?.picture.setups[0]?.passes?.length ?? 0;
    if (passes < count / 2) throw new Error(`only ${passes} passes`);
    const times: number[] = [];
    for (let round = 0; round < 2; round++)
      for (let pass = 1; pass <= passes; pass++) {
        const at = performance.now();
        await shown(pass);
        if (round > 0) times.push(performance.now() - at);
      }
    return times;
  } finally {
    await client.stop();
  }
}
