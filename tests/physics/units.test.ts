/** Conversions: there and back, and a few exact definitions. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as units from '../../api/physics/units.ts';

const PAIRS: [string, (x: number) => number, (x: number) => number][] = [
  ['temperature', units.celsiusToFahrenheit, units.fahrenheitToCelsius],
  ['absolute temperature', units.celsiusToKelvin, units.kelvinToCelsius],
  ['length', units.metresToFeet, units.feetToMetres],
  ['small length', units.millimetresToInches, units.inchesToMillimetres],
  ['psi', units.kPaToPsi, units.psiToKPa],
  ['inHg', units.kPaToInHg, units.inHgToKPa],
  ['hPa', units.kPaToHPa, units.hPaToKPa],
  ['gallons', units.litresToGallons, units.gallonsToLitres],
  ['quarts', units.litresToQuarts, units.quartsToLitres],
  ['cups', units.litresToCups, units.cupsToLitres],
  ['fluid ounces', units.litresToFluidOunces, units.fluidOuncesToLitres],
  ['pounds', units.kgToPounds, units.poundsToKg],
  ['ounces', units.kgToOunces, units.ouncesToKg],
  ['kWh', units.mjToKWh, units.kWhToMj],
  ['Btu', units.mjToBtu, units.btuToMj],
];

describe('conversions', () => {
  it.each(PAIRS)('%s runs there and back', (_name, there, back) => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1e6, noNaN: true }), (x) => {
        expect(Math.abs(back(there(x)) - x)).toBeLessThan(1e-9 * Math.max(1, Math.abs(x)));
      }),
    );
  });

  it('definitions', () => {
    expect(units.celsiusToFahrenheit(100)).toBe(212);
    expect(units.feetToMetres(10000)).toBeCloseTo(3048, 9);
    expect(units.psiToKPa(14.695949)).toBeCloseTo(101.325, 4);
    expect(units.inHgToKPa(29.9213)).toBeCloseTo(101.325, 3);
    expect(units.kgfPerCm2ToKPa(1)).toBeCloseTo(14.2233 * units.KPA_PER_PSI, 2);
    expect(units.gallonsToLitres(1)).toBe(3.785411784);
    expect(units.cupsToLitres(1)).toBeCloseTo(0.2365882, 7);
    expect(units.fluidOuncesToLitres(1)).toBeCloseTo(0.0295735, 7);
    expect(units.poundsToKg(1)).toBe(0.45359237);
    expect(units.kWhToMj(1)).toBe(3.6);
    expect(units.btuToMj(1000)).toBeCloseTo(1.05506, 5);
    expect(units.kelvinStepToFahrenheit(10)).toBe(18);
  });
});
