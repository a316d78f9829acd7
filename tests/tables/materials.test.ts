import assert from 'node:assert/strict';
import { findMaterial, MATERIALS, nearestMaterial } from '../../server/src/tables/materials';

describe('reference: materials', () => {
  it('by our name, by a usual one, in any case and spacing', () => {
    const names = {
      'aluminium-6061-t6': 'aluminium-6061-t6',
      '6061': 'aluminium-6061-t6',
      'Aluminum 6061-T6': 'aluminium-6061-t6',
      'EN AW-6061 T6': 'aluminium-6061-t6',
      'aluminum-7075-t6': 'aluminium-7075-t6',
      S235JR: 'steel-s235jr',
      '1.4301': 'stainless-304',
      'Ti-6Al-4V': 'titanium-6al-4v',
      POM: 'pom-c',
    };
    for (const [text, name] of Object.entries(names)) assert.equal(findMaterial(text)?.name, name, text);
    for (const text of ['', 'aluminium', 'steel', 'unobtanium']) assert.equal(findMaterial(text), undefined, text);
  });

  it('suggests the nearest name', () => {
    assert.equal(nearestMaterial('aluminium-6061-t5')?.name, 'aluminium-6061-t6');
    assert.equal(nearestMaterial('aluminim-7075-t6')?.name, 'aluminium-7075-t6');
    assert.equal(nearestMaterial('al6061')?.name, 'aluminium-6061-t6');
    assert.equal(nearestMaterial('steel-s235')?.name, 'steel-s235jr');
    assert.equal(nearestMaterial('unobtanium'), undefined);
    assert.equal(nearestMaterial(''), undefined);
  });

  it('no name means two materials', () => {
    const seen = new Map<string, string>();
    for (const material of MATERIALS) {
      for (const name of [material.name, ...material.aliases]) {
        assert.equal(seen.get(name), undefined, `${name}: ${material.name} and ${seen.get(name)}`);
        seen.set(name, material.name);
        assert.equal(findMaterial(name), material, `${name} can be found as written`);
      }
      assert.match(material.name, /^[a-z][a-z0-9-]*$/);
    }
  });

  it('values are of the right size for their family', () => {
    const density = { aluminium: [2.6, 2.9], steel: [7.7, 8], stainless: [7.8, 8.1], plastic: [0.9, 2.3] } as const;
    for (const m of MATERIALS) {
      const range = density[m.family as keyof typeof density];
      if (range) assert.ok(m.densityGPerCm3 >= range[0] && m.densityGPerCm3 <= range[1], m.name);
      if (m.yieldMPa !== undefined && m.ultimateMPa !== undefined) assert.ok(m.yieldMPa <= m.ultimateMPa, m.name);
      assert.ok(m.youngMPa >= 500 && m.youngMPa <= 220_000, m.name);
      assert.ok(m.source.length > 5, m.name);
      assert.equal(m.class === 'metal', m.group !== undefined, `${m.name}: ISO 513 sorts metals`);
    }
  });

  it('what can hurt carries its caution', () => {
    const cautions: Readonly<Record<string, RegExp>> = {
      'magnesium-az31b': /never water/,
      'titanium-6al-4v': /class D/,
      'beryllium-copper-c17200': /lungs/,
      'g10-fr4': /mask/,
      'carbon-epoxy': /lungs/,
      'pom-c': /formaldehyde/,
      ptfe: /fumes/,
    };
    for (const [name, says] of Object.entries(cautions)) {
      const caution = findMaterial(name)?.caution;
      assert.match(caution?.text ?? '', says, name);
      assert.ok(caution?.source, name);
    }
    assert.equal(findMaterial('6061')?.caution, undefined);
  });
});
