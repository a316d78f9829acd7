/** `scribeline import`: cutters of a list (ISO 13399, or a table) as tools of a shop, printed or written into it. */
import { basename, dirname, resolve } from 'node:path';
import { entryLine, imported, isNew, type Import as Result } from '../cutters/into-shop';
import { sentences } from '../cutters/told';
import { withTools } from '../cutters/write';
import { resolveShop } from '../model/shop';
import { kindOf } from '../service/documents';
import { readText } from '../text/read';
import { Gate } from './gate';
import { nodeHost } from './host';
import type { ImportCommand } from './import-options';
import { readList } from './read-list';
import { save } from './save';
import type { Terminal } from './terminal';

interface ShopText {
  readonly path: string;
  readonly text: string;
}

interface Told {
  readonly file: string;
  readonly result: Result;
}

/** 0: every row is a tool of the shop; 1: some are not, which is told of each; 2: a list or the shop could not be read or written. */
export async function runImport(command: ImportCommand, terminal: Terminal): Promise<0 | 1 | 2> {
  const shop = command.shop === undefined ? undefined : await shopText(command.shop, terminal);
  if (shop === 'unread') return 2;
  let text = shop?.text ?? 'shop: list\n';
  let status: 0 | 1 | 2 = 0;
  const told: Told[] = [];
  for (const file of command.paths) {
    const list = await readList(resolve(terminal.cwd, file));
    if (typeof list !== 'string') {
      terminal.say(`${file} ${list.why}.`);
      status = 2;
      continue;
    }
    const { units, tools, names } = resolveShop(readText(text));
    const taken = new Set(names.filter((n) => n.of === 'tool').map((n) => n.name));
    const result = imported(list, { units, tools, names: taken });
    told.push({ file, result });
    const unused = result.rows.length === 0 || result.rows.some(({ why }) => why !== undefined);
    if (unused && status === 0) status = 1;
    const next = withTools(text, result.rows);
    if ('why' in next) {
      terminal.say(`${command.shop ?? file} ${next.why}. Nothing was written.`);
      return 2;
    }
    text = next.text;
  }
  if (command.format === 'json') terminal.data(`${JSON.stringify(json(told), undefined, 2)}\n`);
  else tell(told, terminal);
  if (!command.write || !shop) return status;
  return (await written(command, shop, text, terminal)) ?? status;
}

/** 2 where it could not be. */
async function written({ shop: named }: ImportCommand, { path, text }: ShopText, next: string, terminal: Terminal) {
  if (next === text) {
    terminal.say(`${named} has nothing to be added: it was left as it is.`);
    return undefined;
  }
  const gate = new Gate([dirname(path)], terminal.disk);
  const [bytes, over] = [Buffer.from(next, 'utf8'), Buffer.from(text, 'utf8')];
  const why = await save({ path, bytes, over }, gate, terminal.disk);
  terminal.say(why ? `${named} ${why}` : `${named} has them in it.`);
  return why ? 2 : undefined;
}

async function shopText(named: string, terminal: Terminal): Promise<ShopText | 'unread'> {
  const path = resolve(terminal.cwd, named);
  const text =
    kindOf(path) === 'shop'
      ? await nodeHost((line) => terminal.say(line), [dirname(path)]).read(path)
      : { why: 'is no shop file: its name ends in .shop.yaml' };
  if (typeof text === 'string') return { path, text };
  terminal.say(`the shop ${named} ${text?.why ?? 'is not there'}. Correct --shop; nothing was written.`);
  return 'unread';
}

/** Entries to standard output, as a shop has them; what there is to say of each beside them. */
function tell(told: readonly Told[], terminal: Terminal): void {
  const rows = told.flatMap(({ result }) => result.rows);
  if (rows.some((row) => row.entry !== undefined)) terminal.print('tools:');
  for (const row of rows) {
    if (isNew(row)) terminal.print(`  ${entryLine(row)}`);
    else if (row.lacks && row.entry !== undefined)
      terminal.print(`  # ${entryLine(row)} # ask: ${row.lacks.join(', ')}`);
  }
  for (const { file, result } of told) {
    for (const line of result.told) terminal.say(`${file}: ${line}`);
    for (const row of result.rows) for (const line of sentences(row)) terminal.say(`${file}:${row.line}: ${line}`);
  }
}

function json(told: readonly Told[]): object {
  return {
    format: 1,
    files: told.map(({ file, result }) => ({
      path: file,
      name: basename(file),
      tools: result.rows.map((row) => ({
        line: row.line,
        ...(row.id !== undefined && { id: row.id }),
        ...(row.name !== undefined && { tool: row.name }),
        ...(row.entry !== undefined && { entry: row.entry }),
        is: row.why !== undefined ? 'left out' : row.entry === undefined ? 'there already' : 'new',
        ...(row.why !== undefined && { why: row.why }),
        ...(row.lacks && { ask: row.lacks }),
        ...(row.told.length > 0 && { told: row.told }),
        ...(row.assumed.length > 0 && { usual: row.assumed }),
      })),
      told: result.told,
    })),
  };
}
