/** Whatever an author wrote, a terminal and a log get lines that only show, as many as were meant, and JSON that reads back. */
import assert from 'node:assert/strict';
import { terminal } from '../../server/src/node/terminal';
import { planOf } from '../../server/src/planning/plan';
import { factsLines } from '../../server/src/report/facts';
import { jobFactsLines } from '../../server/src/report/job';
import { jobFigures } from '../../server/src/report/job-figures';
import { reportJson } from '../../server/src/report/json';
import type { Line } from '../../server/src/report/line';
import { alternativesLines, planLines } from '../../server/src/report/plan';
import { type Reported, reportedOf } from '../../server/src/report/reported';
import { reportSarif } from '../../server/src/report/sarif';
import { reportLines } from '../../server/src/report/text';
import { Workspace } from '../../server/src/service/workspace';
import { assertShows, hostileDocuments, hostileWords } from './hostile';
import { patience, type Random, random, runs } from './runs';

interface Said {
  readonly reported: readonly Reported[];
  readonly lines: readonly Line[];
  readonly documents: string;
}

async function saidOf(r: Random): Promise<Said> {
  const { part, shop, job } = hostileDocuments(r);
  const files: Readonly<Record<string, string>> = {
    '/w/a.part.yaml': part,
    '/w/a.shop.yaml': shop,
    '/w/a.job.yaml': job,
  };
  const workspace = new Workspace({
    read: async (path) => files[path],
    list: async () => Object.keys(files).map((f) => f.slice(3)),
    documents: async () => Object.keys(files),
    log: () => {},
  });
  const reported: Reported[] = [];
  const lines: Line[] = [];
  for (const path of Object.keys(files)) {
    const s = await workspace.snapshot(path);
    assert.ok(s);
    const shown = hostileWords(r) + path;
    const file = { tree: s.checked.tree, lines: s.lines, findings: s.findings };
    reported.push(reportedOf(shown, file, (f) => f.fixes ?? []));
    if (s.kind === 'part') {
      const plan = planOf(s.checked);
      lines.push(...factsLines(shown, s.checked));
      if (plan) lines.push(...planLines(plan, s.checked), ...alternativesLines(s.checked, plan));
    } else if (s.kind === 'job') {
      const pieces = await workspace.piecesOf(path, s.checked.job);
      lines.push(...jobFactsLines(shown, s.checked.job, pieces, false));
      jobFigures(s.checked.job, pieces);
    }
  }
  return { reported, lines: [...lines, ...reportLines(reported)], documents: `${part}\n${shop}\n${job}` };
}

function heard(print: (to: ReturnType<typeof terminal>) => void, colours: boolean): string {
  let out = '';
  const take = (text: string) => {
    out += text;
  };
  print(terminal({ cwd: '/', version: '0', script: '' }, { colours, out: take, err: take }));
  return out;
}

/** ECMA-48 select graphic rendition, as this program writes it. */
const INK = /\u001b\[(?:0|1|2|1;3[136])m/g;
/** What a build server takes for an order: at the start of a line, or anywhere. */
const ORDER = /^\s*::|##\w*\[/;

describe('hostile words in a terminal', function () {
  this.timeout(patience(120_000));
  const said: Said[] = [];
  before(async () => {
    const r = random(81);
    for (let n = 0; n < runs(8); n++) said.push(await saidOf(r));
  });

  it('every line shows, and is one line', () => {
    for (const { lines, documents } of said)
      for (const colours of [false, true]) {
        const out = heard((t) => t.print(...lines), colours).replace(colours ? INK : /$^/, '');
        const shown = out.split('\n');
        assert.equal(shown.pop(), '');
        assert.equal(shown.length, lines.length, documents);
        for (const line of shown) {
          assertShows(line, '\t', documents);
          assert.doesNotMatch(line, ORDER, documents);
        }
      }
  });

  it('so does what is said beside the answer', () => {
    const r = random(82);
    for (let n = 0; n < runs(200); n++) {
      const words = hostileWords(r);
      const lines = heard((t) => t.say(`${words} is not there.`), true) + heard((t) => t.aside(words, words), true);
      assert.equal(lines.split('\n').length, 4, words);
      for (const line of lines.split('\n')) assertShows(line, '\t', words);
    }
  });

  it('the dimension line stands under what is meant, though characters before it are shown by their codes', () => {
    const text = 'title: "\u202e\u2066x" # b\n';
    const span = { block: '', from: text.indexOf('x'), to: text.indexOf('x') + 1 };
    const file = said[0]!.reported[0]!;
    const one = {
      ...file,
      findings: [
        {
          finding: { rule: 'a/b', severity: 'error' as const, message: 'M.', of: [], span, related: [], facts: {} },
          range: { start: { line: 0, character: span.from }, end: { line: 0, character: span.to } },
          related: [],
          fixes: [],
          lineText: text.trimEnd(),
        },
      ],
    };
    const [, line, caret] = heard((t) => t.print(...reportLines([one])), false).split('\n');
    assert.equal(line![caret!.indexOf('|-|') + 1], 'x');
  });

  it('JSON shows, and reads back as what was written', () => {
    for (const { reported, documents } of said) {
      const json = reportJson(reported);
      assertShows(json, '\n', documents);
      const read = JSON.parse(json) as { files: { path: string; findings: { message: string }[] }[] };
      assert.deepEqual(
        read.files.map((f) => [f.path, ...f.findings.map((x) => x.message)]),
        reported.map((f) => [f.path, ...f.findings.map((x) => x.finding.message)]),
      );
    }
  });

  it('SARIF has no link of an author’s in a message', () => {
    // SARIF 2.1.0, 3.11.6: a link is [text](target), brackets that are escaped are letters
    const link = /(?<!\\)(?:\\\\)*\[(?:[^\]\\]|\\.)*\]\([^)]*\)/;
    for (const { reported, documents } of said) {
      const sarif = reportSarif(reported, '0');
      assertShows(sarif, '\n', documents);
      const log = JSON.parse(sarif) as object;
      const texts: string[] = [];
      JSON.stringify(log, (key, value: unknown) => {
        if ((key === 'message' || key === 'description') && typeof value === 'object')
          texts.push((value as { text: string }).text);
        return value;
      });
      assert.ok(texts.length > 0);
      for (const text of texts) {
        assertShows(text, '', documents);
        assert.doesNotMatch(text, link);
      }
    }
  });
});
