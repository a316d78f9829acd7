/** What stands in the extension's and the server's place for a page on its own: the same service in this process, asked by the page's messages. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fromPanel, type ToHost, type ToPanel } from '../../client/view/messages';
import { Pieces } from '../../server/src/geometry/mesh/pieces';
import { WRITERS } from '../../server/src/node/writers';
import { planFor } from '../../server/src/planning/plan-cache';
import { Asker } from '../../server/src/service/asker';
import { exportOf } from '../../server/src/service/export';
import { Pace } from '../../server/src/service/pace';
import type { PartSnapshot } from '../../server/src/service/snapshot';
import type { MeshMaker } from '../../server/src/service/view/mesh-maker';
import { Pictures } from '../../server/src/service/view/pictures';
import type { Moment } from '../../server/src/service/view/protocol';
import { sizesAnswer, typedAnswer } from '../../server/src/service/view/typed';
import { Workspace } from '../../server/src/service/workspace';
import { kernel } from '../geometry/mesh/proof';

const EXAMPLES = join(__dirname, '../../examples/gimbal');
const SHOP = readFileSync(join(EXAMPLES, 'campus.shop.yaml'), 'utf8');
const PATH = '/p/a.part.yaml';

const text = (folder: string, name: string) => readFileSync(join(EXAMPLES, folder, `${name}.part.yaml`), 'utf8');
export const example = (name: string): string => text('parts', name);
export const faulty = (name: string): string => text('faulty', name);

class Maker implements MeshMaker {
  #mesher: Pieces | undefined;
  async make({ body, voids }: Parameters<MeshMaker['make']>[0]) {
    this.#mesher ??= new Pieces(await kernel());
    return this.#mesher.build(body, voids);
  }
  async differing(): Promise<undefined> {}
}

/** One part, as the extension would show it. */
export class PartHost {
  readonly #workspace = new Workspace({
    read: async (path) => (path === '/p/shop.shop.yaml' ? SHOP : undefined),
    list: async () => ['shop.shop.yaml'],
    documents: async () => [],
    log: () => {},
  });
  readonly #pictures = new Pictures(new Maker(), new Asker(new Pace(), undefined));
  #version = 0;
  #moment: Moment | undefined;
  #planned = false;
  /** What the page was told last. */
  #held = '';
  /** What the page said besides. */
  readonly heard: ToHost[] = [];

  constructor(text: string) {
    this.text(text);
  }

  text(text: string): void {
    this.#version++;
    this.#workspace.open(PATH, text);
  }

  /** Another part under the same name, from the beginning. */
  another(text: string): void {
    this.#moment = undefined;
    this.#planned = false;
    this.text(text);
  }

  async snapshot(): Promise<PartSnapshot> {
    return (await this.#workspace.snapshot(PATH)) as PartSnapshot;
  }

  /** What is told to the page for what it said. */
  async answer(message: unknown): Promise<readonly ToPanel[]> {
    const heard = fromPanel(message);
    if (!heard) throw new Error(`the page said ${JSON.stringify(message)}`);
    this.heard.push(heard);
    switch (heard.type) {
      case 'ready':
        this.#held = '';
        return [await this.picture()];
      case 'moment':
        this.#moment = heard.moment;
        this.#planned = heard.planned === true;
        return [await this.picture()];
      case 'measure': {
        const of = { ...(this.#moment && { moment: this.#moment }), planned: this.#planned };
        return [{ type: 'measured', measured: this.#pictures.measure(PATH, { ...heard, ...of }) }];
      }
      case 'sizes':
        return [{ type: 'sizes', sizes: sizesAnswer(await this.snapshot(), heard.feature, this.#version) }];
      case 'typed': {
        const asked = { ...heard, uri: PATH };
        const snapshot = await this.snapshot();
        const answer = typedAnswer(snapshot, asked, this.#version);
        if (!answer || 'why' in answer) return [{ type: 'refused', why: answer?.why ?? '' }];
        const { start, end } = answer.range;
        const [from, to] = [snapshot.lines.offset(start), snapshot.lines.offset(end)];
        this.text(snapshot.text.slice(0, from) + answer.newText + snapshot.text.slice(to));
        return [await this.picture()];
      }
      case 'drawing': {
        const wanted = { uri: PATH, name: 'a.svg', drawing: true };
        const answer = await exportOf(await this.snapshot(), wanted, WRITERS, 'test');
        if (!('base64' in answer)) throw new Error(answer.trouble);
        return [{ type: 'drawing', svg: Buffer.from(answer.base64, 'base64').toString('utf8') }];
      }
      default:
        return [];
    }
  }

  async picture(): Promise<ToPanel> {
    const snapshot = await this.snapshot();
    if (this.#planned) planFor(snapshot.checked);
    const wanted = { ...(this.#moment && { moment: this.#moment }), planned: this.#planned };
    const told = await this.#pictures.told(snapshot, this.#version, wanted, this.#held);
    this.#held = told?.id ?? this.#held;
    return told ? { type: 'told', told } : { type: 'stale', why: 'The text makes no part just now.' };
  }
}
