/** Properties of cooling. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boxHeatFlowWPerK,
  cooledTemperatureC,
  hoursAboveC,
  timeConstantFromReading,
} from '../../api/physics/retained-heat.ts';
import { vesselShape } from '../../api/physics/vessel-geometry.ts';

const capacity = fc.double({ min: 0.5, max: 60, noNaN: true });
const thickness = fc.double({ min: 5, max: 300, noNaN: true });
const conductivity = fc.double({ min: 0.02, max: 0.1, noNaN: true });

describe('a pot in insulation', () => {
  it('loses less in thicker and in better insulation, and in a better built box', () => {
    fc.assert(
      fc.property(capacity, thickness, conductivity, (capacityL, mm, k) => {
        const shape = vesselShape(capacityL);
        const flow = boxHeatFlowWPerK(shape, mm, k, 2.5);
        expect(boxHeatFlowWPerK(shape, mm * 1.2, k, 2.5)).toBeLessThan(flow);
        expect(boxHeatFlowWPerK(shape, mm, k * 1.2, 2.5)).toBeGreaterThan(flow);
        expect(boxHeatFlowWPerK(shape, mm, k, 4)).toBeGreaterThan(flow);
      }),
    );
  });

  it('a reading gives back the time constant that made it, and the hours to a limit end at that limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 12, noNaN: true }),
        fc.double({ min: -20, max: 30, noNaN: true }),
        (tau, hours, airC) => {
          const read = cooledTemperatureC(95, airC, hours, tau);
          expect(timeConstantFromReading(95, read, hours, airC) / tau).toBeCloseTo(1, 8);
          const above = hoursAboveC(60, 95, airC, tau);
          expect(cooledTemperatureC(95, airC, above, tau)).toBeCloseTo(60, 8);
        },
      ),
    );
  });

  it('refuses readings that contradict themselves', () => {
    expect(() => timeConstantFromReading(90, 95, 2, 20)).toThrow(/reading/);
    expect(() => timeConstantFromReading(90, 15, 2, 20)).toThrow(/reading/);
    expect(() => hoursAboveC(60, 95, 65, 10)).toThrow(/below 60/);
  });

  it('counts no hours where the start is not above the limit', () => {
    expect(hoursAboveC(60, 55, 20, 10)).toBe(0);
  });
});
