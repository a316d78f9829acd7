/** The house's order: an import goes down the floors, never up, and Node stays at the doors. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';

const ROOT = resolve(__dirname, '../..');
const SOURCE = join(ROOT, 'server/src');
/** From the ground up. A floor may import itself and those before it; `text` and `tables` stand on the first three alone. */
const FLOORS = [
  'effort.ts',
  'drawers.ts',
  'memo.ts',
  'tolerance.ts',
  'text',
  'tables',
  'model',
  'geometry',
  'process',
  'rules',
  'planning',
  'report',
  'export',
  'sheet',
  'compare',
  'cutters',
  'service',
  'page',
  'lsp',
  'browser',
  'node',
  'program.ts',
  'server.ts',
  'cli.ts',
];
const BASE = new Set(['drawers.ts', 'effort.ts', 'memo.ts', 'tolerance.ts']);
const GROUND = new Set(['text', 'tables']);
const DOORS = new Set(['browser', 'node', 'server.ts', 'cli.ts']);

interface Import {
  readonly file: string;
  readonly target: string;
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((e) =>
    e.isDirectory() ? filesBelow(join(folder, e.name)) : e.name.endsWith('.ts') ? [join(folder, e.name)] : [],
  );
}

function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8');
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\s[^'"]*?from\s+['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)|(?:^|\n)\s*import\s+['"]([^'"]+)['"]/g,
  );
  return [...found].map((m) => ({ file, target: (m[1] ?? m[2] ?? m[3])! }));
}

function floorOf(path: string): string {
  const first = relative(SOURCE, path).split('/')[0]!;
  return FLOORS.includes(first) ? first : `${first}.ts`;
}

const all = filesBelow(SOURCE);
const imports = all.flatMap(importsOf);

