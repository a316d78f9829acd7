/** A part as a whole: head, body, stock, parameters, units, and the worked example of the format's page. */
import assert from 'node:assert/strict';
import { EXAMPLES } from '../../server/generate/format-prose';
import type { Part } from '../../server/src/model/model';
import { block, marked, partOf, places, round } from './read';

const messages = (text: string) => marked(text).map((p) => p.message);

describe('the example of the format’s page', () => {
  const part = partOf(EXAMPLES.part.trimStart());
  const feature = (name: string) => part.featureByName.get(name)!;

  it('is understood without fault', () => {
    assert.deepEqual(part.problems, []);
    assert.equal(part.broken.size, 0);
  });

  it('has its head', () => {
    assert.deepEqual(
      [
        part.name,
        part.title,
        part.revision,
        part.shopPath?.name,
        part.units,
        part.material?.name,
        part.quantity,
        part.tolerance?.name,
      ],
      [
        'bearing-block',
        'Elevation bearing block',
        'B',
        '../campus.shop.yaml',
        'mm',
        'aluminium-6061-t6',
        4,
        'ISO 2768-m',
      ],
    );
  });

  it('has its body and stock', () => {
    assert.deepEqual(part.size, [60, 40, 16]);
    assert.equal(part.body?.form, 'box');
    assert.deepEqual(
      [
        part.stock.written,
        part.stock.form,
        part.stock.sawn.map((s) => s.name),
        part.stock.extra.left?.mm,
        part.stock.extra.right?.mm,
        part.stock.extra.top,
      ],
      [true, 'flat-bar', ['left', 'right'], 1.5, 1.5, undefined],
    );
  });

  it('has its parameters', () => {
    const pitch = part.parameters.get('pitch');
    assert.deepEqual([pitch?.value, pitch?.text, pitch?.used], [{ dimension: 'number', value: 36 }, '36', true]);
  });

  it('has its features, worked out', () => {
    assert.deepEqual(
      part.features.map((f) => [f.name, f.kind, f.face, f.startMm, places(f)]),
      [
        ['bearing-seat', 'hole', 'top', 0, [[30, 20]]],
        ['shaft-clearance', 'hole', 'top', 7, [[30, 20]]],
        [
          'mount',
          'hole',
          'front',
          0,
          [
            [12, 8],
            [48, 8],
          ],
        ],
        ['lightening', 'pocket', 'bottom', 0, [[14, 20]]],
        ['edge-break', 'chamfer', 'top', 0, [[0, 0]]],
      ],
    );
    const clearance = feature('shaft-clearance');
    assert.equal(clearance.kind === 'hole' && clearance.depth.mm, 9);
  });

  it('has its datums and tolerances', () => {
    assert.deepEqual(
      [...part.datums].map(([letter, d]) => [letter, d.target.name]),
      [
        ['A', 'bottom'],
        ['B', 'front'],
        ['C', 'bearing-seat'],
      ],
    );
    assert.deepEqual(
      part.tolerances.map((t) => [t.characteristic, t.value.mm, t.of.map((o) => o.name), t.datums.map((d) => d.name)]),
      [
        ['position', 0.1, ['mount'], ['A', 'B', 'C']],
        ['flatness', 0.05, ['bottom'], []],
      ],
    );
  });

  it('has its setups', () => {
    const [first, second] = part.setups!;
    assert.deepEqual(
      [
        first?.name,
        first?.up?.name,
        first?.hold?.type,
        first?.hold?.vise?.name,
        first?.hold?.jaws?.map((j) => j.name),
        first?.hold?.grip?.mm,
        first?.hold?.stop?.name,
      ],
      ['first', 'top', 'vise', 'mill-vise-100', ['front', 'back'], 6, 'left'],
    );
    assert.deepEqual(
      first?.cuts.map((c) => c.name),
      ['bearing-seat', 'shaft-clearance', 'right'],
    );
    assert.deepEqual([second?.zero.x?.name, second?.zero.y?.name, second?.zero.z?.name], ['left', 'back', 'parallels']);
    assert.deepEqual(
      part.accept.map((a) => [a.rule.name, a.of?.name, a.because]),
      [['hole/depth-ratio', 'mount', 'long-series drill is borrowed']],
    );
  });
});

