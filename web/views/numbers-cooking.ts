import { useState } from 'preact/hooks';
import type { CookTimeAnswer, SoakingAnswer } from '../api-types.ts';
import { Calculator, useAnswer } from '../components/calculator.ts';
import { CheckField, ChoiceField, NumberField } from '../components/fields.ts';
import { FoodPicker } from '../components/food-picker.ts';
import { html } from '../html.ts';
import { writeNumber, writeShort } from '../numbers.ts';
import { usePage } from '../page-state.ts';
import { useHomeElevation } from './numbers-boiling.ts';
import { spreadInWords } from './plan-meal.ts';

const SOAK_ADDITIVES = [
  ['none', 'Plain water'],
  ['salt', 'Salt'],
  ['bicarbonate', 'Baking soda'],
] as const;
const COOK_ADDITIVES = [
  ['none', 'Nothing'],
  ['bicarbonate', 'Baking soda'],
  ['acid', 'Something sour'],
] as const;
const STARTS = [
  ['cool', 'Cool water'],
  ['hot', 'Hot water that cools'],
] as const;

export function SoakingCalculator() {
  const [foodId, setFoodId] = useState('kidney-bean');
  const [hours, setHours] = useState(12);
  const [waterC, setWaterC] = useState(15);
  const [start, setStart] = useState('cool');
  const [additive, setAdditive] = useState('none');
  const question = { foodId, hours, waterC, start, additive };
  const asked = useAnswer<SoakingAnswer>((page) => page.api.post('/api/soaking?explain=1', question), question);
  const { answer } = asked;
  return html`<${Calculator}
    title="Soaking"
    asked=${asked}
    form=${html`
      <${FoodPicker} label="Food" value=${foodId} boiled onValue=${setFoodId} />
      <${NumberField} label="Time in water" quantity="hours" value=${hours} minimum=${0} maximum=${72} onValue=${(value: number | undefined) => setHours(value ?? 12)} />
      <${NumberField} label="Water" quantity="temperatureC" value=${waterC} minimum=${0} maximum=${100} onValue=${(value: number | undefined) => setWaterC(value ?? 15)} />
      <${ChoiceField} label="Begins with" value=${start} options=${STARTS} onValue=${(value: string | undefined) => setStart(value ?? 'cool')} />
      <${ChoiceField} label="In the water" value=${additive} options=${SOAK_ADDITIVES} onValue=${(value: string | undefined) => setAdditive(value ?? 'none')} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<p class="answer-main">${percent(answer.hydrationShare.p50)} soaked through (${percent(answer.hydrationShare.p10)} to ${percent(answer.hydrationShare.p90)})</p>
            <p>
              Takes up ${writeShort(answer.uptakeGPerG.p50)} g of water per g. For 1 kg: ${writeShort(answer.waterLPerKg.supplied)} L in, ${writeShort(answer.waterLPerKg.absorbed)} L taken up, ${writeShort(answer.waterLPerKg.discarded)} L poured away.
            </p>
            <p>${answer.safe ? '✓ Safe to stand so long.' : '⚠ Too long at this temperature.'} At most ${writeShort(answer.limitHours)} h. ${answer.advice}</p>`
    }
  <//>`;
}

function percent(share: number): string {
  return `${writeNumber(share * 100, 0)}\u00a0%`;
}

export function CookTimeCalculator() {
  const { units } = usePage();
  const home = useHomeElevation();
  const [foodId, setFoodId] = useState('kidney-bean');
  const [elevation, setElevation] = useState<number | undefined>(undefined);
  const [gaugeKPa, setGaugeKPa] = useState<number | undefined>(undefined);
  const [soakHours, setSoakHours] = useState<number | undefined>(12);
  const [soakC, setSoakC] = useState(15);
  const [discard, setDiscard] = useState(true);
  const [additive, setAdditive] = useState('none');
  const [years, setYears] = useState<number | undefined>(undefined);
  const question = {
    foodId,
    elevationM: elevation ?? home,
    ...(gaugeKPa === undefined ? {} : { gaugeKPa }),
    ...(soakHours === undefined ? {} : { soak: { hours: soakHours, waterC: soakC, discardWater: discard } }),
    cookingAdditive: additive,
    ...(years === undefined ? {} : { storage: { years, temperatureC: 15, moisturePercent: 10 } }),
  };
  const asked = useAnswer<CookTimeAnswer>((page) => page.api.post('/api/cook-time?explain=1', question), question);
  const { answer } = asked;
  return html`<${Calculator}
    title="Cooking time"
    asked=${asked}
    form=${html`
      <${FoodPicker} label="Food" value=${foodId} boiled onValue=${setFoodId} />
      <${NumberField} label="Elevation" quantity="elevationM" value=${elevation} minimum=${-430} maximum=${6000} whenEmpty=${home} onValue=${setElevation} />
      <${NumberField} label="Pressure cooker, gauge" quantity="kPa" value=${gaugeKPa} minimum=${0} maximum=${150} whenEmpty="open pot" onValue=${setGaugeKPa} />
      <${NumberField} label="Soaked for" quantity="hours" value=${soakHours} minimum=${0} maximum=${72} whenEmpty="not soaked" onValue=${setSoakHours} />
      <${NumberField} label="Soak water" quantity="temperatureC" value=${soakC} minimum=${0} maximum=${100} onValue=${(value: number | undefined) => setSoakC(value ?? 15)} />
      <${ChoiceField} label="In the pot" value=${additive} options=${COOK_ADDITIVES} onValue=${(value: string | undefined) => setAdditive(value ?? 'none')} />
      <${NumberField} label="Stored for" quantity="years" value=${years} minimum=${0} maximum=${40} whenEmpty="fresh" hint="at 15 °C and 10 % moisture" onValue=${setYears} />
      <${CheckField} label="The soak water is poured away" value=${discard} onValue=${setDiscard} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<p class="answer-main">${spreadInWords(answer.minutes, 'minutes', units)}</p>
            <p>At ${writeNumber(answer.temperatureC, 1)} °C in the pot, counted from the boil.${answer.extrapolated ? ' This lies outside the measured temperatures: an extrapolation.' : ''}</p>
            ${
              answer.lectin.verdict === 'not-applicable'
                ? null
                : html`<p class=${answer.lectin.verdict === 'refused' ? 'notice' : undefined}>
                    ${answer.lectin.verdict === 'safe' ? '✓ ' : '✕ Refused. '}${answer.lectin.reason} ${answer.lectin.wayOut}
                  </p>`
            }`
    }
  <//>`;
}
