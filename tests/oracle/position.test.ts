/**
 * Position and the fastener formulae: Goodheart-Willcox, GD&T: Application and Interpretation, p. 308; the examples of
 * ASME Y14.5M-1994 appendix B from memory; Bhandari, Design of Machine Elements, example 3.4 (FOSSEE 764/CH3/EX3.4.b).
 */
import { clearanceHole } from '../../server/src/tables/clearance';
import { fitLimits } from '../../server/src/tables/fits';
import { coordinatesOfZoneMm, fixedZoneMm, floatingZoneMm, zoneAtSizeMm } from '../../server/src/tables/position';
import { near } from './near';

describe('oracle: position', () => {
  it('Y14.5M-1994 appendix B, from memory: F = 6, H = 6.44 is 0.44 floating, 0.22 fixed', () => {
    near(floatingZoneMm(6.44, 6), 0.44, 1e-12);
    near(fixedZoneMm(6.44, 6), 0.22, 1e-12);
  });

  // A page of questions on Y14.5M-1994: tabs of 10.1 in slots of 10.1 leave nothing for either.
  it('tabs in slots of their own size: T1 + T2 = 0', () => {
    near(2 * fixedZoneMm(10.1, 10.1), 0, 1e-12);
  });

  it('ISO 273 with the formulae: M6 medium floating 0.6, fine fixed 0.2', () => {
    near(floatingZoneMm(clearanceHole('M6')!.diameterMm, 6), 0.6, 1e-12);
    near(fixedZoneMm(clearanceHole('M6', 'fine')!.diameterMm, 6), 0.2, 1e-12);
  });

  it('at maximum material: hole 6.6 to 6.7, zone 0.3, come out at 6.7: 0.4', () => {
    near(zoneAtSizeMm(0.3, 6.6, 6.7), 0.4, 1e-12);
    near(zoneAtSizeMm(0.3, 6.6, 6.6), 0.3, 1e-12);
  });

  it('Bhandari 3.4: holes 12 H11, bolts 12 d11, pitch 50: 49.95 to 50.05, which is H − F either way', () => {
    const hole = 12 + fitLimits(12, 'H', 11)!.lowerMm;
    const bolt = 12 + fitLimits(12, 'd', 11)!.upperMm;
    near(50 - floatingZoneMm(hole, bolt), 49.95, 1e-9);
  });

  it('definition: the zone round ±0.1 along two axes is 0.28284 (2 √(0.1² + 0.1²))', () => {
    near(coordinatesOfZoneMm(0.28284), 0.1, 5e-6);
  });
});