describe('a body', () => {
  it('may use itself and parameters', () => {
    const part = partOf('part: a\nparameters: { w: 30 }\nbody: { x: 2 * w, y: body.x - 20, z: body.y / 4 + 1 mm }\n');
    assert.deepEqual(part.problems, []);
    assert.deepEqual(part.size, [60, 40, 11]);
  });

  it('may be round', () => {
    const part = partOf('part: a\nbody: { diameter: 30, length: 20 }\n');
    assert.deepEqual(part.size, [30, 30, 20]);
    assert.deepEqual(part.body?.form === 'round' && part.body.axis, 'z');
    // Nothing written: the stock is the body.
    assert.deepEqual(
      [part.stock.written, part.stock.form, part.stock.diameter?.mm, part.stock.axis],
      [false, 'round-bar', 30, 'z'],
    );
    assert.deepEqual(partOf('part: a\nbody: { diameter: 30, length: 20, axis: y }\n').size, [30, 20, 30]);
  });

  it('that makes no sense is told once', () => {
    assert.deepEqual(messages('part: a\nbody: { x: «0», y: «-5», z: 5 }\n'), [
      '`x` is 0 mm. Make it more than 0, like `5`.',
      'A size has no sign. Write `y: 5`.',
    ]);
    assert.deepEqual(messages('part: a\n«body»: { x: 5, y: 3 }\n'), [
      '`body` needs `z`: size up. Write it like `z: 16`.',
    ]);
    assert.deepEqual(messages('«part»: a\n'), ['A part needs `body`. Write it like `body: { x: 60, y: 40, z: 16 }`.']);
    assert.match(
      messages('part: a\nbody: { x: body.y, y: «body.x», z: 5 }\n')[0]!,
      /go in a circle: `body.x` → `body.y` → `body.x`/,
    );
  });

  it('that is broken leaves what does not need it', () => {
    const part = partOf(
      'part: a\nbody: { x: 60, y: 4o, z: 16 }\nfeatures:\n  a: { kind: hole, face: top, at: { x: 3, y: 4 }, diameter: 3, depth: 5 }\n  b: { kind: hole, face: top, at: { x: 3, back: 4 }, diameter: 3, depth: 5 }\n',
    );
    assert.equal(part.body, undefined);
    assert.deepEqual(part.size, [0, 0, 0]);
    assert.deepEqual(
      part.features.map((f) => f.name),
      ['a'],
    );
    assert.deepEqual([...part.broken], ['b']);
    assert.equal(part.problems.length, 1);
  });
});

describe('a stock', () => {
  it('of round bar has a diameter', () => {
    const head = 'part: a\nbody: { x: 20, y: 20, z: 30 }\n';
    const part = partOf(`${head}stock: { form: round-bar, diameter: 30, axis: z, extra: { top: 1, bottom: 1 } }\n`);
    assert.deepEqual(
      [part.stock.form, part.stock.diameter?.mm, part.stock.axis, part.stock.extra.top?.mm],
      ['round-bar', 30, 'z', 1],
    );
    assert.deepEqual(messages(`${head}«stock»: { form: round-bar }\n`), [
      'Round bar needs its `diameter`. Write it like `diameter: 40`.',
    ]);
    assert.deepEqual(messages(`${head}stock: { form: plate, diameter: «30» }\n`), [
      '`diameter` belongs to round bar and tube; a plate has its sizes from the body and `extra`. Delete it.',
    ]);
    assert.equal(messages(`${head}stock: { form: «flatbar», extra: { top: «-1» } }\n`.replace('«-1»', '1')).length, 1);
    // A key that swallowed its value is one problem, and no crash.
    assert.equal(messages(`${head}stock: { form: block, extra: { «right:| 2» } }\n`).length, 1);
    assert.deepEqual(messages(`${head}stock: { form: block, extra: { top: «-1» } }\n`), [
      'A size has no sign. Write `top: 1`.',
    ]);
  });
});

describe('the head', () => {
  it('tells what is not known', () => {
    const problems = marked(
      'part: a\nunits: «inch»\nmaterial: «alumnium-6061-t6»\nquantity: «0»\ntolerance: «ISO 2768-x»\n«colour»: red\n«bdy»: { x: 5, y: 5, z: 5 }\n',
    );
    assert.deepEqual(
      problems.map((p) => [p.rule, p.fixes?.[0]?.edits[0]?.newText]),
      [
        ['form/unit', 'in'],
        ['stock/unknown-material', 'aluminium-6061-t6'],
        ['form/schema', undefined],
        ['form/schema', undefined],
        ['form/schema', undefined],
        ['form/schema', 'body'],
      ],
    );
  });

  it('tells fields of the wrong shape', () => {
    assert.deepEqual(
      messages(
        'part: «[a]»\nbody: { x: 5, y: 5, z: 5 }\nstock: «5»\nfeatures: «[1]»\nsetups: «5»\naccept: «{}»\ndatums: «5»\ntolerances: «5»\nparameters: «3»\n',
      ).map((m) => m.replace(/[,:.] .*|such as.*|: .*/, '')),
      [
        '`part` is a list',
        '`stock` is `5`',
        '`features` needs names with their values',
        '`setups` needs names with their values',
        '`accept` needs a list',
        '`datums` needs names with their values',
        '`tolerances` needs a list',
        '`parameters` needs names with their values',
      ],
    );
  });

  it('of nothing says how a part begins', () => {
    assert.match(partOf('').problems[0]!.message, /Write `part: NAME`/);
    assert.deepEqual(partOf('- a\n').problems, [], 'the text itself says what is wrong');
  });

  it('keeps text as it is written', () => {
    const part = partOf('part: 007\ntitle: 1.50\nrevision: 02\nbody: { x: 5, y: 5, z: 5 }\n');
    assert.deepEqual([part.name, part.title, part.revision], ['007', '1.50', '02']);
  });
});

