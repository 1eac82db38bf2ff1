/** Quantities of a derivation in plain words. */

/** Name of a quantity, without what it belongs to, in words. Units stand beside the value and are not said again. */
const QUANTITIES: Readonly<Record<string, string>> = {
  // Place, air and boiling
  elevationM: 'Elevation above the sea',
  pressureKPa: 'Air pressure',
  seaLevelPressureKPa: 'Air pressure reduced to sea level',
  gaugeKPa: 'Gauge pressure of the pressure cooker',
  boilingPointC: 'Boiling point',
  inCookerC: 'Temperature in the pressure cooker',
  temperatureC: 'Temperature',
  airC: 'Air around',
  startC: 'Temperature at the start',
  endC: 'Temperature at the boil',
  latentKJPerKg: 'Heat to boil off water',
  // Soak
  soakHours: 'Time in the soak',
  soakWaterC: 'Soak water',
  soakAirC: 'Air around the soak',
  soakWaterL: 'Soak water put in',
  coolingHours: 'Time constant of a covered bowl',
  limitHours: 'Longest safe soak',
  safe: 'Safe to stand so long',
  k1Hours: 'How slowly water enters, at this temperature',
  k1ReferenceHours: 'How slowly water enters, at the reference temperature',
  referenceC: 'Reference temperature of the soak',
  k2: 'How soon the seed is full',
  lagHours: 'Wait until a hard coat lets water in',
  activation1KJPerMol: 'How warmth speeds the soak, cold water',
  activation2KJPerMol: 'How warmth speeds the soak, lukewarm water',
  activation3KJPerMol: 'How warmth speeds the soak, hot water',
  soakIntegral: 'Progress of the soak',
  soakUptake: 'Water taken up by dry food in this soak',
  fullSoakHours: 'Full soak: time',
  fullSoakC: 'Full soak: temperature',
  fullSoakK1Hours: 'How slowly water enters in a full soak',
  fullSoakUptake: 'Water taken up in a full soak',
  hydrationShare: 'Share of a full soak',
  hardSeedShare: 'Seeds that take up nothing',
  waterGPer100G: 'Water in the food as bought',
  absorbedLPerKg: 'Water taken up by a kilogram',
  usualLPerKg: 'Soak water as is usual',
  coveringLPerKg: 'Soak water that covers',
  suppliedLPerKg: 'Soak water for a kilogram',
  discardedLPerKg: 'Soak water poured away for a kilogram',
  rinseLPerKg: 'Rinse water for a kilogram',
  rinseL: 'Rinse water',
  uptakeGPerG: 'Water taken up by the food as bought',
  soakSavesShare: 'Share of the minutes that a full soak saves',
  additiveFactor: 'Factor for what is in the water',
  // Softening and lectin
  storageYears: 'Time in store',
  storageC: 'Temperature of the store',
  storageMoisturePercent: 'Moisture of the food',
  hardeningPerYear: 'Hardening in a year',
  storageFactor: 'Factor for the time in store',
  potAdditiveUnsoaked: 'Factor for what is in the pot, unsoaked',
  potAdditiveSoaked: 'Factor for what is in the pot, soaked',
  softeningMinutes: 'Softening minutes',
  softeningZK: 'Temperature step for a tenfold rate of softening',
  zAboveK: 'Temperature step for a tenfold rate, above 100 °C',
  zBelowK: 'Temperature step for a tenfold rate, below 100 °C',
  softeningAtPot: 'Softening minutes at the temperature of the pot',
  hydrationMinutes: 'Hydration minutes',
  hydrationZK: 'Temperature step for a tenfold rate of hydration',
  hydrationAtPot: 'Hydration minutes at the temperature of the pot',
  measuredFromC: 'Coldest that was measured',
  measuredToC: 'Hottest that was measured',
  extrapolated: 'Outside the measured temperatures',
  minutes: 'Minutes at the boil',
  leastBoilMinutes: 'Least time at the boil',
  neededBoilMinutes: 'Time at the boil that the food needs',
  boilMinutes: 'Time at the boil',
  boilMinutesNeeded: 'Boil that the lectin rule asks',
  lectinCountsFromC: 'Coolest boil that the lectin rule counts',
  lectinMinutesAt100C: 'Boil at 100 °C that the lectin rule asks',
  lectinZK: 'Temperature step for a tenfold rate of the lectin rule',
  winterLowFactor: 'Factor for low air pressure in winter',
  lectinBoil: 'Boil that the lectin rule asks at this temperature',
  lectinSoakHours: 'Soak that the lectin rule asks',
  lectinSoakShare: 'Share of a full soak that the lectin rule asks',
  soakCounts: 'The soak counts for the lectin rule',
  lectinVerdict: 'Verdict of the lectin rule',
  standMinutes: 'Time to stand',
  standMinutesHot: 'Time to stand in hot water',
  standMinutesCold: 'Time to stand in cold water',
  measuredLot: 'Factor of this lot, by own tests',
  soakAdditiveFull: 'Factor for what is in a full soak',
  warmestC: 'Warmest that still keeps',
  endAskedC: 'Temperature asked for',
  // Food and water of the dish
  servings: 'Servings cooked',
  kitServings: 'Servings of one set',
  kitG: 'In one set',
  dishG: 'In the dish',
  massG: 'Mass in the pot',
  heldGPerG: 'Water held when done',
  specificHeat: 'Specific heat',
  absorbedL: 'Water that the food takes up',
  absorbedInSoakL: 'Water taken up in the soak',
  liquidLPerServing: 'Liquid of a serving',
  pastaLPerKg: 'Water for a kilogram of pasta',
  leastWaterL: 'Least water in the pot',
  waterNeededL: 'Water that the dish needs',
  dryKgPerL: 'Density of dry food',
  volumeL: 'Volume of the dish',
  waterL: 'Water in the pot',
  waterInPotL: 'Water put in the pot',
  waterTotalL: 'Water of the dish in all',
  topUpL: 'Water added hot while it boils',
  boiledOffL: 'Water boiled off',
  boiledOffHighL: 'Water boiled off, 9 times in 10 less',
  fillShare: 'How full the pot is',
  fillLimitShare: 'How full the pot may be',
  // Heat taken up
  waterKJ: 'Heat for the water',
  foodsKJ: 'Heat for the food',
  contentsKJ: 'Heat for all that is in the pot',
  potKJ: 'Heat for the pot itself',
  sensibleKJ: 'Heat for pot and contents, as handled',
  extraHeatKJ: 'Further heat',
  flashShare: 'Share of the water that flashes to steam',
  dishKJPerLK: 'Heat that a litre of the dish holds',
  floorMJ: 'Floor: least energy that physics allows',
  // Vessel
  vesselCapacityL: 'Vessel, to the brim',
  diameterM: 'Diameter of the vessel',
  diameterMm: 'Diameter of the vessel, as measured',
  heightM: 'Height of the vessel',
  baseM2: 'Area of the base',
  sideM2: 'Area of the side',
  potSurfaceM2: 'Surface of the pot',
  wettedShare: 'Share of the side that is wetted',
  wallMm: 'Thickness of the wall',
  baseDiscMm: 'Aluminium under the base',
  metalKgPerM3: 'Density of the metal',
  fittings: 'Factor for handles, rim and knob',
  potMassKg: 'Mass of the pot',
  potMass: 'Factor for a heavier or lighter pot',
  potSpecificHeat: 'Specific heat of the pot',
  pot: 'Heat that the pot holds',
  // Stove, flame and fuel
  stoveEfficiency: 'Efficiency of the stove',
  stovePower: 'Power at full flame',
  lowestFlame: 'Lowest steady flame',
  startUp: 'Fuel heat of one lighting',
  startUpMJ: 'Start-up',
  startUpMinutes: 'Time until full power',
  wind: 'Factor for wind',
  cook: 'Factor for handling the flame',
  measuring: 'Factor for measuring by cup and feel',
  fuel: 'Heat in a kilogram of fuel',
  fuelDryMJPerKg: 'Heat in a kilogram of dry fuel',
  fuelMoisturePercent: 'Moisture of the fuel',
  altitudePowerExponent: 'How power falls with air pressure',
  fullPowerKPa: 'Gauge pressure for full power',
  coldPowerShare: 'Power left in the cold',
  powerShare: 'Power left at this place',
  referenceLoadKWPerM: 'Flame for the width of the pot, reference',
  halfLoadKWPerM: 'Flame for the width of the pot, too large by half',
  matchedLoadKWPerM: 'Flame for the width of the pot, as a cook sets it',
  loadKWPerM: 'Flame for the width of the pot',
  typicalPowerKW: 'Typical power of such a stove',
  flameKW: 'Flame on the way up',
  efficiencyHeatUp: 'Efficiency on the way up',
  intoPotKW: 'Heat into the pot on the way up',
  heatUpLossMeanKW: 'Mean loss on the way up',
  heatUpMinutes: 'Time on the way up',
  heatUpLossKJ: 'Heat lost on the way up',
  heatUpMJ: 'Fuel heat for the way up',
  minutesToBoil: 'Time to the boil',
  holdMinutes: 'Time kept at the boil',
  holdDryKW: 'Loss at the boil, without steam',
  holdLeakKW: 'Loss at the boil, steam past the lid',
  holdLeakFactor: 'Factor for steam at the boil',
  holdLossKW: 'Loss at the boil',
  leastFlameKW: 'Least flame at the boil',
  efficiencyHold: 'Efficiency at the boil',
  holdFlameKW: 'Flame at the boil',
  holdHeatKW: 'Heat into the pot at the boil',
  holdMJ: 'Fuel heat for the hold',
  heatToPotMJ: 'Heat that reaches the pot',
  fuelMJ: 'Heat of the fuel',
  fuelKg: 'Fuel',
  dishFuelKg: 'Fuel of the dish',
  dishFuelKWh: 'Electricity of the dish',
  dishFuelMJ: 'Heat of the fuel of the dish',
  dishMinutesToBoil: 'Time to the boil of the dish',
  usualMJ: 'Heat of the fuel the usual way',
  carefulMJ: 'Heat of the fuel with a careful cook',
  planMJ: 'Heat of the fuel of the whole plan, fires lit included',
  planUsualMJ: 'Heat of the fuel of the whole plan the usual way',
  planCarefulMJ: 'Heat of the fuel of the whole plan with a careful cook',
  planFloorMJ: 'Least heat that physics allows for the whole plan',
  vapourShare: 'Share of the loss that is steam',
  // Work by hand
  measuringWorkMinutes: 'Measuring water and goods',
  soakWorkMinutes: 'Setting the soak and draining it',
  firstWaterWorkMinutes: 'Pouring the first water away',
  boxWorkMinutes: 'Moving it into box or flask',
  withoutFireWorkMinutes: 'Making it ready without fire',
  lookShare: 'Share of the boil spent looking whether it is soft',
  stirShare: 'Share of the time on the flame spent stirring and minding it',
  handsOnMinutes: 'Minutes by hand',
  // Eat by
  roomC: 'Air of the room',
  hotAirC: 'Air in which the shorter rule holds, from',
  hoursOut: 'Longest time out of the heat',
  hoursOutHot: 'Longest time out of the heat, hot air',
  hotHoldC: 'Hot enough to keep',
  hoursAfterHeat: 'Time after the heat',
  thermometer: 'Thermometer in the house',
  stayHotHours: 'Time above 60 °C, 9 times in 10 more',
  eatByFrom: 'The clock starts at',
  keepsMinutes: 'Keeps unopened for',
  toTableMinutes: 'From then until the meal',
  eatByMinutes: 'May be eaten for, opened two hours at most',
  clockChangeMinutes: 'Clocks put forward or back in between',
  eatBy: 'Eat by',
  // Losses
  lid: 'Vapour that passes the lid',
  lidC: 'Temperature of the lid',
  openPot: 'Factor for an open pot over a flame',
  potLoss: 'Factor for the loss in still air',
  potSurface: 'How strongly the wall radiates',
  valveSteam: 'Steam past the valve',
  wayUp1C: 'On the way up, first place: temperature',
  wayUp2C: 'On the way up, second place: temperature',
  wayUp3C: 'On the way up, third place: temperature',
  wayUp1EvaporationKW: 'On the way up, first place: steam of an open pot',
  wayUp2EvaporationKW: 'On the way up, second place: steam of an open pot',
  wayUp3EvaporationKW: 'On the way up, third place: steam of an open pot',
  wayUp1SurfaceKW: 'On the way up, first place: loss of the top',
  wayUp2SurfaceKW: 'On the way up, second place: loss of the top',
  wayUp3SurfaceKW: 'On the way up, third place: loss of the top',
  wayUp1LossKW: 'On the way up, first place: loss',
  wayUp2LossKW: 'On the way up, second place: loss',
  wayUp3LossKW: 'On the way up, third place: loss',
  wallConvectionW: 'Loss of the wall to moving air',
  wallRadiationW: 'Loss of the wall by radiation, if black',
  lidConvectionW: 'Loss of the lid to moving air',
  lidRadiationW: 'Loss of the lid by radiation, if black',
  openEvaporationW: 'Steam of an open pot at the boil',
  openSurfaceW: 'Loss of the open surface at the boil',
  // Box and flask
  hours: 'Time',
  fillL: 'Filled with',
  thicknessMm: 'Thickness of the insulation',
  conductivityWPerMK: 'How well the insulation conducts heat',
  insulation: 'Factor for gaps, damp and thin lids',
  draught: 'Factor for draught',
  flask: 'Time constant of a flask of 1 L',
  lossWPerK: 'Loss for each degree',
  meanC: 'Mean temperature',
  timeConstantHours: 'Time constant',
  timeConstantLowHours: 'Time constant, 9 times in 10 more',
  hoursAbove60C: 'Time above 60 °C',
  boxDiameterM: 'Diameter of the box',
  boxSurfaceM2: 'Surface of the box',
  boxStartC: 'Temperature into the box',
  boxAirC: 'Air around the box',
  boxHours: 'Time in the box',
  boxMinutes: 'Minutes in the box',
  boxBoil: 'Boil before the box',
  boxLongestMinutes: 'Longest time in the box',
  boxReachedC: 'Temperature when the box is opened',
  readingC: 'Own reading: temperature',
  ownReading: 'Factor of the own reading',
  boxReadingHours: 'Own reading of the box: after',
  boxReadingC: 'Own reading of the box: temperature',
  boxReadingStartC: 'Own reading of the box: start',
  boxReadingAirC: 'Own reading of the box: air',
  boxTimeConstantHours: 'Time constant of the box',
  boxTimeConstantLowHours: 'Time constant of the box, 9 times in 10 more',
  boxHoursAbove60C: 'Time above 60 °C in the box',
  boxTemperatureC: 'Temperature in the box at the end',
  leastBoxBoilMinutes: 'Least boil before the box',
  cutOffC: 'Coolest that still softens',
};

