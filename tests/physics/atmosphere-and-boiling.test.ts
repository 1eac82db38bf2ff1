/** Properties of air pressure and the saturation line, with psychrolib as an independent oracle. */
import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  airPressureKPa,
  ELEVATION_MAXIMUM_M,
  ELEVATION_MINIMUM_M,
  stationPressureKPa,
  winterLowPressureKPa,
} from '../../api/physics/atmosphere.ts';
import {
  boilingPointAtElevationC,
  boilingPointC,
  saturationPressureKPa,
  saturationPressureMPa,
  saturationTemperatureK,
} from '../../api/physics/boiling-point.ts';

psychrolib.SetUnitSystem(psychrolib.SI);

/** Boiling point by bisection in psychrolib's own saturation pressure (ASHRAE formulation, not IAPWS-IF97). */
function oracleBoilingPointC(pressurePa: number): number {
  let low = 40;
  let high = 140;
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (psychrolib.GetSatVapPres(middle) < pressurePa) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const elevation = fc.double({ min: ELEVATION_MINIMUM_M, max: ELEVATION_MAXIMUM_M, noNaN: true });

describe('against psychrolib', () => {
  it('air pressure agrees within 0.2 Pa up to 5000 m', () => {
    for (let m = -400; m <= 5000; m += 100)
      expect(Math.abs(airPressureKPa(m) * 1000 - psychrolib.GetStandardAtmPressure(m))).toBeLessThan(0.2);
  });

  it('boiling point agrees within 0.002 C up to 5000 m', () => {
    for (let m = 0; m <= 5000; m += 250) {
      const oracle = oracleBoilingPointC(psychrolib.GetStandardAtmPressure(m));
      expect(Math.abs(boilingPointAtElevationC(m) - oracle)).toBeLessThan(0.002);
    }
  });

  it('saturation pressure agrees within 0.02 % from 20 to 130 C', () => {
    for (let t = 20; t <= 130; t += 5)
      expect(Math.abs((saturationPressureKPa(t) * 1000) / psychrolib.GetSatVapPres(t) - 1)).toBeLessThan(2e-4);
  });
});

describe('properties', () => {
  it('pressure and boiling point fall with elevation', () => {
    fc.assert(
      fc.property(elevation, elevation, (a, b) => {
        fc.pre(Math.abs(a - b) > 0.01);
        const [low, high] = a < b ? [a, b] : [b, a];
        expect(airPressureKPa(high)).toBeLessThan(airPressureKPa(low));
        expect(boilingPointAtElevationC(high)).toBeLessThan(boilingPointAtElevationC(low));
      }),
    );
  });

  it('the saturation line runs there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 20, noNaN: true }), (mPa) => {
        expect(saturationPressureMPa(saturationTemperatureK(mPa)) / mPa).toBeCloseTo(1, 6);
      }),
    );
  });

  it('the straight line 99.974 - 0.003337 H lies within 0.04 C up to 5000 m', () => {
    for (let m = 0; m <= 5000; m += 100)
      expect(Math.abs(99.974 - 0.003337 * m - boilingPointAtElevationC(m))).toBeLessThan(0.04);
  });

  it('a standard sea-level reading gives the standard pressure back, and a higher one a higher pressure', () => {
    fc.assert(
      fc.property(fc.double({ min: -400, max: 5000, noNaN: true }), (m) => {
        expect(stationPressureKPa(101.325, m)).toBeCloseTo(airPressureKPa(m), 6);
        expect(stationPressureKPa(103, m)).toBeGreaterThan(stationPressureKPa(101.325, m));
      }),
    );
  });

  it('refuses elevations and pressures outside the relations, and what is no number', () => {
    expect(() => airPressureKPa(11001)).toThrow(/elevation/);
    expect(() => airPressureKPa(Number.NaN)).toThrow(/elevation/);
    expect(() => boilingPointC(18)).toThrow(/pressure/);
    expect(() => boilingPointC(272)).toThrow(/pressure/);
  });

  it('a winter low at 2500 m boils at 90.5 C and at 3000 m at 88.7 C', () => {
    expect(Math.abs(boilingPointC(winterLowPressureKPa(2500)) - 90.5)).toBeLessThan(0.1);
    expect(Math.abs(boilingPointC(winterLowPressureKPa(3000)) - 88.7)).toBeLessThan(0.1);
  });
});
