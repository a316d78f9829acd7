/** Words of the command line: every command parses them in one way. */
import assert from 'node:assert/strict';
import { readArguments, renamed } from '../../server/src/node/arguments';
import { helpOf } from '../../server/src/node/help';
import { UsageError } from '../../server/src/node/options';

const WHOLE: readonly (readonly string[])[] = [
  ['check', 'a.part.yaml'],
  ['plan', 'a.part.yaml'],
  ['export', 'a.part.yaml', '--to', 'a.step'],
  ['sheet', 'a.part.yaml', '--to', 'a.pdf'],
  ['job', 'a.job.yaml'],
  ['record', 'a.record.yaml'],
  ['compare', 'a.part.yaml', 'b.part.yaml'],
  ['git', 'on'],
  ['tell', 'a.part.yaml'],
  ['merge', 'base', 'ours', 'theirs'],
  ['why', 'wall/thin'],
  ['new', 'yoke'],
  ['serve', '--stdio'],
];
const refusal = (words: readonly string[]) => {
  try {
    readArguments(words);
  } catch (error) {
    assert.ok(error instanceof UsageError);
    return error.message;
  }
  return undefined;
};

describe('words of the command line', () => {
  for (const words of WHOLE) {
    const [command = ''] = words;
    it(`${command}: --no-color anywhere`, () => {
      for (let i = 1; i <= words.length; i++) {
        // Not between an option and its value.
        if (words[i - 1] === '--to') continue;
        const more = [...words.slice(0, i), '--no-color', ...words.slice(i)];
        const { color: _, ...read } = readArguments(more) as { readonly name: string; readonly color?: boolean };
        const { color: __, ...plain } = readArguments(words) as { readonly name: string; readonly color?: boolean };
        assert.deepEqual(read, plain);
      }
    });
    if (command === 'serve') continue;
    it(`${command}: --help, an unknown option, a word too few`, () => {
      assert.deepEqual(readArguments([command, '--help']), { name: 'help', of: command });
      const told = helpOf(command);
      assert.ok(told.some((line) => line.startsWith(`  ${command} `)) && told.length < helpOf().length, command);
      assert.match(refusal([...words, '--colour'])!, new RegExp(`^${command} has no option --colour\\. It has `));
      assert.match(refusal([command])!, new RegExp(`^${command} needs `));
    });
  }
  it('git takes on or off, and merge three files', () => {
    assert.match(refusal(['git', 'up'])!, /git is one of on, off/);
    assert.match(refusal(['merge', 'a', 'b'])!, /three files/);
    assert.match(refusal(['merge', 'a', 'b', 'c', 'd'])!, /three files/);
  });
  it('old words are read, and the new ones told', () => {
    assert.deepEqual(readArguments(['explain', 'hold/let-go']), { name: 'why', rule: 'hold/let-go' });
    assert.deepEqual(renamed(['explain', 'hold/let-go']), [
      'explain is now called why.',
      'hold/let-go is now called hold/cut-free.',
    ]);
    assert.deepEqual(renamed(['check', 'a', '--max-warnings=3']), ['--max-warnings is now called --allow-warnings.']);
  });
});
