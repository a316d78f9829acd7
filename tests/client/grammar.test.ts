/** The colours: which scope each piece of a line gets, by the editor's own tokenizer. */
import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';

const FILE = join(__dirname, '../../client/language/scribeline.tmLanguage.json');

async function load(): Promise<IGrammar> {
  const wasm = readFileSync(join(__dirname, '../../node_modules/vscode-oniguruma/release/onig.wasm'));
  await loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(readFileSync(FILE, 'utf8'), FILE),
  });
  const grammar = await registry.loadGrammar('source.scribeline');
  assert.ok(grammar);
  return grammar;
}

describe('colours', () => {
  let grammar: IGrammar;
  before(async () => {
    grammar = await load();
  });

  /** `text:scope` of every token that has a scope of its own, without the grammar's name. */
  function tokens(text: string): string[] {
    let state = INITIAL;
    const found: string[] = [];
    for (const line of text.split('\n')) {
      const result = grammar.tokenizeLine(line, state);
      state = result.ruleStack;
      for (const { startIndex, endIndex, scopes } of result.tokens) {
        const scope = scopes.at(-1)!.replace(/\.scribeline$/, '');
        const piece = line.slice(startIndex, endIndex).trim();
        if (scopes.length > 1 && piece && !scope.startsWith('punctuation')) found.push(`${piece} → ${scope}`);
      }
    }
    return found;
  }
  const is = (text: string, ...wanted: string[]) => assert.deepEqual(tokens(text), wanted, text);

  const KEY = 'entity.name.tag';
  const NUMBER = 'constant.numeric';
  const UNIT = 'keyword.other.unit';
  const TOLERANCE = 'storage.modifier.tolerance';

  it('tell sections, names of one’s own and keys apart', () => {
    is('features:', `features → ${KEY}.section`);
    is('  bearing-seat:   # flat', 'bearing-seat → entity.name.function', '# flat → comment.line.number-sign');
    is('    depth: 7', `depth → ${KEY}`, `7 → ${NUMBER}`);
    is('    kind: hole', `kind → ${KEY}`, 'hole → entity.name.type');
    is('  dr-4.2: { kind: drill }', `dr-4.2 → ${KEY}`, `kind → ${KEY}`, 'drill → entity.name.type');
  });

  it('read a dimension: number, unit, tolerance', () => {
    is('    depth: 40 ±0.05', `depth → ${KEY}`, `40 → ${NUMBER}`, `±0.05 → ${TOLERANCE}`);
    is('    depth: 40 mm ± 0.05', `depth → ${KEY}`, `40 → ${NUMBER}`, `mm → ${UNIT}`, `± 0.05 → ${TOLERANCE}`);
    is('    depth: 40 +0.1/-0', `depth → ${KEY}`, `40 → ${NUMBER}`, `+0.1/-0 → ${TOLERANCE}`);
    is('    diameter: 22 H7', `diameter → ${KEY}`, `22 → ${NUMBER}`, `H7 → ${TOLERANCE}`);
    is('    diameter: 22 mm h6', `diameter → ${KEY}`, `22 → ${NUMBER}`, `mm → ${UNIT}`, `h6 → ${TOLERANCE}`);
    is('    size: 1/4 in', `size → ${KEY}`, `1/4 → ${NUMBER}`, `in → ${UNIT}`);
    is('    size: 1 3/4 in', `size → ${KEY}`, `1 3/4 → ${NUMBER}`, `in → ${UNIT}`);
    is('    feed: 3000 mm/min', `feed → ${KEY}`, `3000 → ${NUMBER}`, `mm/min → ${UNIT}`);
    is('    torque: 14 N·m', `torque → ${KEY}`, `14 → ${NUMBER}`, `N·m → ${UNIT}`);
  });

  it('read arithmetic with names and functions', () => {
    is(
      '    depth: pitch / 2 + 3 mm',
      `depth → ${KEY}`,
      'pitch → variable.other',
      '/ → keyword.operator.arithmetic',
      `2 → ${NUMBER}`,
      '+ → keyword.operator.arithmetic',
      `3 → ${NUMBER}`,
      `mm → ${UNIT}`,
    );
    is(
      '    at: { x: body.x - 12, y: sin(30) }',
      `at → ${KEY}`,
      `x → ${KEY}`,
      'body.x → variable.other',
      '- → keyword.operator.arithmetic',
      `12 → ${NUMBER}`,
      `y → ${KEY}`,
      'sin → support.function',
      `30 → ${NUMBER}`,
    );
  });

  it('know threads from numbers', () => {
    is('    thread: M5', `thread → ${KEY}`, 'M5 → constant.other.thread');
    is('    thread: M8x1', `thread → ${KEY}`, 'M8x1 → constant.other.thread');
    is('    thread: 1/4-20 UNC', `thread → ${KEY}`, '1/4-20 UNC → constant.other.thread');
    is('    thread: 10-24 UNC', `thread → ${KEY}`, '10-24 UNC → constant.other.thread');
  });

  it('show a swallowed thread as the comment that YAML takes it for', () => {
    is('    thread: #10-24', 'thread → entity.name.function', '#10-24 → comment.line.number-sign');
  });

  it('know faces and what is not one', () => {
    is('    face: top', `face → ${KEY}`, 'top → constant.language');
    is('    cuts: [left, top-pocket]', `cuts → ${KEY}`, 'left → constant.language', 'top-pocket → variable.other');
    is('    depth: through', `depth → ${KEY}`, 'through → constant.language');
  });

  it('leave free text alone', () => {
    is('title: Block 22 H7, top', `title → ${KEY}`, 'Block 22 H7, top → string.unquoted');
    is('title: Block # a remark', `title → ${KEY}`, 'Block → string.unquoted', '# a remark → comment.line.number-sign');
    is(
      '  - { rule: hole/depth-ratio, of: mount, because: drill no 7 is borrowed }',
      `rule → ${KEY}`,
      'hole/depth-ratio → entity.name.type',
      `of → ${KEY}`,
      'mount → variable.other',
      `because → ${KEY}`,
      'drill no 7 is borrowed → string.unquoted',
    );
    const quoted = 'string.quoted.double';
    is('    text: "GIMBAL # 7"', `text → ${KEY}`, `" → ${quoted}`, `GIMBAL # 7 → ${quoted}`, `" → ${quoted}`);
  });

  it('end block text where its indentation ends', () => {
    is(
      '    note: |\n      depth: 7\n\n      top\n    depth: 8',
      `note → ${KEY}`,
      '| → keyword.control.block-text',
      'depth: 7 → string.unquoted.block',
      'top → string.unquoted.block',
      `depth → ${KEY}`,
      `8 → ${NUMBER}`,
    );
  });

  it('do not take a # inside a word for a comment', () => {
    assert.ok(!tokens('    note: C#4').some((t) => t.includes('comment')));
  });
});