describe('the house', () => {
  it('has a floor for every file', () => {
    for (const file of all) assert.ok(FLOORS.includes(floorOf(file)), `${relative(ROOT, file)} is on no known floor`);
  });

  it('imports go down, never up', () => {
    const wrong = imports.flatMap(({ file, target }) => {
      if (!target.startsWith('.')) return [];
      const to = resolve(dirname(file), target);
      if (!to.startsWith(SOURCE))
        return DOORS.has(floorOf(file)) ? [] : [`${relative(ROOT, file)} reaches outside: ${target}`];
      const [from, onto] = [floorOf(file), floorOf(to)];
      const allowed =
        from === onto || BASE.has(onto) || (!GROUND.has(from) && FLOORS.indexOf(onto) < FLOORS.indexOf(from));
      return allowed ? [] : [`${relative(ROOT, file)} (${from}) imports ${target} (${onto})`];
    });
    assert.deepEqual(wrong, []);
  });

  it('a topic of rules imports what topics share, and no other topic', () => {
    const topicOf = (path: string) => /^rules\/([^/]+)\//.exec(relative(SOURCE, path))?.[1];
    const wrong = imports.flatMap(({ file, target }) => {
      const topic = topicOf(file);
      if (!topic || !target.startsWith('.')) return [];
      const to = resolve(dirname(file), target);
      if (!relative(SOURCE, to).startsWith('rules/') || ['kit', topic].includes(topicOf(to) ?? '')) return [];
      const [from, onto] = [file, to].map((p) => relative(join(SOURCE, 'rules'), p).replace(/\.ts$/, ''));
      return [`${from} → ${onto}`];
    });
    assert.deepEqual(wrong, []);
  });

  it('makes rules and findings in the frame (rules/kit/define.ts) and nowhere else', () => {
    const rule = /export const \w+: Rule = (?!defineRule\()/;
    // Not one that is passed on in another shape, with the severity that it has.
    const finding = /\brule: [^{}\n;]+,\s*(?:\/\/[^\n]*\s*)?severity(?:,|: '|: [^,\n]* \? ')/;
    const wrong = all
      .map((f) => ({ name: relative(SOURCE, f), text: readFileSync(f, 'utf8') }))
      .filter(({ name, text }) => name !== 'rules/kit/define.ts' && (rule.test(text) || finding.test(text)))
      .map(({ name }) => name);
    assert.deepEqual(wrong, []);
    assert.match("export const x: Rule = { name: '' }", rule);
    assert.match("{\n rule: 'a/b',\n severity: 'hint',", finding);
  });

  it('keeps Node and the screen at their doors', () => {
    const wrong = imports.flatMap(({ file, target }) => {
      const floor = floorOf(file);
      if (DOORS.has(floor)) return [];
      return target.startsWith('node:') || target === 'vscode' ? [`${relative(ROOT, file)} imports ${target}`] : [];
    });
    for (const file of all) {
      if (DOORS.has(floorOf(file))) continue;
      const text = readFileSync(file, 'utf8')
        .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')
        .replace(/(['"`])(?:\\.|(?!\1)[^\\])*\1/g, '""');
      const used =
        /\b(?:process\.(?:env|argv|cwd|std|exit|nextTick|hrtime|memoryUsage|on\b)|Buffer\.|require\(|setTimeout\(|setInterval\(|console\.|window\.|document\.(?:body|createElement))/.exec(
          text,
        );
      if (used) wrong.push(`${relative(ROOT, file)} uses ${used[0]}`);
    }
    assert.deepEqual(wrong, []);
  });

  it('speaks to the terminal through its door only', () => {
    const doors = new Set(['cli.ts', 'node/terminal.ts']);
    const wrong = all
      .filter((f) => !doors.has(relative(SOURCE, f)) && /\bprocess\.std(?:out|err)\b/.test(readFileSync(f, 'utf8')))
      .map((f) => relative(SOURCE, f));
    assert.deepEqual(wrong, []);
  });

  it('speaks to the editor’s windows, and into the view’s page, as words only', () => {
    const messages = /\bwindow\.(?:show(?:Information|Warning|Error)Message|withProgress|setStatusBarMessage)\b/;
    const markup = /\b(?:innerHTML|outerHTML|insertAdjacentHTML|document\.write|createContextualFragment)\b/;
    const wrong = filesBelow(join(ROOT, 'client')).filter((f) => {
      const text = readFileSync(f, 'utf8');
      return markup.test(text) || (messages.test(text) && !f.endsWith(join('src', 'notices.ts')));
    });
    assert.deepEqual(wrong, []);
  });

  it('knows the protocol in one folder', () => {
    const knowing = imports.filter((i) => i.target.startsWith('vscode-languageserver'));
    assert.deepEqual([...new Set(knowing.map((i) => floorOf(i.file)))], ['lsp']);
  });

  it('reads and writes files in one folder', () => {
    const files = imports.filter((i) => /^node:fs(?:$|\/)/.test(i.target));
    assert.deepEqual([...new Set(files.map((i) => floorOf(i.file)))], ['node']);
  });

  it('only text sees the yaml package, only the model sees zod', () => {
    const wrong = imports.filter(
      (i) =>
        (i.target === 'yaml' && floorOf(i.file) !== 'text') || (/^zod\b/.test(i.target) && floorOf(i.file) !== 'model'),
    );
    assert.deepEqual(wrong, []);
  });

  it('the check itself sees what it should', () => {
    assert.ok(imports.length > 50);
    assert.ok(imports.some((i) => i.target === 'yaml'));
    assert.ok(imports.some((i) => i.target.startsWith('node:') && floorOf(i.file) === 'node'));
  });

  it('keeps every file short enough to read in one sitting', () => {
    const long = all
      .map((f) => ({ f: relative(ROOT, f), lines: readFileSync(f, 'utf8').split('\n').length - 1 }))
      .filter((x) => x.lines > 400);
    assert.deepEqual(long, []);
  });

  it('speaks of nothing that is not the project', () => {
    const said = [...all, ...filesBelow(join(ROOT, 'client'))].filter((f) =>
      /\.\.\/shared\/design|\/work\/|\bAI agent\b/.test(readFileSync(f, 'utf8')),
    );
    assert.deepEqual(said, []);
  });
});
