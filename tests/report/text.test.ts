import assert from 'node:assert/strict';
import { type Reported, reportedOf } from '../../server/src/report/reported';
import type { Finding } from '../../server/src/rules/kit/rule';
import { linesOf } from '../../server/src/text/lines';
import { readText } from '../../server/src/text/read';
import { reportText } from './told';

/** A finding on the marked stretch of a text: `«…»`. */
function reported(marked: string, over: Partial<Finding> = {}): Reported {
  const from = marked.indexOf('«');
  const to = marked.indexOf('»') - 1;
  const text = marked.replace('«', '').replace('»', '');
  const finding: Finding = {
    rule: 'wall/thin',
    severity: 'error',
    message: 'Only 0.4 mm.',
    of: ['a'],
    span: { block: '', from, to },
    related: [],
    facts: {},
    ...over,
  };
  return reportedOf('parts/a.part.yaml', { tree: readText(text), lines: linesOf(text), findings: [finding] }, () => []);
}

describe('the report as text', () => {
  it('place, severity, rule; the line, with a dimension line under what is meant; the message', () => {
    assert.equal(
      reportText([reported('part: a\nbody: { x: «60», y: 4 } # note\n')]),
      [
        'parts/a.part.yaml:2:12: error wall/thin',
        '  2  body: { x: 60, y: 4 } # note',
        '               |<>|',
        '  Only 0.4 mm.',
        '',
        '1 file checked: 1 error, 0 warnings, 0 hints.',
        '',
      ].join('\n'),
    );
  });

  it('the dimension line stands under its text also behind tabs, Windows line ends and wide letters', () => {
    const lines = reportText([reported('part: a\r\n\ttitle: «é»\r\n')]).split('\n');
    assert.equal(lines[1], '  2  \ttitle: é');
    assert.equal(lines[2], '     \t      |-|');
    assert.equal(reportText([reported('part: a\n\t«title»: b\n')]).split('\n')[2], '     \t<--->');
  });

  it('a long line is shown round the place, no wider than a screen', () => {
    const [, line, mark] = reportText([reported(`part: a\ntitle: ${'x'.repeat(5000)}«Y»${'z'.repeat(5000)}\n`)]).split(
      '\n',
    );
    assert.ok(line!.length < 180);
    assert.equal(line![mark!.indexOf('|-|') + 1], 'Y');
  });

  it('a finding over several lines is marked to the end of its first', () => {
    const lines = reportText([reported('part: a\nbody: «{ x: 60,\n  y: 4 }»\n')]).split('\n');
    assert.equal(lines[2], '          |<------>|');
  });

  it('an empty stretch still gets its mark', () => {
    assert.match(reportText([reported('part: «»\n')]), / \|-\|\n/);
  });

  it('nothing of the document speaks to the terminal', () => {
    const sequence = '\u001b]0;gotcha\u0007';
    const text = reportText([reported(`part: a\ntitle: «${sequence}»\n`, { message: `There is no ${sequence}.` })]);
    assert.ok(!/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/.test(text));
  });

  it('colours only where they are asked for, and all of them end', () => {
    const file = reported('part: «a»\n');
    assert.ok(!reportText([file]).includes('\u001b'));
    const inked = reportText([file], true);
    assert.match(inked, /\u001b\[1;31merror\u001b\[0m/);
    assert.equal(inked.split('\u001b[0m').length, inked.split(/\u001b\[[1-9]/).length);
  });

  it('related places and fixes follow, by line', () => {
    const file = reported('part: «a»\nbody: 1\n', {
      related: [{ span: { block: '', from: 8, to: 12 }, message: 'the other side' }],
    });
    assert.match(reportText([file]), /^ {2}line 2: the other side$/m);
  });

  it('what there is and what is needed stand side by side, then the change', () => {
    const message = 'Pocket a leaves 0.4 mm. At least 0.8 mm is needed. Make it 0.4 mm narrower.';
    const lines = reportText([reported('part: «a»\n', { message, has: '0.4 mm', needs: '0.8 mm' })]).split('\n');
    assert.deepEqual(lines.slice(3, 6), [
      '  Pocket a leaves 0.4 mm. At least 0.8 mm is needed.',
      '  has 0.4 mm                  needs 0.8 mm',
      '  change: Make it 0.4 mm narrower.',
    ]);
    assert.match(reportText([reported('part: «a»\n', { needs: '0.8 mm' })]), /^ {2,}needs 0\.8 mm$/m);
  });

  it('counts in the singular and the plural', () => {
    const file = reported('part: «a»\n');
    const warning = reported('part: «a»\n', { severity: 'warning' });
    assert.match(reportText([file, warning, file]), /3 files checked: 2 errors, 1 warning, 0 hints\.\n$/);
    assert.match(reportText([]), /0 files checked\.\n$/);
  });
});
