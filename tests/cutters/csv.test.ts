/** Cutters from tables: RFC 4180 for quotes and ends of lines; the codes are those of ISO 13399, from memory. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../server/src/model/shop';
import { readText } from '../../server/src/text/read';
import { entries, read, reasons } from './read';

describe('cutters from a table', () => {
  it('headed by codes, or by words of the trade, parted by whichever sign', () => {
    const wanted = [
      'em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 13.5, reach: 20, shank: 6, material: carbide }',
    ];
    for (const [sign, decimal] of [
      [',', '.'],
      [';', ','],
      ['\t', ','],
      [';', '.'],
    ] as const) {
      const number = `13${decimal}5`;
      const line = (...cells: string[]) => cells.join(sign);
      const codes = line('kind', 'DC', 'ZEFP', 'APMX', 'LU', 'DMM', 'BMC');
      const words = line(
        'Tool type',
        'Cutting diameter (mm)',
        'No. of flutes',
        'Length of cut',
        'Reach',
        'Shank diameter',
        'Material',
      );
      for (const head of [codes, words])
        assert.deepEqual(
          entries(read(`${head}\r\n${line('End mill', '6', '3', number, '20', '6', 'solid carbide')}\r\n`)),
          wanted,
          head,
        );
    }
  });

  it('reads quotes, ends of lines in them, marks of order and lines above the headings', () => {
    const text = '\ufeffList of the workshop,,\n,,\n"Kind","Dia","Note"\n"end mill, ""short""\nof carbide",8,x\n';
    const result = read(text);
    assert.deepEqual(entries(result), ['em-8: { kind: end-mill, diameter: 8 }']);
    assert.match(result.told.join(), /`Note`/);
    assert.equal(result.rows[0]!.line, 4);
  });

  it('reads inches: by the heading, a column, the cell, as fractions', () => {
    const of = (text: string) => entries(read(text))[0];
    assert.equal(of('kind,DC [in]\ndrill,0.25\n'), 'dr-0.25in: { kind: drill, diameter: 0.25 in }');
    assert.equal(of('kind,DC,unit\ndrill,0.25,inch\n'), 'dr-0.25in: { kind: drill, diameter: 0.25 in }');
    assert.equal(of('kind,DC\ndrill,1/4"\n'), 'dr-0.25in: { kind: drill, diameter: 0.25 in }');
    assert.equal(of('kind,DC\ndrill,1 1/8 in\n'), 'dr-1.125in: { kind: drill, diameter: 1.125 in }');
    assert.equal(entries(read('kind,DC\ndrill,6 mm\n', [], 'in'))[0], 'dr-6-mm: { kind: drill, diameter: 6 mm }');
    const shop = resolveShop(readText(`shop: s\nunits: mm\ntools:\n  ${of('kind,DC [in]\ndrill,1/4\n')}\n`));
    assert.equal(shop.tools[0]!.diameterMm, 6.35);
  });

  it('has a kind of ours for what the trade calls it, and says why of what is none', () => {
    const kinds = {
      'Slot drill': 'end-mill',
      'Ball nose': 'end-mill',
      'NC spotting drill': 'spot-drill',
      'Twist drill': 'drill',
      Kegelsenker: 'countersink',
      Reibahle: 'reamer',
      'Face mill 45': 'face-mill',
      Bohrer: 'drill',
    };
    for (const [word, kind] of Object.entries(kinds))
      assert.match(entries(read(`type;DC\n${word};8\n`)).join() || word, new RegExp(`kind: ${kind},`), word);
    assert.deepEqual(entries(read('type;DC\nBall nose;8\n')), [
      'em-8-r4: { kind: end-mill, diameter: 8, corner-radius: 4 }',
    ]);
    for (const [word, why] of [
      ['Centre drill', /pilot and a cone/],
      ['Step drill', /two diameters/],
      ['ER20 collet', /holds cutters/],
      ['', /kind is not said/],
    ] as const)
      assert.match(reasons(read(`type;DC;X\n${word};8;1\n`)).join(), why, word);
  });

  it('reads threads with their pitch, and the chamfer of taps (DIN 2197, from memory)', () => {
    const of = (cells: string) => entries(read(`kind;TDZ;TP;THCHT\n${cells}\n`))[0] ?? '';
    assert.match(of('tap;M8;1,25;C'), /^tap-m8: .*thread: M8, chamfer: plug/);
    assert.match(of('tap;M8;1;E'), /^tap-m8x1-bottoming: .*thread: M8x1, chamfer: bottoming/);
    assert.match(of('tap;1/4-20 UNC;;'), /^tap-1-4-20-unc: .*thread: 1\/4-20 UNC/);
    assert.match(of('forming tap;M5;0,8;'), /forming: yes/);
    assert.match(reasons(read('kind;TDZ\ntap;M7.3\n')).join(), /does not say thread/);
  });

  it('reads what a cutter is for, and how it goes down: ISO 13399 RMPX', () => {
    const text = 'kind;DC;RMPX\nroughing end mill;16;\nindexable end mill;20;2,5\n';
    assert.deepEqual(entries(read(text)), [
      'em-16-roughing: { kind: end-mill, diameter: 16, roughing: yes }',
      'em-20: { kind: end-mill, diameter: 20, ramp: 2.5, inserts: yes }',
    ]);
    assert.deepEqual(entries(read('kind;DC;TP;LU\nthread mill;16;3;45\n')), [
      'tm-16-p3: { kind: thread-mill, diameter: 16, pitch: 3, reach: 45 }',
    ]);
    // Words have no unit: `yes in` is none.
    assert.deepEqual(entries(read('kind;DC;unit\nroughing end mill;0.5;inch\nball end mill;0.5;inch\n')), [
      'em-0.5in-roughing: { kind: end-mill, diameter: 0.5 in, roughing: yes }',
      'em-0.5in-r0.25in: { kind: end-mill, diameter: 0.5 in, corner-radius: 0.25 in }',
    ]);
    // A profile that is said is not left out: 60° would be another cutter.
    for (const [words, fields] of [
      ['thread mill BSP', 'angle: 55'],
      ['thread mill NPT', 'tapered: yes'],
      ['thread mill, trapezoidal', 'angle: 30'],
      ['external thread mill', 'cuts: outside'],
    ] as const) {
      const [made] = entries(read(`kind;DC;TP;LU\n"${words}";10;2;30\n`));
      assert.ok(made?.includes(`${fields}`), `${words}: ${made}`);
    }
  });

  it('asks for what a kind needs and the row lacks, and makes nothing up', () => {
    const [row] = read('kind;DC;CW\nt-slot cutter;16;8\n').rows;
    assert.deepEqual(row!.lacks, ['neck', 'reach']);
    assert.match(row!.entry!, /neck: "\?"/);
    assert.deepEqual(entries(read('kind;DC;CW\nt-slot cutter;16;8\n')), []);
  });

  it('takes no row that contradicts itself, and no number that may mean two things', () => {
    assert.match(reasons(read('kind;DC;APMX;LU\nend mill;6;20;10\n')).join(), /longer than its reach/);
    assert.match(reasons(read('kind;DC;RE\nend mill;6;5\n')).join(), /half of that is a ball/);
    const [thousand] = read('kind,DC\ndrill,"1,000"\n').rows;
    assert.match(thousand!.told.join(), /thousands or a decimal comma/);
    assert.deepEqual(thousand!.lacks, ['diameter']);
    assert.match(read('kind,DC\ndrill,-3\n').rows[0]!.told.join(), /less than 0/);
    assert.match(read('kind,DC\ndrill,8 furlongs\n').rows[0]!.told.join(), /unit that is not known/);
  });

  it('tells what is there already, in the shop or a line above, and tells two of one size apart', () => {
    const [tool] = resolveShop(
      readText('shop: s\ntools:\n  mine: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 13 }\n'),
    ).tools;
    const head = 'kind;DC;ZEFP;APMX\n';
    const result = read(`${head}end mill;6;3;13\nend mill;6;3;24\nend mill;6;3;24\nend mill;6;4;24\n`, [tool!]);
    assert.deepEqual(
      result.rows.map((r) => [r.name, r.entry === undefined]),
      [
        ['mine', true],
        ['em-6', false],
        ['em-6', true],
        ['em-6-l24', false],
      ],
    );
  });

  it('concludes a kind only where the properties leave one, and says so', () => {
    const drill = read('DC;SIG;LCF;OAL\n8,5;118;75;117\n').rows[0]!;
    assert.match(drill.entry!, /^\{ kind: drill, diameter: 8.5, flute-length: 75, point: 118/);
    assert.match(drill.told.join(), /taken for `drill`/);
    assert.match(reasons(read('DC;SIG\n8;90\n')).join(), /kind is not said/);
  });
});
