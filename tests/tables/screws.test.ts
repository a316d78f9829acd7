import assert from 'node:assert/strict';
import { clearanceHole, clearanceOf, clearanceSizes, fitText, readClearance } from '../../server/src/tables/clearance';
import { counterboreFor, countersinkFor, headFor, screwSizes } from '../../server/src/tables/heads';
import { screwDiameterMm, screwSize } from '../../server/src/tables/screw-size';

function near(a: number, b: number) {
  assert.ok(Math.abs(a - b) < 1e-9, `${a} against ${b}`);
}

describe('reference: screws', () => {
  it('reads a screw size however it is written', () => {
    const sizes = {
      M5: 'M5',
      ' m5 ': 'M5',
      'M5x0.8': 'M5',
      'M8×1': 'M8',
      'M2,5': 'M2.5',
      '#10': '#10',
      '10-24 UNC': '#10',
      'No. 10': '#10',
      '1/4': '1/4',
      '1/4-20 UNC': '1/4',
    };
    for (const [text, size] of Object.entries(sizes)) assert.equal(screwSize(text), size, text);
    // A bare number is a length, not a screw.
    for (const text of ['', '5', '10', '5 mm', 'M', 'M5 deep', '1/4 in', 'DIN 912']) {
      assert.equal(screwSize(text), undefined, text);
    }
  });

  it('the counterbore and countersink of an M5', () => {
    const { diameterMm, depthMm, source } = counterboreFor('M5')!;
    assert.deepEqual({ diameterMm, depthMm }, { diameterMm: 10, depthMm: 5.4 });
    assert.match(source, /DIN 974/);
    const sink = countersinkFor('M5')!;
    assert.deepEqual([sink.diameterMm, sink.angleDeg], [11.2, 90]);
    assert.match(sink.source, /ISO 10642/);
  });

  it('inch screws sit in 82°', () => {
    assert.equal(countersinkFor('10-24')?.angleDeg, 82);
    const bore = counterboreFor('1/4-20')!;
    assert.equal(bore.diameterMm, 11.1125);
    assert.ok(bore.depthMm > 6.35);
  });

  it('every listed screw has a recess its head goes into', () => {
    for (const size of screwSizes()) {
      const cap = headFor(size, 'cap');
      const bore = counterboreFor(size);
      assert.equal(cap === undefined, bore === undefined, size);
      if (cap && bore) assert.ok(bore.diameterMm > cap.diameterMm && bore.depthMm > cap.heightMm, size);
      const flat = headFor(size, 'flat');
      const sink = countersinkFor(size);
      assert.equal(flat === undefined, sink === undefined, size);
      if (flat && sink) assert.ok(sink.diameterMm >= flat.diameterMm - 1e-9 && flat.heightMm > 0, size);
      assert.ok(bore ?? sink, `${size} is listed for something`);
    }
  });

  it('says no to sizes that are not listed', () => {
    for (const size of ['M3.5', 'M99', '#99', 'banana']) assert.equal(counterboreFor(size), undefined, size);
    assert.equal(countersinkFor('M99'), undefined);
    assert.equal(headFor('M99', 'flat'), undefined);
    assert.equal(clearanceHole('M99'), undefined);
    assert.equal(clearanceHole('5'), undefined);
  });

  // ISO 261; ASME B1.1: #10 is 0.190 in, #0 0.060.
  it('knows how thick a screw is', () => {
    assert.equal(screwDiameterMm('M2.5'), 2.5);
    near(screwDiameterMm('#10')!, 4.826);
    near(screwDiameterMm('#0')!, 1.524);
    near(screwDiameterMm('5/16')!, 7.9375);
    for (const text of ['', 'M', '10', 'banana', '1/']) assert.equal(screwDiameterMm(text), undefined, text);
    for (const size of clearanceSizes())
      for (const fit of ['fine', 'medium', 'coarse'] as const)
        assert.ok(clearanceHole(size, fit)!.diameterMm > screwDiameterMm(size)!, `${size} ${fit}`);
  });

  it('reads a clearance as it is written', () => {
    const read = (text: string) => {
      const found = readClearance(text);
      return found.ok ? `${found.hole.screw} ${found.hole.class}` : `${found.wrong}: ${found.text}`;
    };
    assert.equal(read('M5'), 'M5 medium');
    assert.equal(read(' m5  Loose '), 'M5 coarse');
    assert.equal(read('1/4-20 UNC close'), '1/4 fine');
    assert.equal(read('10-24 unf'), '#10 medium');
    assert.equal(read('M5 wide'), 'fit: wide');
    assert.equal(read('5 wide'), 'size: 5 wide');
    assert.equal(read('M55 close'), 'size: M55');
    assert.equal(read(''), 'size: ');
    assert.equal(fitText({ screw: 'M5', class: 'fine' }), 'close fit, ISO 273 fine');
    assert.equal(fitText({ screw: '1/4', class: 'coarse' }), 'loose fit, ASME B18.2.8');
  });

  it('tells which screw a hole clears', () => {
    assert.equal(clearanceOf(6.6)?.screw, 'M6');
    assert.equal(clearanceOf(6.6)?.class, 'medium');
    assert.equal(clearanceOf(5.3)?.class, 'fine');
    assert.equal(clearanceOf(6.65), undefined);
    // ASME B18.2.8: 1/4 normal, 9/32 in; written in mm to three places.
    assert.equal(clearanceOf(7.144)?.screw, '1/4');
    assert.equal(clearanceOf(7.15), undefined);
  });
});

describe('reference: screw sizes of special threads', () => {
  it('the size is the same of either hand and of each unified series; a pipe thread has none', () => {
    assert.equal(screwSize('M10-LH'), 'M10');
    assert.equal(screwSize('M10x1-LH'), 'M10');
    assert.equal(screwSize('1/4-32 UNEF'), '1/4');
    assert.equal(screwSize('12-28 UNF'), '#12');
    assert.equal(screwSize('G1/4'), undefined);
    assert.equal(screwSize('1/4-18 NPT'), undefined);
  });
});
