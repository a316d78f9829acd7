/** Comparisons as files: a page of its own, or Markdown with pictures beside it. */
import { basename, dirname, join, resolve } from 'node:path';
import type { Held } from '../page/compared';
import type { ComparedPicture } from '../service/view/protocol';
import type { Command } from './arguments';
import { textOf } from './compare-text';
import { Gate } from './gate';
import { sharedMeshes } from './mesher';
import { save } from './save';
import type { Terminal } from './terminal';

type Asked = Pick<Extract<Command, { name: 'compare' }>, 'after' | 'format' | 'to'> & {
  readonly titles: ComparedPicture['titles'];
};
interface File {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** 0: written, the page and what stands beside it; 2: something was not. */
export async function writeComparison(all: readonly Held[], asked: Asked, terminal: Terminal): Promise<0 | 2> {
  const { format, to } = asked;
  const [page, ...beside] = format === 'md' ? await markdownFiles(all, asked) : [await oneFile(all, asked, terminal)];
  if (to === undefined) {
    terminal.print(...new TextDecoder().decode(page!.bytes).trimEnd().split('\n'));
    return 0;
  }
  const gate = new Gate([dirname(resolve(terminal.cwd, to))], terminal.disk);
  // The pictures first: the page that names them is never there without them.
  for (const { path, bytes } of [...beside, page!]) {
    const why = await save({ path: resolve(terminal.cwd, path), bytes, over: 'anything' }, gate, terminal.disk);
    if (why) {
      terminal.say(`${path} ${why}`);
      return 2;
    }
    terminal.print(path);
  }
  if (format === 'html') terminal.say(`${to}: ${(await paper()).sizeNote(page!.bytes)}`);
  return 0;
}

/** Loaded when it is asked for. */
const paper = () => import('./page-door');
const bytes = (text: string) => new TextEncoder().encode(text);

async function oneFile(all: readonly Held[], asked: Asked, terminal: Terminal): Promise<File> {
  const { format, to = '', titles } = asked;
  if (format !== 'html') return { path: to, bytes: bytes(`${textOf(all, format).join('\n')}\n`) };
  const { comparedPage, pageKit } = await paper();
  const title = all.length === 1 ? `${all[0]!.compared.path}, compared` : 'Parts, compared';
  const told = { title, creator: `Scribeline ${terminal.version}`, titles };
  return { path: to, bytes: bytes(comparedPage(await drawn(all), told, await pageKit())) };
}

/** With the shapes of what is in both, so far as they can be drawn. */
async function drawn(all: readonly Held[]): Promise<readonly Held[]> {
  const { shapesOf } = await paper();
  const made: Held[] = [];
  for (const [i, held] of all.entries()) {
    const { sides, compared } = held;
    const differs = 'change' in compared && (!compared.change.same || all.length === 1);
    made.push(sides && differs ? { ...held, shapes: await shapesOf(sides, sharedMeshes(), `compared ${i}`) } : held);
  }
  return made;
}

/** The page, then a picture of each part that differs. */
async function markdownFiles(all: readonly Held[], { to = '' }: Asked): Promise<readonly File[]> {
  const stem = basename(to).replace(/\.[^.]+$/, '');
  const pictures = new Map<Held, File & { readonly title: string }>();
  const { changedFaces, isWhole, pairOf, viewsSvg } = await paper();
  const whole = await drawn(all);
  for (const held of whole) {
    if (!isWhole(held) || held.compared.change.same) continue;
    const title = `${held.compared.path}: went and came`;
    const svg = viewsSvg(pairOf(held), { show: 'both', faces: changedFaces(held), title, prefix: '' });
    const name = held.sides.after.checked.part.name.replace(/[^\w-]/g, '_');
    const path = join(dirname(to), `${stem}-${pictures.size + 1}-${name}.svg`);
    if (svg !== undefined) pictures.set(held, { path, bytes: bytes(`${svg}\n`), title });
  }
  const text = textOf(whole, 'md', (held) => {
    const made = pictures.get(held);
    return made ? [{ title: made.title, file: basename(made.path) }] : [];
  });
  return [{ path: to, bytes: bytes(`${text.join('\n')}\n`) }, ...pictures.values()];
}
