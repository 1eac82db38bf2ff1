import { useState } from 'preact/hooks';
import type {
  CoolingAnswer,
  FuelId,
  FuelUseAnswer,
  InsulationMaterialId,
  Lid,
  StoveTypeId,
  Wind,
} from '../api-types.ts';
import { Calculator, Figure, useAnswer } from '../components/calculator.ts';
import { DataTable } from '../components/data-table.ts';
import { HowButton } from '../components/derivation.ts';
import { ChoiceField, NumberField } from '../components/fields.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { INSULATION_NAMES, LID_NAMES, WIND_NAMES, wordsOf } from '../names.ts';
import { hoursAtMost, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { useHomeElevation } from './numbers-boiling.ts';
import { spreadInWords } from './plan-meal.ts';
import { choices } from './set-up-part.ts';

export function FuelUseCalculator() {
  const page = usePage();
  const { units } = page;
  const place = page.household?.state().body.places[0];
  const home = useHomeElevation();
  const [typeId, setTypeId] = useState<StoveTypeId>('propane-camp');
  const [fuelId, setFuelId] = useState<FuelId>('propane');
  const [capacityL, setCapacityL] = useState(4);
  const [lid, setLid] = useState<Lid>('snug');
  const [waterL, setWaterL] = useState(2);
  const [startC, setStartC] = useState(8);
  const [air, setAir] = useState<number | undefined>(undefined);
  const [wind, setWind] = useState<Wind>('screened');
  const [holdMinutes, setHoldMinutes] = useState(20);
  const [elevation, setElevation] = useState<number | undefined>(undefined);
  const airHome = place?.outdoorC ?? 5;
  const question = {
    stove: { typeId },
    fuelId,
    vessel: { kind: 'pot', capacityL, material: 'aluminium', lid },
    waterL,
    foods: [],
    startC,
    airC: air ?? airHome,
    elevationM: elevation ?? home,
    wind,
    holdMinutes,
  };
  const asked = useAnswer<FuelUseAnswer>((given) => given.api.post('/api/fuel-use?explain=1', question), question);
  const { answer } = asked;
  const types = page.tables.stoveTypes;
  const fuelsOfType = (id: StoveTypeId) => types.find((row) => row.id === id)?.fuelIds as FuelId[] | undefined;
  const fuels = page.tables.fuels.filter((row) => fuelsOfType(typeId)?.includes(row.id as FuelId) ?? true);
  return html`<${Calculator}
    title="Fuel for one pot"
    asked=${asked}
    form=${html`
      <${ChoiceField}
        label="Stove"
        value=${typeId}
        options=${types.length === 0 ? [[typeId, wordsOf(typeId)]] : types.map((row) => [row.id, wordsOf(row.name)])}
        onValue=${(value: StoveTypeId | undefined) => {
          const next = value ?? 'propane-camp';
          const burnt = fuelsOfType(next);
          setTypeId(next);
          if (burnt !== undefined && !burnt.includes(fuelId) && burnt[0] !== undefined) setFuelId(burnt[0]);
        }}
      />
      <${ChoiceField} label="Fuel" value=${fuelId} options=${fuels.length === 0 ? [[fuelId, wordsOf(fuelId)]] : fuels.map((row) => [row.id, wordsOf(row.name)])} onValue=${(value: FuelId | undefined) => setFuelId(value ?? fuelId)} />
      <${NumberField} label="Pot, to the brim" quantity="litres" value=${capacityL} minimum=${0.1} maximum=${100} onValue=${(value: number | undefined) => setCapacityL(value ?? 4)} />
      <${ChoiceField} label="Lid" value=${lid} options=${choices(LID_NAMES)} onValue=${(value: Lid | undefined) => setLid(value ?? 'snug')} />
      <${NumberField} label="Water in it" quantity="litres" value=${waterL} minimum=${0} maximum=${100} onValue=${(value: number | undefined) => setWaterL(value ?? 2)} />
      <${NumberField} label="Water at the start" quantity="temperatureC" value=${startC} minimum=${-50} maximum=${100} onValue=${(value: number | undefined) => setStartC(value ?? 8)} />
      <${NumberField} label="Kept at the boil" quantity="minutes" value=${holdMinutes} minimum=${0} maximum=${1440} onValue=${(value: number | undefined) => setHoldMinutes(value ?? 20)} />
      <${NumberField} label="Air" quantity="temperatureC" value=${air} minimum=${-50} maximum=${60} whenEmpty=${airHome} onValue=${setAir} />
      <${ChoiceField} label="Wind" value=${wind} options=${choices(WIND_NAMES)} onValue=${(value: Wind | undefined) => setWind(value ?? 'screened')} />
      <${NumberField} label="Elevation" quantity="elevationM" value=${elevation} minimum=${-430} maximum=${6000} whenEmpty=${home} onValue=${setElevation} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<dl class="figures">
              ${
                answer.fuelKg === null
                  ? null
                  : html`<${Figure} label="Fuel" main answer=${answer} quantity=${['fuelKg']}>${spreadInWords(answer.fuelKg, 'kg', units)}<//>`
              }
              <${Figure} label="Heat of the fuel" main=${answer.fuelKg === null} answer=${answer} quantity=${['fuelMJ']}>${spreadInWords(answer.fuelMJ, 'MJ', units)}<//>
              <${Figure} label="To the boil" answer=${answer} quantity=${['minutesToBoil']}>${spreadInWords(answer.minutesToBoil, 'minutes', units)}<//>
              <${Figure} label="Boils off" answer=${answer} quantity=${['boiledOffL']}>${spreadInWords(answer.boiledOffL, 'litres', units)}<//>
              <${Figure} label="Heating up" answer=${answer} quantity=${['heatUpMJ']}>${say(answer.breakdown.heatUpMJ, 'MJ', units)}<//>
              <${Figure} label="Keeping at the boil" answer=${answer} quantity=${['holdMJ']}>${say(answer.breakdown.holdMJ, 'MJ', units)}<//>
              <${Figure} label="Lighting" answer=${answer} quantity=${['startUpMJ']}>${say(answer.breakdown.startUpMJ, 'MJ', units)}<//>
              <${Figure} label="Floor: the least that physics allows" answer=${answer} quantity=${['floorMJ']}>${say(answer.floorMJ, 'MJ', units)}<//>
            </dl>`
    }
  <//>`;
}

export function CoolingCalculator() {
  const { units } = usePage();
  const [kind, setKind] = useState<'pot' | 'flask'>('pot');
  const [capacityL, setCapacityL] = useState(6);
  const [fillL, setFillL] = useState(5);
  const [startC, setStartC] = useState(92);
  const [airC, setAirC] = useState(12);
  const [materialId, setMaterialId] = useState<InsulationMaterialId | undefined>('eps');
  const [thicknessMm, setThicknessMm] = useState(50);
  const [hours, setHours] = useState(8);
  const question = {
    vessel: { kind, capacityL, ...(kind === 'pot' ? { material: 'aluminium', lid: 'snug' } : {}) },
    fillL,
    startC,
    airC,
    ...(kind === 'pot' && materialId !== undefined ? { insulation: { materialId, thicknessMm } } : {}),
    hours,
  };
  const asked = useAnswer<CoolingAnswer>((page) => page.api.post('/api/cooling?explain=1', question), question);
  const { answer } = asked;
  const kinds = [
    ['pot', 'Pot with a snug lid'],
    ['flask', 'Vacuum flask'],
  ] as const;
  return html`<${Calculator}
    title="Keeping hot: box and flask"
    asked=${asked}
    form=${html`
      <${ChoiceField} label="Vessel" value=${kind} options=${kinds} onValue=${(value: 'pot' | 'flask' | undefined) => setKind(value ?? 'pot')} />
      <${NumberField} label="Holds" quantity="litres" value=${capacityL} minimum=${0.1} maximum=${100} onValue=${(value: number | undefined) => setCapacityL(value ?? 6)} />
      <${NumberField} label="Filled with" quantity="litres" value=${fillL} minimum=${0.05} maximum=${100} onValue=${(value: number | undefined) => setFillL(value ?? 5)} />
      <${NumberField} label="Hot at the start" quantity="temperatureC" value=${startC} minimum=${0} maximum=${130} onValue=${(value: number | undefined) => setStartC(value ?? 92)} />
      <${NumberField} label="Air around" quantity="temperatureC" value=${airC} minimum=${-50} maximum=${60} onValue=${(value: number | undefined) => setAirC(value ?? 12)} />
      ${
        kind === 'pot'
          ? html`<${ChoiceField} label="Insulation" value=${materialId} options=${choices(INSULATION_NAMES)} whenEmpty="none" onValue=${setMaterialId} />
              <${NumberField} label="Thickness" quantity="mm" value=${thicknessMm} minimum=${1} maximum=${500} onValue=${(value: number | undefined) => setThicknessMm(value ?? 50)} />`
          : null
      }
      <${NumberField} label="Time" quantity="hours" value=${hours} minimum=${0.1} maximum=${72} onValue=${(value: number | undefined) => setHours(value ?? 8)} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<dl class="figures">
              <${Figure} label=${`Above ${say(60, 'temperatureC', units)}`} main answer=${answer} quantity=${['hoursAbove60C']}>
                ${hoursAtMost(answer.hoursAbove60C.p50)} h (${hoursAtMost(answer.hoursAbove60C.p10)} to ${hoursAtMost(answer.hoursAbove60C.p90)} h)
              <//>
              <${Figure} label="At the end" answer=${answer} quantity=${['temperatureC']}>${say(answer.temperatureC[answer.temperatureC.length - 1]?.p50 ?? 0, 'temperatureC', units)}<//>
              <${Figure} label="Time constant" answer=${answer} quantity=${['timeConstantHours']}>${writeShort(answer.timeConstantHours.p50)} h<//>
            </dl>
            <${DataTable}
              caption="Temperature by the hour"
              head=${['Hours', 'Low', 'Typical', 'High']}
              rows=${answer.temperatureC.map((row, at) => [writeShort(row.hours), say(row.p10, 'temperatureC', units), html`${say(row.p50, 'temperatureC', units)} <${HowButton} of=${`Temperature after ${writeShort(row.hours)} h`} quantity=${[at === answer.temperatureC.length - 1 ? 'temperatureC' : `temperatureAfter${Math.round(row.hours * 60)}Minutes`]} steps=${answer.explanation ?? []} />`, say(row.p90, 'temperatureC', units)])}
            />`
    }
  <//>`;
}
