/**
 * Conversions between SI and the units that people in the United States read and type. Nowhere else in the program is a
 * conversion factor written.
 *
 * Exact definitions: NIST Special Publication 811, appendix B. Btu is the International Table Btu.
 */

export const METRES_PER_FOOT = 0.3048;
export const KPA_PER_PSI = 6.894757293168;
export const KPA_PER_IN_HG = 3.386389;
export const KPA_PER_HPA = 0.1;
export const KPA_PER_KGF_PER_CM2 = 98.0665;
export const LITRES_PER_GALLON = 3.785411784;
export const LITRES_PER_QUART = LITRES_PER_GALLON / 4;
export const LITRES_PER_CUP = LITRES_PER_GALLON / 16;
export const LITRES_PER_FLUID_OUNCE = LITRES_PER_GALLON / 128;
export const KG_PER_POUND = 0.45359237;
export const KG_PER_OUNCE = KG_PER_POUND / 16;
export const MJ_PER_KWH = 3.6;
export const KJ_PER_BTU = 1.05505585262;
export const MM_PER_INCH = 25.4;
export const KELVIN_AT_0_C = 273.15;
/** kW of one kilocalorie (international table) per hour. */
export const KW_PER_KCAL_PER_HOUR = 4.1868 / 3600;

/** Degrees Celsius to kelvin. */
export const celsiusToKelvin = (celsius: number): number => celsius + KELVIN_AT_0_C;
/** Kelvin to degrees Celsius. */
export const kelvinToCelsius = (kelvin: number): number => kelvin - KELVIN_AT_0_C;
/** Degrees Celsius to degrees Fahrenheit. */
export const celsiusToFahrenheit = (celsius: number): number => celsius * 1.8 + 32;
/** Degrees Fahrenheit to degrees Celsius. */
export const fahrenheitToCelsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
/** A temperature difference in K to one in degrees Fahrenheit. */
export const kelvinStepToFahrenheit = (kelvin: number): number => kelvin * 1.8;

/** Metres to feet. */
export const metresToFeet = (metres: number): number => metres / METRES_PER_FOOT;
/** Feet to metres. */
export const feetToMetres = (feet: number): number => feet * METRES_PER_FOOT;
/** Millimetres to inches. */
export const millimetresToInches = (millimetres: number): number => millimetres / MM_PER_INCH;
/** Inches to millimetres. */
export const inchesToMillimetres = (inches: number): number => inches * MM_PER_INCH;

/** kPa to pounds per square inch. */
export const kPaToPsi = (kPa: number): number => kPa / KPA_PER_PSI;
/** Pounds per square inch to kPa. */
export const psiToKPa = (psi: number): number => psi * KPA_PER_PSI;
/** kPa to inches of mercury. */
export const kPaToInHg = (kPa: number): number => kPa / KPA_PER_IN_HG;
/** Inches of mercury to kPa. */
export const inHgToKPa = (inHg: number): number => inHg * KPA_PER_IN_HG;
/** kPa to hectopascal (millibar). */
export const kPaToHPa = (kPa: number): number => kPa / KPA_PER_HPA;
/** Hectopascal (millibar) to kPa. */
export const hPaToKPa = (hPa: number): number => hPa * KPA_PER_HPA;
/** Technical atmospheres (kgf/cm2) to kPa. */
export const kgfPerCm2ToKPa = (kgfPerCm2: number): number => kgfPerCm2 * KPA_PER_KGF_PER_CM2;

/** Litres to US gallons. */
export const litresToGallons = (litres: number): number => litres / LITRES_PER_GALLON;
/** US gallons to litres. */
export const gallonsToLitres = (gallons: number): number => gallons * LITRES_PER_GALLON;
/** Litres to US quarts. */
export const litresToQuarts = (litres: number): number => litres / LITRES_PER_QUART;
/** US quarts to litres. */
export const quartsToLitres = (quarts: number): number => quarts * LITRES_PER_QUART;
/** Litres to US cups. */
export const litresToCups = (litres: number): number => litres / LITRES_PER_CUP;
/** US cups to litres. */
export const cupsToLitres = (cups: number): number => cups * LITRES_PER_CUP;
/** Litres to US fluid ounces. */
export const litresToFluidOunces = (litres: number): number => litres / LITRES_PER_FLUID_OUNCE;
/** US fluid ounces to litres. */
export const fluidOuncesToLitres = (fluidOunces: number): number => fluidOunces * LITRES_PER_FLUID_OUNCE;

/** Kilograms to pounds. */
export const kgToPounds = (kg: number): number => kg / KG_PER_POUND;
/** Pounds to kilograms. */
export const poundsToKg = (pounds: number): number => pounds * KG_PER_POUND;
/** Kilograms to ounces. */
export const kgToOunces = (kg: number): number => kg / KG_PER_OUNCE;
/** Ounces to kilograms. */
export const ouncesToKg = (ounces: number): number => ounces * KG_PER_OUNCE;

/** Megajoules to kilowatt-hours. */
export const mjToKWh = (mj: number): number => mj / MJ_PER_KWH;
/** Kilowatt-hours to megajoules. */
export const kWhToMj = (kWh: number): number => kWh * MJ_PER_KWH;
/** Megajoules to Btu. */
export const mjToBtu = (mj: number): number => (mj * 1000) / KJ_PER_BTU;
/** Btu to megajoules. */
export const btuToMj = (btu: number): number => (btu * KJ_PER_BTU) / 1000;
/** Kilocalories per hour (burner ratings) to kW. */
export const kcalPerHourToKW = (kcalPerHour: number): number => kcalPerHour * KW_PER_KCAL_PER_HOUR;
/** Thermal resistance in ft2 h F/Btu (R-value as sold) to m2 K/W. */
export const rValueToM2KPerW = (rValue: number): number =>
  (rValue * METRES_PER_FOOT ** 2 * 3600) / (1.8 * KJ_PER_BTU * 1000);
