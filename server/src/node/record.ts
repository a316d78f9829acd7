/** `scribeline record`: what was measured and what it took, beside the part as it is now. Nothing is changed. */
import { dirname, posix, resolve } from 'node:path';
import { resolveRecord } from '../model/record';
import { recordJson, recordLines } from '../report/record/lines';
import { judgeRecord } from '../report/record/record';
import { textsOf } from '../service/paper-texts';
import { Workspace } from '../service/workspace';
import { linesOf } from '../text/lines';
import { readText } from '../text/read';
import type { TextTree } from '../text/tree';
import type { Command } from './arguments';
import { slashed } from './files';
import { nodeHost } from './host';
import { markOf } from './mark';
import { judgeFor } from './shop-option';
import type { Terminal } from './terminal';

type Record = Extract<Command, { name: 'record' }>;

/** 0: every size is within its limits; 1: one is not; 2: something could not be read or is not known. */
export async function runRecord(command: Record, terminal: Terminal): Promise<0 | 1 | 2> {
  const path = resolve(terminal.cwd, command.path);
  const isRecord = /\.record\.ya?ml$/i.test(path);
  const text = isRecord ? await nodeHost((line) => terminal.say(line), [dirname(path)]).read(path) : undefined;
  if (typeof text !== 'string') {
    const why = isRecord ? (text?.why ?? 'is not there') : 'is not a record: the name of one ends in .record.yaml';
    terminal.say(`${command.path} ${why}.`);
    return 2;
  }
  const tree = readText(text);
  const record = resolveRecord(tree);
  const place = placesIn(tree, command.path);
  for (const { message, span } of [...tree.problems, ...record.problems]) terminal.say(`${place(span)} ${message}`);
  if (tree.problems.length + record.problems.length > 0 || !record.part) return 2;
  const partPath = posix.resolve(posix.dirname(slashed(path)), record.part.name);
  const judge = await judgeFor(command.shop, [posix.dirname(partPath)], terminal);
  if (!judge) return 2;
  const workspace = new Workspace(judge.host, judge.set);
  const snapshot = await workspace.snapshot(partPath);
  if (snapshot?.kind !== 'part') {
    terminal.say(
      `${place(record.part.span)} ${record.part.name} ${(await workspace.unread(partPath)) ?? 'is no part'}.`,
    );
    return 2;
  }
  const mark = markOf([terminal.version, ...(await textsOf(snapshot.checked, workspace))]);
  const judged = judgeRecord(record, snapshot.checked, mark);
  for (const { measured, why } of judged.unknown) terminal.say(`${place(measured.span)} ${why}.`);
  if (command.format === 'json') terminal.data(recordJson(command.path, judged));
  else terminal.print(...recordLines(command.path, judged, record));
  if (judged.unknown.length > 0) return 2;
  return judged.sizes.some((s) => s.current && s.outMm !== 0) ? 1 : 0;
}

/** `a.record.yaml:4:7:` */
function placesIn(tree: TextTree, path: string) {
  const lines = linesOf(tree.text);
  return (span: Parameters<TextTree['locate']>[0]) => {
    const { line, character } = lines.position(tree.locate(span).start);
    return `${path}:${line + 1}:${character + 1}:`;
  };
}
