/**
 * Cutters from exchange files: ISO 10303-21:2016, clauses 6 to 10 for the text (strings 6.4.3), ISO 13399-1 for the entities that a
 * cutter's properties hang on (NUMERICAL_VALUE, PROPERTY, PLIB_PROPERTY_REFERENCE …, from memory). The file below is ours.
 */
import assert from 'node:assert/strict';
import { entries, read } from './read';

const file = (...data: string[]) =>
  `ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('cutters of a campus workshop; a list'),'2;1');\nFILE_NAME('c.p21','2026-11-30T00:00:00',(''),(''),'','','');\nFILE_SCHEMA(('CUTTING_TOOL_SCHEMA_ARM'));\nENDSEC;\nDATA;\n${data.join('\n')}\nENDSEC;\nEND-ISO-10303-21;\n`;

/** As ISO 13399-1 has it: values named by representations of properties, these by the dictionary's references. */
function asArm(properties: Readonly<Record<string, string>>, unit = "UNIT('mm')") {
  const rows = Object.entries(properties).flatMap(([code, value], i) => {
    const n = 100 + 10 * i;
    return [
      `#${n}=PLIB_PROPERTY_REFERENCE('${code}',#5,'001');`,
      `#${n + 1}=PROPERTY(#6,$,'71D084653E57F',#${n},'${code.toLowerCase()}','1');`,
      `#${n + 2}=NUMERICAL_VALUE($,$,#6,${value});`,
      `#${n + 3}=PROPERTY_VALUE_REPRESENTATION(#${n + 1},$,$,#${n + 2},$);`,
      `#${n + 4}=PROPERTY_VALUE_ASSOCIATION($,#3,#${n + 3},$,$);`,
    ];
  });
  return [
    "#1=ITEM('EM6','solid carbide end mill /* no comment */',$);",
    "#2=ITEM_VERSION('1',#1);",
    '#3=ITEM_DEFINITION(#2);',
    "#5=PLIB_CLASS_REFERENCE('71CE7A9F9DAEB','0112/2///13399_1','001');",
    `#6=${unit};`,
    ...rows,
  ];
}