/** Beginnings of names that say under which condition a quantity stands. */
const CONDITIONS: Readonly<Record<string, string>> = {
  withoutSteam: 'before steam is made up for',
  usual: 'the usual way',
  careful: 'a careful cook',
};

/**
 * A quantity of a derivation in words: "Softening minutes, small red bean". What no table here names is taken apart.
 * @param quantity the identifier of the step
 */
export function quantityWords(quantity: string): string {
  const known = QUANTITIES[quantity];
  if (known !== undefined) return known;
  const after = /^temperatureAfter(\d+)Minutes$/.exec(quantity);
  if (after !== null) return `Temperature after ${timeInWords(Number(after[1]))}`;
  // The longest known ending wins; what stands before it is the food, the kit or the condition.
  for (let at = 1; at < quantity.length; at += 1) {
    const letter = quantity.charAt(at);
    if (letter === letter.toLowerCase()) continue;
    const ending = (letter.toLowerCase() + quantity.slice(at + 1)).replace(/\d$/, '');
    const words = QUANTITIES[ending] ?? QUANTITIES[letter.toLowerCase() + quantity.slice(at + 1)];
    const of = quantity.slice(0, at);
    if (words !== undefined) return `${words}, ${ownerInWords(of)}`;
  }
  const words = apart(quantity);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `usualLentil` as "lentil, the usual way" */
function ownerInWords(of: string): string {
  const condition = Object.keys(CONDITIONS).find(
    (begin) => of.startsWith(begin) && !/^[a-z\d]/.test(of.slice(begin.length)),
  );
  if (condition === undefined) return apart(of);
  const rest = of.slice(condition.length);
  const words = CONDITIONS[condition] as string;
  return rest === '' ? words : `${ownerInWords(rest.charAt(0).toLowerCase() + rest.slice(1))}, ${words}`;
}

/** `90` as "1 h 30 min" */
function timeInWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  return hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** `smallRedBean` as "small red bean"; freeze-dried foods begin with `fd`. */
function apart(name: string): string {
  return name
    .replace(/^fd(?=[A-Z])/, 'freezeDried')
    .replace(/([a-z\d])([A-Z])/g, '$1 $2')
    .replace(/([a-z])(\d)/g, '$1 $2')
    .replace(/\b[A-Z](?=[a-z])/g, (letter) => letter.toLowerCase())
    .replace(/^freeze dried/, 'freeze-dried');
}
