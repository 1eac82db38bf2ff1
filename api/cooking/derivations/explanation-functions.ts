/**
 * The functions that relations of a derivation name, each written out once: what it gives, and its own relations line by
 * line. With these and ordinary arithmetic every listed value can be worked out again by hand or by any program.
 */
import type { SourceRef } from '../../physics/parameter.ts';

/** A function that relations name. */
export interface ExplanationFunction {
  /** What it gives, with the unit. */
  what: string;
  /** Names of what goes in, in order, with their units; the last may stand for several. */
  takes: readonly string[];
  /**
   * Relations in the language of the steps, in order; each names what goes in and the lines before it, and the last one
   * is the result. Empty where only `rule` can say it.
   */
  lines: readonly { quantity: string; relation: string }[];
  /** The rule in words, where it is a sum over many equal intervals. */
  rule?: string;
  source: SourceRef;
}

const line = (quantity: string, relation: string) => ({ quantity, relation });

/** Of still air at the mean of surface and air temperature, 1 atm. */
const AIR_LINES = [
  line('filmK', '(surfaceC + airC) / 2 + 273.15'),
  line('conductivityWPerMK', '0.02624 * (filmK / 300) ^ 0.85'),
  line('viscosityM2PerS', '1.589e-5 * (filmK / 300) ^ 1.77'),
  line('rayleighPerM3', '9.81 * max(0, surfaceC - airC) * 0.71 / (filmK * viscosityM2PerS ^ 2)'),
];

