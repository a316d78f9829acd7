/** Threads: tap holes, room for the tap, length, and whether there is a tap. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { noTap } from '../../../server/src/rules/thread/no-tap';
import { block } from '../parts';
import { drill, shopWith, tap } from '../shops';
import { findingsOf, mended, onlyFinding, tryFixesOn } from '../tester';

const STEEL = 'part: sample\nunits: mm\nmaterial: steel-c45\n';
const hole = (fields: string, z = 40, head?: string) =>
  block(
    [30, 30, z],
    `  h:\n    kind: hole\n    face: top\n    at: { x: center, y: center }\n${fields
      .split('; ')
      .map((f) => `    ${f}\n`)
      .join('')}`,
    head,
  );
const SHOP = shopWith(
  drill(4.2, 80) +
    drill(5, 90) +
    drill(6.8, 110) +
    tap('M5', 'plug', 25) +
    tap('M6', 'plug', 30) +
    tap('M6', 'bottoming', 30),
);

describe('thread/hole-conflict and thread/percent', () => {
  // (D − d) / (1.299 P): M5 × 0.8 with 4.2 is 77 %.
  it('leaves a usual tap hole alone', () => {
    for (const d of [4.2, 4.3, 4.15]) {
      assert.deepEqual(findingsOf('thread/percent', hole(`thread: M5; diameter: ${d}; depth: through`, 10)), []);
      assert.deepEqual(findingsOf('thread/hole-conflict', hole(`thread: M5; diameter: ${d}; depth: through`, 10)), []);
    }
  });

  it('warns outside 60 to 85 %', () => {
    const low = onlyFinding('thread/percent', hole('thread: M5; diameter: 4.4; depth: through', 10));
    assert.equal(low.facts.percent, 57.735); // 0.6 / (1.299038 · 0.8)
    assert.equal(low.severity, 'warning');
    const high = onlyFinding('thread/percent', hole('thread: M5; diameter: 4.1; depth: through', 10));
    assert.equal(high.facts.percent, 86.603);
    assert.deepEqual(findingsOf('thread/percent', hole('thread: M5; diameter: 4.12; depth: through', 10)), []);
  });

  it('is an error where it is no tap hole at all, and then only that', () => {
    for (const d of [5.5, 5, 4.75, 3.9]) {
      const text = hole(`thread: M5; diameter: ${d}; depth: through`, 10);
      assert.equal(onlyFinding('thread/hole-conflict', text).severity, 'error', `${d}`);
      assert.deepEqual(findingsOf('thread/percent', text), []);
    }
  });

  it('mends by leaving the diameter out, by the tap drill, or by leaving the thread out', () => {
    const text = hole('thread: M5 # for the lid; diameter: 5.5 # why?; depth: through', 10);
    const cured = mended('thread/hole-conflict', text, /left to the thread/);
    assert.doesNotMatch(cured, /diameter/);
    assert.match(cured, /# why\?/);
    assert.match(mended('thread/hole-conflict', text, /tap drill/), /diameter: 4\.2 # why\?/);
    assert.match(mended('thread/hole-conflict', text, /plain hole/), /# for the lid/);
  });
});

describe('threads beside the screw threads', () => {
  const wide = (thread: string, mm: number) => hole(`thread: ${thread}; diameter: ${mm}; depth: through`, 12);

  // ISO 228-1: minor diameter of G1/8 8.566 to 8.848; ISO 7-1 Rp1/8 8.495 to 8.637; ISO 2904 Tr20x4 16 to 16.375. From memory.
  it('a tap hole within its own standard is left alone, share of 60° threads or not', () => {
    for (const [thread, mm] of [
      ['G1/8', 8.8],
      ['G1/8', 8.57],
      ['Rp1/8', 8.6],
      ['Tr20x4', 16.25],
      ['Tr20x4', 16.05],
      ['1/8 NPT', 8.6],
      ['EG M5', 5.2],
    ] as const) {
      assert.deepEqual(findingsOf('thread/percent', wide(thread, mm)), [], `${thread} ${mm}`);
      assert.deepEqual(findingsOf('thread/hole-conflict', wide(thread, mm)), [], `${thread} ${mm}`);
    }
  });

  it('wider than it is a warning, narrower or wider than a cone’s mouth an error', () => {
    assert.match(onlyFinding('thread/percent', wide('G1/8', 8.9)).message, /ISO 228-1 allows 8\.85 mm at most/);
    assert.equal(onlyFinding('thread/hole-conflict', wide('G1/8', 8.5)).severity, 'error');
    assert.equal(onlyFinding('thread/hole-conflict', wide('Tr20x4', 15.9)).severity, 'error');
    // E1 − 0.8 p of 1/8-27 NPT is 0.34397 in, 8.737 mm.
    assert.deepEqual(findingsOf('thread/hole-conflict', wide('1/8-27 NPT', 8.73)), []);
    assert.match(onlyFinding('thread/hole-conflict', wide('1/8-27 NPT', 8.75)).message, /too wide for/);
  });

  it('a pipe thread needs the length of its standard, not that of a screw', () => {
    // L1 + 3 p of 1/8-27 NPT: 0.1615 + 0.1111 in, 6.924 mm (ASME B1.20.1, from memory).
    const short = onlyFinding('thread/too-short', hole('thread: 1/8 NPT; thread-depth: 6; depth: 16'));
    assert.equal(short.facts.needed_mm, 6.924);
    assert.deepEqual(findingsOf('thread/too-short', hole('thread: 1/8 NPT; thread-depth: 7; depth: 16')), []);
    assert.deepEqual(findingsOf('thread/too-short', hole('thread: Tr20x4; depth: through', 5)), []);
  });

  it('no tap of the shop cuts it: told, and no thread of another form or hand is offered instead', () => {
    for (const thread of ['G1/4', 'Tr20x4', '1/8-27 NPT', 'EG M5', 'M5-LH', '1 1/8-7 UNC']) {
      const finding = onlyFinding('thread/no-tap', hole(`thread: ${thread}; depth: through`), SHOP);
      assert.equal(finding.severity, 'error', thread);
      assert.equal(finding.facts.nearest_1, undefined, thread);
    }
    assert.match(onlyFinding('thread/no-tap', hole('thread: G1/4; depth: through'), SHOP).message, /needs a G1\/4 tap/);
    assert.match(onlyFinding('thread/no-tap', hole('thread: M11; depth: through'), SHOP).message, /M10 and M12/);
    const own = shopWith(drill(4.2, 80) + tap('M5-LH', 'plug', 25));
    assert.deepEqual(findingsOf('thread/no-tap', hole('thread: M5x0.8-LH; depth: through'), own), []);
    assert.equal(onlyFinding('thread/no-tap', hole('thread: M5; depth: through'), own).severity, 'error');
  });
});

describe('thread/no-room', () => {
  const RULE = 'thread/no-room';
  const m6 = (depth: number, thread: number, more = '') =>
    hole(`thread: M6; thread-depth: ${thread}; depth: ${depth}${more}`);
  const m5 = (depth: number, thread: number) => hole(`thread: M5; thread-depth: ${thread}; depth: ${depth}`);

  // TM 9-254 para. 4-27: plug taps taper over 3 to 5 threads, bottoming taps over 1 to 2.
  it('wants four pitches under a plug tap', () => {
    assert.deepEqual(findingsOf(RULE, m5(13.2, 10), SHOP), []); // 4 · 0.8 = 3.2
    const finding = onlyFinding(RULE, m5(13.1, 10), SHOP);
    assert.equal(finding.severity, 'error');
    assert.equal(finding.facts.room_mm, 3.1);
    assert.equal(finding.facts.chamfer_mm, 3.2);
    assert.match(finding.message, /Drill it 13\.2 mm deep, or make the thread 9\.9 mm deep\.$/);
  });

  it('wants one and a half under a bottoming tap, and says that it is the second', () => {
    assert.equal(onlyFinding(RULE, m6(13.5, 12), SHOP).severity, 'hint');
    assert.equal(onlyFinding(RULE, m6(13.4, 12), SHOP).severity, 'error');
    assert.deepEqual(findingsOf(RULE, m6(16, 12), SHOP), []);
  });

  it('says nothing of through holes, and where no depth of thread is written', () => {
    assert.deepEqual(findingsOf(RULE, hole('thread: M5; thread-depth: 10; depth: through', 10), SHOP), []);
    assert.deepEqual(findingsOf(RULE, hole('thread: M5; depth: 12'), SHOP), []);
  });

  it('a blind hole that opens into another cavity is not blind', () => {
    const text = `${m5(13, 12)}  slot: { kind: pocket, face: bottom, at: { x: center, y: center }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 28 }\n`;
    assert.deepEqual(findingsOf(RULE, text, SHOP), []);
  });

  it('mends by depth and by thread', () => {
    assert.match(mended(RULE, m5(11, 10), /Drill/, SHOP), /depth: 13\.2\n/);
    assert.match(mended(RULE, m5(11, 10), /Make the thread/, SHOP), /thread-depth: 7\.8\n/);
  });

  it('counts taps as the shop limits say', () => {
    const careful = shopWith(drill(4.2, 80) + tap('M5', 'plug', 25), '  thread/no-room: { plug: 5 }');
    assert.equal(findingsOf(RULE, m5(13.2, 10), careful).length, 1);
    assert.deepEqual(findingsOf(RULE, m5(14, 10), careful), []);
  });
});

describe('thread/too-long and thread/too-short', () => {
  it('hints over 2.5 diameters', () => {
    assert.deepEqual(findingsOf('thread/too-long', hole('thread: M5; thread-depth: 12.5; depth: 20')), []);
    const finding = onlyFinding('thread/too-long', hole('thread: M5; thread-depth: 13; depth: 20'));
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.ratio, 2.6);
    assert.match(mended('thread/too-long', hole('thread: M5; depth: through')), /thread-depth: 12\.5\n/);
  });

  // Equal strength of an M5 screw of 800 N/mm² (14.2 mm², ISO 898-1) and its thread: 14.2 · 800 / (½ Rm · 0.875 π · 5).
  it('hints under the rule of thumb, or less where the strength of the material allows', () => {
    const m5 = (z: number, head?: string) => hole('thread: M5; depth: through', z, head);
    // 6061-T6, 310 N/mm², by least material 10.0 mm² a millimetre: 1.55 kN, equal at 7.33 mm; the rule of thumb is less than a
    // margin over that. 6 mm strip at 9.3 kN, before the screw breaks at 11.3.
    assert.deepEqual(findingsOf('thread/too-short', m5(7.5)), []);
    const { facts, message } = onlyFinding('thread/too-short', m5(6));
    assert.ok(Math.abs((facts.equal_mm as number) - 7.33) < 0.02, String(facts.equal_mm));
    assert.ok(Math.abs((facts.strips_kn as number) - 9.3) < 0.05, String(facts.strips_kn));
    assert.ok(Math.abs((facts.breaks_kn as number) - 11.35) < 0.05, String(facts.breaks_kn));
    assert.match(message, /\(rule of thumb\)/);
    // 7075-T6, 572 N/mm²: equal at 3.97 mm, with a margin of 1.25 at 4.97.
    const hard = 'part: sample\nunits: mm\nmaterial: aluminium-7075-t6\n';
    assert.deepEqual(findingsOf('thread/too-short', m5(5.1, hard)), []);
    assert.match(onlyFinding('thread/too-short', m5(4.8, hard)).message, /by its strength/);
    // C45, at least 570 N/mm²: the strength asks for 1.003 D, the rule of thumb for 1.
    assert.deepEqual(findingsOf('thread/too-short', m5(5, STEEL)), []);
    assert.equal(findingsOf('thread/too-short', m5(3, STEEL)).length, 1);
    // Acetal never holds as well as a steel screw: the rule of thumb is what is asked for.
    const acetal = 'part: sample\nunits: mm\nmaterial: pom-c\n';
    assert.deepEqual(findingsOf('thread/too-short', m5(10, acetal)), []);
    const soft = onlyFinding('thread/too-short', m5(9.9, acetal));
    assert.match(soft.message, /rule of thumb/);
    assert.ok((soft.facts.strips_kn as number) < (soft.facts.breaks_kn as number) / 2);
  });

  it('keeps to a rule of thumb that the shop sets', () => {
    const shop = shopWith(tap('M5', 'plug', 25), '  thread/too-short: { aluminium: 2 }');
    const m5 = (z: number) => hole('thread: M5; depth: through', z);
    assert.equal(onlyFinding('thread/too-short', m5(9.9), shop).facts.limit_ratio, 2);
    assert.deepEqual(findingsOf('thread/too-short', m5(10), shop), []);
  });

  it('does not guess without a material', () => {
    assert.deepEqual(findingsOf('thread/too-short', hole('thread: M5; depth: through', 4, 'part: sample\n')), []);
  });

  it('counts only what is cut in material: a counterbore takes of it', () => {
    const text = hole('thread: M5; counterbore: { diameter: 10, depth: 4 }; depth: through', 10);
    assert.equal(onlyFinding('thread/too-short', text).facts.length_mm, 6);
  });
});

describe('thread/no-tap', () => {
  const m8 = hole('thread: M8; thread-depth: 16; depth: through', 20);

  it('is an error in a shop with other taps', () => {
    const finding = onlyFinding('thread/no-tap', m8, SHOP);
    assert.equal(finding.severity, 'error');
    // Another size is another screw: a tap is borrowed or bought.
    assert.match(finding.message, /Borrow or buy/);
    assert.equal(tryFixesOn(noTap, m8, SHOP), 0);
    const fine = shopWith(`${tap('M8x1', 'plug', 25)}`);
    assert.equal(onlyFinding('thread/no-tap', m8, fine).facts.nearest_1, 'M8x1');
    assert.match(mended('thread/no-tap', m8, /M8x1/, fine), /thread: M8x1\n/);
  });

  it('is a warning where the shop lists none at all', () => {
    assert.equal(onlyFinding('thread/no-tap', m8, shopWith(drill(6.8, 109))).severity, 'warning');
  });

  it('knows a thread however it is written', () => {
    assert.deepEqual(findingsOf('thread/no-tap', hole('thread: M5x0.8; depth: through', 10), SHOP), []);
    assert.deepEqual(findingsOf('thread/no-tap', hole('thread: M6; depth: through', 10), SHOP), []);
  });
});

describe('thread/unknown', () => {
  it('comes from the text, with the nearest there is', () => {
    const text = hole('thread: M5.5; depth: through', 10);
    assert.equal(onlyFinding('thread/unknown', text).severity, 'error');
    assert.match(mended('thread/unknown', text), /thread: M[56]\n/);
  });

  it('an inch thread in a metric part is known', () => {
    const text = hole('thread: 10-24 UNC; depth: through', 12);
    assert.deepEqual(
      checkPart(text, SHOP).findings.filter((f) => f.rule === 'thread/unknown'),
      [],
    );
  });
});
