/**
 * How long one waits for texts that cost much: for the first findings, for all of them, and for an answer about another
 * document meanwhile; each beside a bare parse of the same text in a process of its own.
 */
import { execFileSync, spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { CLI, Client } from '../server/client';

const ROOT = resolve(__dirname, '../..');
const OTHER = 'file:///bench/other.part.yaml';
const SMALL = 'part: other\nunits: mm\nbody: { x: 40, y: 30, z: 10 }\n';

interface Waits {
  /** Opening to first findings, in a server that has just started, ms. */
  readonly firstMs: number;
  readonly allMs: number;
  /** Answers about another document, asked one after the other meanwhile, ms. */
  readonly others: readonly number[];
  readonly findings: number;
  /** The most that the server took with its threads; none where it cannot be told. */
  readonly megabytes?: number;
}

/** The first parse in a process that has just started: what the server has to do as cold. */
export function bareParse(text: string, folder: string): number {
  const file = join(folder, 'slow.part.yaml');
  writeFileSync(file, text);
  const program = `
    const { parseDocument } = require('yaml');
    const text = require('fs').readFileSync(${JSON.stringify(file)}, 'utf8');
    const start = performance.now(); parseDocument(text); console.log(performance.now() - start);`;
  const times = Array.from({ length: 3 }, () =>
    Number(execFileSync(process.execPath, ['-e', program], { cwd: ROOT, encoding: 'utf8' })),
  );
  return times.sort((a, b) => a - b)[1]!;
}

export async function waitsFor(text: string): Promise<Waits> {
  const eager = await opened(text, true);
  await eager.client.stop();
  // One that cannot be asked to ask again is answered when all is known.
  const patient = await opened(text, false);
  const megabytes = peakMb(patient.client.child.pid!);
  await patient.client.stop();
  const { ms: allMs, others, findings } = patient;
  return { firstMs: eager.ms, allMs, others, findings, ...(megabytes !== undefined && { megabytes }) };
}

interface Opened {
  readonly client: Client;
  readonly ms: number;
  readonly others: readonly number[];
  readonly findings: number;
}

/** Opens the text in a server of its own and waits for its findings, asking about another document all the while. */
async function opened(text: string, refreshes: boolean): Promise<Opened> {
  const client = await Client.start({ refreshes });
  const uri = 'file:///bench/slow.part.yaml';
  client.open(OTHER, SMALL);
  await client.diagnostics(OTHER);
  const others: number[] = [];
  let done = false;
  const asking = (async () => {
    while (!done) {
      const begun = performance.now();
      await client.connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri: OTHER } });
      others.push(performance.now() - begun);
      await new Promise((next) => setTimeout(next, 3));
    }
  })();
  const begun = performance.now();
  client.open(uri, text);
  const found = await client.diagnostics(uri);
  const ms = performance.now() - begun;
  done = true;
  await asking;
  return { client, ms, others, findings: found.length };
}

/** Of a process that still runs: the most memory it ever held. */
function peakMb(pid: number): number | undefined {
  try {
    const kb = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return kb === undefined ? undefined : Number(kb) / 1024;
  } catch {
    return undefined;
  }
}

/** The most memory that `check` of one text takes; none where it cannot be told. */
export async function checkPeakMb(text: string, folder: string): Promise<number | undefined> {
  const file = join(folder, 'heavy.part.yaml');
  writeFileSync(file, text);
  const child = spawn(process.execPath, [CLI, 'check', file, '--format', 'json'], { stdio: 'ignore' });
  let most: number | undefined;
  const look = setInterval(() => {
    most = peakMb(child.pid!) ?? most;
  }, 20);
  await new Promise((left) => child.once('exit', left));
  clearInterval(look);
  return most;
}