/** Name of each function to its relations and source. */
export const EXPLANATION_FUNCTIONS: Readonly<Record<string, ExplanationFunction>> = {
  saturationTemperatureC: {
    what: 'Boiling point of water at an absolute pressure, C',
    takes: ['pressureKPa'],
    lines: [
      line('beta', '(pressureKPa / 1000) ^ 0.25'),
      line('first', 'beta ^ 2 - 0.17073846940092e2 * beta + 0.1491510861353e2'),
      line('second', '0.11670521452767e4 * beta ^ 2 + 0.1202082470247e5 * beta - 0.48232657361591e4'),
      line('third', '-0.72421316703206e6 * beta ^ 2 - 0.32325550322333e7 * beta + 0.40511340542057e6'),
      line('root', '2 * third / (-second - sqrt(second ^ 2 - 4 * first * third))'),
      line('sumK', '0.65017534844798e3 + root'),
      line(
        'temperatureC',
        '(sumK - sqrt(sumK ^ 2 - 4 * (-0.23855557567849 + 0.65017534844798e3 * root))) / 2 - 273.15',
      ),
    ],
    source: { key: 'iapwsIf97', place: 'region 4, equation 31, table 34' },
  },
  saturationPressureKPa: {
    what: 'Vapour pressure of water, kPa',
    takes: ['temperatureC'],
    lines: [
      line('temperatureK', 'temperatureC + 273.15'),
      line('theta', 'temperatureK - 0.23855557567849 / (temperatureK - 0.65017534844798e3)'),
      line('first', 'theta ^ 2 + 0.11670521452767e4 * theta - 0.72421316703206e6'),
      line('second', '-0.17073846940092e2 * theta ^ 2 + 0.1202082470247e5 * theta - 0.32325550322333e7'),
      line('third', '0.1491510861353e2 * theta ^ 2 - 0.48232657361591e4 * theta + 0.40511340542057e6'),
      line('pressureKPa', '1000 * (2 * third / (-second + sqrt(second ^ 2 - 4 * first * third))) ^ 4'),
    ],
    source: { key: 'iapwsIf97', place: 'region 4, equation 30, table 34' },
  },
  latentHeatKJPerKg: {
    what: 'Latent heat of evaporation of water, kJ/kg',
    takes: ['temperatureC'],
    lines: [line('latentHeatKJPerKg', '2256.42 - 2.6464 * (temperatureC - 100) - 0.003492 * (temperatureC - 100) ^ 2')],
    source: { key: 'iapws95', place: 'fit, 80 to 125 C' },
  },
  evaporationKgPerM2H: {
    what: 'Evaporation of still open water into a room at half saturation, kg/(m2 h)',
    takes: ['waterC', 'airC'],
    lines: [
      line(
        'perKPa',
        'waterC >= 57 ? 0.168 : waterC >= 48.9 ? 0.158 + (waterC - 48.9) / 8.1 * 0.01 : ' +
          'waterC >= 37.8 ? 0.1325 + (waterC - 37.8) / 11.1 * 0.0255 : 0.1325',
      ),
      line('roomKPa', '0.5 * saturationPressureKPa(max(airC, 0))'),
      line('evaporationKgPerM2H', 'perKPa * max(0, saturationPressureKPa(max(waterC, 0)) - roomKPa)'),
    ],
    source: { key: 'openTanksTable', place: 'derived from the table, +-20 %' },
  },
  wallConvectionWPerM2K: {
    what: 'Natural convection at an upright wall, W/(m2 K)',
    takes: ['heightM', 'surfaceC', 'airC'],
    lines: [
      ...AIR_LINES,
      line('rayleigh', 'rayleighPerM3 * heightM ^ 3'),
      line('nusselt', '(0.825 + 0.387 * rayleigh ^ (1 / 6) / 1.1932) ^ 2'),
      line('convectionWPerM2K', 'rayleigh > 0 ? nusselt * conductivityWPerMK / heightM : 0'),
    ],
    source: { key: 'churchillChu1975', place: 'all flows, Pr 0.71' },
  },
  plateConvectionWPerM2K: {
    what: 'Natural convection on a hot plate that faces up, W/(m2 K)',
    takes: ['diameterM', 'surfaceC', 'airC'],
    lines: [
      ...AIR_LINES,
      line('lengthM', 'diameterM / 4'),
      line('rayleigh', 'rayleighPerM3 * lengthM ^ 3'),
      line('nusselt', 'rayleigh <= 1e7 ? 0.54 * rayleigh ^ 0.25 : 0.15 * rayleigh ^ (1 / 3)'),
      line('convectionWPerM2K', 'rayleigh > 0 ? nusselt * conductivityWPerMK / lengthM : 0'),
    ],
    source: { key: 'mcAdams1954', place: 'hot plate facing up, length D/4' },
  },
  blackRadiationWPerM2K: {
    what: 'Radiation of a black surface per kelvin, W/(m2 K)',
    takes: ['surfaceC', 'airC'],
    lines: [
      line('surfaceK', 'surfaceC + 273.15'),
      line('airK', 'airC + 273.15'),
      line('radiationWPerM2K', '5.670374e-8 * (surfaceK + airK) * (surfaceK ^ 2 + airK ^ 2)'),
    ],
    source: { key: 'physicalConstants', place: 'Stefan-Boltzmann constant' },
  },
  propanePressureKPa: {
    what: 'Vapour pressure of propane, kPa absolute',
    takes: ['temperatureC'],
    lines: [
      line('bottleF', 'temperatureC * 1.8 + 32'),
      line(
        'pressurePsi',
        '((((1.23463079e-10 * bottleF - 1.817499989e-8) * bottleF + 1.929167768e-5) * bottleF + 0.005658595) * bottleF' +
          ' + 0.750256651) * bottleF + 38.3663018',
      ),
      line('pressureKPa', 'pressurePsi * 6.894757293168'),
    ],
    source: { key: 'propaneVapourPressure', place: 'fifth-order fit in psia and F' },
  },
  butanePressureKPa: {
    what: 'Vapour pressure of n-butane, kPa absolute',
    takes: ['temperatureC'],
    lines: [
      line('bottleK', 'temperatureC + 273.15'),
      line(
        'pressureKPa',
        '100 * 10 ^ (bottleK > 272.66 ? 4.35576 - 1175.581 / (bottleK - 2.071) : 3.85002 - 909.65 / (bottleK - 36.146))',
      ),
    ],
    source: { key: 'nistAntoine', place: 'n-butane' },
  },
  canisterPressureKPa: {
    what: 'Vapour pressure of a fresh canister of isobutane with 30 % propane by mass, kPa absolute',
    takes: ['temperatureC'],
    lines: [
      line('bottleK', 'temperatureC + 273.15'),
      line(
        'isobutaneKPa',
        '100 * 10 ^ (bottleK > 261.31 ? 4.3281 - 1132.108 / (bottleK + 0.918) : 3.94417 - 912.141 / (bottleK - 29.808))',
      ),
      line('propaneShare', '(0.3 / 44.1) / (0.3 / 44.1 + 0.7 / 58.12)'),
      line('pressureKPa', 'propaneShare * propanePressureKPa(temperatureC) + (1 - propaneShare) * isobutaneKPa'),
    ],
    source: { key: 'nistAntoine', place: 'isobutane; law of Raoult' },
  },
  localTimeAfter: {
    what: 'Local time so many minutes after another, written year-month-day, T, hours:minutes',
    takes: ['localTime', 'minutes'],
    lines: [],
    rule:
      'The minutes are added to the time; from midnight on it is the next day of the calendar. Where the clocks are put ' +
      'forward or back in between, that is a step of its own',
    source: { key: 'planner-derivation', place: 'clock and calendar' },
  },
  hotSoakIntegral: {
    what: 'Integral of 1 / k1 over a soak that starts hot and cools towards the air, kg/kg',
    takes: [
      'hours',
      'waterC',
      'airC',
      'timeConstantHours',
      'k1ReferenceHours',
      'referenceC',
      'upToC and activationKJPerMol of each range of temperature',
    ],
    lines: [],
    rule:
      'Simpson over 32 equal intervals of the time; the water is at airC + (waterC - airC) exp(-t / timeConstantHours), ' +
      'and ln k1 changes from that at referenceC by activation / 0.008314 times the step of 1 / (C + 273.15), each range ' +
      'of temperature with its own activation energy (the last holds beyond its end)',
    source: { key: 'planner-derivation', place: 'Peleg in its differential form' },
  },
  boilBeforeBoxMinutes: {
    what: 'Minutes of boil after which a cooling box does the rest of the softening, min',
    takes: [
      'softeningMinutes',
      'hydrationMinutes',
      'zBelowK',
      'zAboveK',
      'hydrationZK',
      'cutOffC',
      'temperatureC',
      'boxStartC',
      'boxAirC',
      'boxTimeConstantHours',
      'boxMinutes',
    ],
    lines: [],
    rule:
      'The box counts while it is above cutOffC, boxMinutes at most; it is at boxAirC + (boxStartC - boxAirC) ' +
      'exp(-t / boxTimeConstantHours). Minutes at 100 C that it is worth are summed over 48 equal intervals by the ' +
      'trapezium rule, 10^((T - 100) / z) a minute, with zBelowK up to 100 C and zAboveK above for softening, with ' +
      'hydrationZK for water. Where water is missing (hydrationMinutes > 0) and the whole box is worth at least ' +
      'softeningMinutes, water goes on entering until the rest of the box is just enough to soften, interpolated within ' +
      'an interval; what is then still missing is boiled. Else all missing water enters at the boil, and what the box ' +
      'does not soften is boiled too. Minutes at the boil are those at 100 C times 10^((100 - temperatureC) / z)',
    source: { key: 'planner-derivation', place: 'cook value of a cooling pot' },
  },
};

/**
 * Ordinary functions that relations may name besides these; `pi` is the only constant with a name. `round(x, n)` is x to n
 * decimals, halves up; `floor` drops what is behind the point.
 */
export const ORDINARY_FUNCTIONS: readonly string[] = ['exp', 'ln', 'sqrt', 'min', 'max', 'round', 'floor'];