describe('cutters from an exchange file', () => {
  const wanted = [
    'em-6-r0.5: { kind: end-mill, diameter: 6, flutes: 4, flute-length: 13, corner-radius: 0.5, note: EM6 }',
  ];

  it('by the dictionary’s references, as ISO 13399-1 has them', () => {
    assert.deepEqual(entries(read(file(...asArm({ DC: '6.', ZEFP: '4', APMX: '13.0', RE: '5.E-1' })))), wanted);
  });

  it('in the values, in lists of pairs, as types; upside down, in complex instances, with comments between', () => {
    const ways = [
      [
        "#9=NUMERICAL_VALUE('DC',$,#6,6.);",
        "#10=NUMERICAL_VALUE('APMX',$,#6,13.);",
        "#11=NUMERICAL_VALUE('ZEFP',$,$,4);",
        "#12=NUMERICAL_VALUE('RE',$,#6,0.5);",
        "#1=ITEM('EM6','end mill',(#9,#10,#11,#12));",
        "#6=UNIT('mm');",
      ],
      ["#1=TOOL_ITEM('EM6','end mill',(('DC',6.),('APMX',13.),('ZEFP',4),('RE',.5)));"],
      ["#1=CUTTING_TOOL('EM6','end mill',(DC(6.),APMX(13.),ZEFP(4),RE(0.5)));"],
      [
        '#7=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.));',
        "#1 = /* the item */ PRODUCT('EM6','end mill','',());",
        ...['DC', 'APMX', 'ZEFP', 'RE'].flatMap((code, i) => {
          const n = 20 + 10 * i;
          return [
            `#${n}=PROPERTY_DEFINITION('${code}','',#1);`,
            `#${n + 1}=PROPERTY_DEFINITION_REPRESENTATION(#${n},#${n + 2});`,
            `#${n + 2}=REPRESENTATION('',(#${n + 3}),$);`,
            `#${n + 3}=MEASURE_REPRESENTATION_ITEM('',LENGTH_MEASURE(${['6.', '13.', '4.', '0.5'][i]}),#7);`,
          ];
        }),
      ],
    ];
    for (const way of ways) assert.deepEqual(entries(read(file(...way))), wanted, way.join('\n'));
    for (const way of ways) assert.deepEqual(entries(read(file(...[...way].reverse()))), wanted, 'in the other order');
  });

  it('keeps items apart that share values, units and definitions', () => {
    const text = file(
      "#1=ITEM('A','end mill');",
      "#2=ITEM('B','end mill');",
      "#6=UNIT('mm');",
      "#10=PROPERTY(#6,$,'DC',$,'','');",
      "#11=PROPERTY(#6,$,'APMX',$,'','');",
      '#20=NUMERICAL_VALUE($,$,$,6.);',
      '#21=NUMERICAL_VALUE($,$,$,8.);',
      '#22=NUMERICAL_VALUE($,$,$,20.);',
      '#30=PROPERTY_VALUE_REPRESENTATION(#10,$,$,#20,$);',
      '#31=PROPERTY_VALUE_REPRESENTATION(#10,$,$,#21,$);',
      '#32=PROPERTY_VALUE_REPRESENTATION(#11,$,$,#22,$);',
      '#40=PROPERTY_VALUE_ASSOCIATION($,#1,#30,$,$);',
      '#41=PROPERTY_VALUE_ASSOCIATION($,#2,#31,$,$);',
      '#42=PROPERTY_VALUE_ASSOCIATION($,#1,#32,$,$);',
      '#43=PROPERTY_VALUE_ASSOCIATION($,#2,#32,$,$);',
    );
    assert.deepEqual(entries(read(text)), [
      'em-6: { kind: end-mill, diameter: 6, flute-length: 20, note: A }',
      'em-8: { kind: end-mill, diameter: 8, flute-length: 20, note: B }',
    ]);
  });

  it('takes units from their entities: inches, metres, radians; an unknown one is told', () => {
    assert.match(
      entries(read(file(...asArm({ DC: '0.25' }, "CONVERSION_BASED_UNIT('INCH',#7)"))))[0]!,
      /diameter: 0.25 in/,
    );
    assert.match(entries(read(file(...asArm({ DC: '0.006' }, 'SI_UNIT($,.METRE.)'))))[0]!, /diameter: 6,|diameter: 6 /);
    const [odd] = read(file(...asArm({ DC: '6.' }, "UNIT('furlong')"))).rows;
    assert.match(odd!.told.join(), /`furlong`/);
    assert.deepEqual(odd!.lacks, ['diameter']);
    assert.match(
      entries(
        read(
          file(
            "#1=ITEM('D','twist drill',(#2,#3));",
            "#2=NUMERICAL_VALUE('DC',$,$,8.);",
            "#3=NUMERICAL_VALUE('SIG',$,#4,2.0594885);",
            '#4=SI_UNIT($,.RADIAN.);',
          ),
        ),
      )[0]!,
      /point: 117.99/,
    );
  });

  it('decodes strings, reads words as values, and says where a value is a range or stands there twice', () => {
    const text = file(
      "#1=ITEM('\\X2\\00D8\\X0\\5 \\S\\D''x\\X\\B0','tap',(#2,#3));",
      "#2=STRING_VALUE('TDZ','M5');",
      "#3=VALUE_RANGE('LU',$,20.,25.);",
    );
    const [row] = read(text).rows;
    assert.match(row!.entry!, /thread: M5, note: "Ø5 Ä'x°"/);
    assert.match(row!.told.join(), /LU is a range/);
    const twice = file(
      "#1=ITEM('A','end mill',(#2,#3));",
      "#2=NUMERICAL_VALUE('DC',$,$,8.);",
      "#3=NUMERICAL_VALUE('DC',$,$,10.);",
    );
    assert.match(read(twice).rows[0]!.told.join(), /DC has several values/);
  });

  it('reads on behind what it cannot read, and says the line', () => {
    const result = read(
      file(
        "#1=ITEM('A','end mill',(#2));",
        '#7=BROKEN(1,,;',
        "#8=OPEN('a;b';",
        "#2=NUMERICAL_VALUE('DC',$,$,8.);",
        "#1=ITEM('B');",
      ),
    );
    assert.match(result.told.join('\n'), /line 9: .*line 10: .*line 12: #1 stands there twice/s);
    assert.deepEqual(entries(result), ['em-8: { kind: end-mill, diameter: 8, note: A }']);
    assert.match(read(file("#1=POINT('x',(0.,0.));")).told.join(), /None of its 1 instances/);
  });

  it('says where properties have numbers of a dictionary alone (ISO 13584): no meaning is guessed', () => {
    const result = read(file(...asArm({ '71D084653E57F': '6.', '71D07576C0558': '4' })));
    assert.deepEqual(result.rows, []);
    assert.match(result.told.join(), /Numbers of a dictionary \(ISO 13584\) stand there instead, like 71D084653E57F/);
    assert.doesNotMatch(read(file("#1=POINT('x',(0.,0.));")).told.join(), /dictionary/);
  });
});
