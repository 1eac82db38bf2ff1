/** Quantities with their unit, metric and US, both on paper: "2.0 L (8½ cups)". Factors are those of `physics/units.ts`. */
import {
  celsiusToFahrenheit,
  kgToOunces,
  kgToPounds,
  kPaToPsi,
  litresToCups,
  litresToFluidOunces,
  litresToGallons,
  metresToFeet,
} from '../physics/units.ts';
import { fixed, NBSP, type Rounding, roundToStep, withFraction } from './numbers.ts';

export type UnitSystem = 'metric' | 'us';

/**
 * A volume in one system. Metric: mL below 1 L in steps of 10, then tenths of a litre, whole litres from 20 L. US:
 * tablespoons, cups in quarters, gallons above 16 cups.
 * @param litres >= 0
 */
export function volumeText(litres: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  if (system === 'metric') {
    const millilitres = roundToStep(litres * 1000, litres < 0.05 ? 1 : 10, rounding);
    if (millilitres < 1000) return `${fixed(millilitres)}${NBSP}mL`;
    if (litres < 20) return `${fixed(roundToStep(litres, 0.1, rounding), 1)}${NBSP}L`;
    return `${fixed(roundToStep(litres, 1, rounding))}${NBSP}L`;
  }
  const cups = litresToCups(litres);
  if (cups < 0.25) {
    const spoons = withFraction(litresToFluidOunces(litres) * 2, rounding, 0.5);
    return `${spoons}${NBSP}tbsp`;
  }
  if (cups < 4) return withUnit(withFraction(cups, rounding, 0.25), 'cup');
  if (cups <= 16) return withUnit(withFraction(cups, rounding, 0.5), 'cup');
  return `${withFraction(litresToGallons(litres), rounding, 0.25)}${NBSP}gal`;
}

/**
 * A mass in one system. Metric: g in steps of 1 (below 50 g) or 5, kg in hundredths, tenths from 10, whole from
 * 100. US: ounces in quarters (below 4 oz) or halves, pounds with ounces, quarter pounds from 20 lb.
 * @param kg >= 0
 */
export function massText(kg: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  if (system === 'metric') {
    const grams = roundToStep(kg * 1000, kg < 0.05 ? 1 : 5, rounding);
    if (grams < 1000) return `${fixed(grams)}${NBSP}g`;
    if (kg < 10) return `${fixed(roundToStep(kg, 0.01, rounding), 2)}${NBSP}kg`;
    if (kg < 100) return `${fixed(roundToStep(kg, 0.1, rounding), 1)}${NBSP}kg`;
    return `${fixed(roundToStep(kg, 1, rounding))}${NBSP}kg`;
  }
  const ounces = roundToStep(kgToOunces(kg), kgToOunces(kg) < 4 ? 0.25 : 0.5, rounding);
  if (ounces < 16) return `${withFraction(ounces)}${NBSP}oz`;
  if (kgToPounds(kg) >= 20) return `${withFraction(kgToPounds(kg), rounding, 0.25)}${NBSP}lb`;
  const whole = Math.floor(ounces / 16);
  const rest = ounces - whole * 16;
  return rest === 0 ? `${whole}${NBSP}lb` : `${whole}${NBSP}lb${NBSP}${withFraction(rest)}${NBSP}oz`;
}

/** A mass in a recipe: as `massText`, but grams where ounces would round a pinch to nothing or out of proportion. */
export function recipeMassText(kg: number, system: UnitSystem): string {
  return massText(kg, kgToOunces(kg) < 0.5 ? 'metric' : system);
}

/**
 * A temperature in one system, in whole degrees.
 * @param celsius C
 */
export function temperatureText(celsius: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  return system === 'metric'
    ? `${fixed(roundToStep(celsius, 1, rounding))}${NBSP}°C`
    : `${fixed(roundToStep(celsiusToFahrenheit(celsius), 1, rounding))}${NBSP}°F`;
}

/** A temperature in both systems, the wanted one first. */
export function temperatureBoth(celsius: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  return both((one) => temperatureText(celsius, one, rounding), system);
}

/** A volume in both systems, the wanted one first: "2.0 L (8½ cups)". */
export function volumeBoth(litres: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  return both((one) => volumeText(litres, one, rounding), system);
}

/** A mass in both systems, the wanted one first: "275 g (9½ oz)". */
export function massBoth(kg: number, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  return both((one) => massText(kg, one, rounding), system);
}

/** An elevation in both systems: "1780 m (5840 ft)". */
export function elevationBoth(metres: number, system: UnitSystem): string {
  return both(
    (one) =>
      one === 'metric'
        ? `${fixed(roundToStep(metres, 10))}${NBSP}m`
        : `${fixed(roundToStep(metresToFeet(metres), 10))}${NBSP}ft`,
    system,
  );
}

/** A gauge pressure in both systems: "90 kPa (13 psi)". */
export function pressureBoth(kPa: number, system: UnitSystem): string {
  return both(
    (one) => (one === 'metric' ? `${fixed(kPa)}${NBSP}kPa` : `${fixed(roundToStep(kPaToPsi(kPa), 1))}${NBSP}psi`),
    system,
  );
}

/**
 * A quantity of a schedule step as it is printed, both systems where the unit has two.
 * @param amount in `unit`
 * @param unit `L`, `mL`, `kg`, `g`, `C`, `kWh`, `kPa`, `m`, `min`, or a counted word (`drops`, `bag`, `servings`)
 * @returns number and unit joined by a non-breaking space
 */
export function quantityText(amount: number, unit: string, system: UnitSystem, rounding: Rounding = 'nearest'): string {
  switch (unit) {
    case 'L':
      return volumeBoth(amount, system, rounding);
    case 'mL':
      return volumeBoth(amount / 1000, system, rounding);
    case 'kg':
      return massBoth(amount, system, rounding);
    case 'g':
      return massBoth(amount / 1000, system, rounding);
    case 'C':
    case '°C':
      return temperatureBoth(amount, system, rounding);
    case 'kPa':
      return pressureBoth(amount, system);
    case 'm':
      return elevationBoth(amount, system);
    case 'kWh':
      return `${fixed(roundToStep(amount, 0.01, rounding), 2)}${NBSP}kWh`;
    case 'min':
      return `${fixed(roundToStep(amount, 1, rounding))}${NBSP}min`;
    case 'h':
      return `${withFraction(amount, rounding, 0.5)}${NBSP}h`;
    default:
      return withUnit(withFraction(amount, rounding, 0.25), unit);
  }
}

/**
 * A text whose figures are metric first, "60 °C (140 °F)", with the wanted system first: "140 °F (60 °C)".
 * @param text one with both figures side by side, as the functions above make them
 */
export function inSystem(text: string, system: UnitSystem): string {
  if (system === 'metric') return text;
  return text.replace(
    /([\u2212-]?\d[\d.,½¼¾\u202f]*\u00a0(?:°C|kPa|mL|L|kg|g|m|mm)) \((\S+\u00a0[^()]+)\)/g,
    '$2 ($1)',
  );
}

/** Joins a number with a counted word, in the plural unless the number is one or less. */
function withUnit(text: string, unit: string): string {
  const single = /^(1|¼|½|¾|)$/.test(text);
  const stem = unit.replace(/s$/, '');
  return `${text}${NBSP}${single ? stem : `${stem}s`}`;
}

function both(text: (system: UnitSystem) => string, system: UnitSystem): string {
  const other: UnitSystem = system === 'metric' ? 'us' : 'metric';
  return `${text(system)} (${text(other)})`;
}