describe('parameters', () => {
  const value = (part: Part, name: string) => {
    const found = part.parameters.get(name)?.value;
    return found && [found.dimension, round(found.value)];
  };

  it('are worked out in any order', () => {
    const part = partOf(
      'part: a\nbody: { x: 60, y: 40, z: 16 }\nparameters:\n  a: b / 2\n  b: c + 3 mm\n  c: 5\n  d: 30 deg\n  e: body.x * sin(d)\n  f: 1/4 in\n',
    );
    assert.deepEqual(part.problems, []);
    assert.deepEqual(
      ['a', 'b', 'c', 'd', 'e', 'f'].map((name) => value(part, name)),
      [
        ['length', 4],
        ['length', 8],
        ['number', 5],
        ['angle', 30],
        ['length', 30],
        ['length', 6.35],
      ],
    );
    assert.deepEqual(
      [...part.parameters.values()].filter((p) => !p.used).map((p) => p.name),
      ['a', 'e', 'f'],
    );
  });

  it('in a circle are told once', () => {
    const text = 'part: a\nbody: { x: 60, y: 40, z: 16 }\nparameters:\n  a: b + 1\n  b: c\n  c: «a»\n  d: a\n  e: 3\n';
    assert.deepEqual(messages(text), [
      'Parameters go in a circle: `a` → `b` → `c` → `a`. Make one of them a number, like `12`.',
    ]);
    assert.deepEqual(value(partOf(text.replace(/[«»]/g, '')), 'e'), ['number', 3]);
    assert.match(messages('part: a\nbody: { x: 6, y: 4, z: 1 }\nparameters:\n  a: «2 * a»\n')[0]!, /`a` → `a`/);
  });

  it('that are wrong are told where they stand, not where they are used', () => {
    assert.deepEqual(
      messages(
        block(
          'h: { kind: hole, face: top, at: { x: a, y: b }, diameter: «pich», depth: 3 + «ang» }'.replace(
            '3 + «ang»',
            '«3 + ang»',
          ),
          'parameters:\n  a: 5 «kg»\n  «b»:\n  pitch: 3\n  ang: 30 deg\n  «Big»: 3\n  «min»: 3\n',
        ),
      ).map((m) => m.replace(/[.;:] .*/, '')),
      [
        '`kg` is not a unit',
        'The parameter needs a value',
        '`Big` is not a name for a parameter',
        '`min` has a meaning of its own here',
        'There is no parameter `pich`',
        'An angle is written where a length is needed',
      ],
    );
  });

  it('mentioned by a broken feature are not unused', () => {
    const part = partOf(
      block(
        'h: { kind: hole, face: tpo, at: { x: 1, y: 2 }, diameter: wide / 2, depth: 3 }',
        'parameters: { wide: 6, idle: 3 }\n',
      ),
    );
    assert.deepEqual([part.parameters.get('wide')?.used, part.parameters.get('idle')?.used], [true, false]);
  });

  it('with a minus between are told apart', () => {
    const [problem] = marked(
      block(
        'h: { kind: hole, face: top, at: { x: 1, y: 2 }, diameter: «pitch-3», depth: 3 }',
        'parameters: { pitch: 6 }\n',
      ),
    );
    assert.match(problem!.message, /Put spaces around the minus/);
    assert.equal(problem!.fixes?.[0]?.edits[0]?.newText, 'pitch - 3');
  });
});

describe('units', () => {
  it('an inch part equals the same part in millimetres', () => {
    const text = (units: string, n: (inches: number) => string) => `part: a
units: ${units}
parameters: { pitch: ${n(1.5)}, twist: 30 }
body: { x: ${n(2.5)}, y: ${n(1.5)}, z: ${n(0.625)} }
stock: { form: flat-bar, extra: { left: ${n(0.0625)} } }
features:
  a: { kind: hole, face: top, at: { x: center, back: ${n(0.5)} }, diameter: ${n(0.25)} ±${n(0.002)}, depth: pitch / 3 }
  b: { kind: pocket, face: bottom, at: { x: ${n(0.75)}, y: center }, size: { x: ${n(0.5)}, y: pitch - ${n(0.5)} }, corner-radius: ${n(0.125)}, rotate: twist, depth: ${n(0.25)} }
  c: { kind: hole, face: front, at: { x: center, z: ${n(0.25)} }, pattern: { line: { x: pitch, count: 2 } }, thread: M5, depth: 10 mm }
`;
    const inch = partOf(text('in', (v) => String(v)));
    const mm = partOf(text('mm', (v) => String(round(v * 25.4))));
    assert.deepEqual(inch.problems, []);
    assert.deepEqual(mm.problems, []);
    assert.deepEqual(numbers([inch.size, inch.features, inch.stock]), numbers([mm.size, mm.features, mm.stock]));
  });
});

/** Every number in millimetres or degrees, rounded, in order; places in the text and texts left out. */
function numbers(value: unknown): unknown[] {
  if (typeof value === 'number') return [round(value)];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => (/[sS]pan$|^text$/.test(key) ? [] : numbers(v)));
}
