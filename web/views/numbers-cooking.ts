import { useState } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { CookTimeAnswer, SoakingAnswer } from '../api-types.ts';
import { Calculator, Figure, useAnswer } from '../components/calculator.ts';
import { CheckField, ChoiceField, NumberField } from '../components/fields.ts';
import { FoodPicker } from '../components/food-picker.ts';
import { minutesInWords } from '../dates.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { hoursAtMost, writeNumber, writeShort } from '../numbers.ts';
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
  const { units } = usePage();
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
        : html`<dl class="figures">
              <${Figure} label="Soaked through" main answer=${answer} quantity=${['hydrationShare']}>
                ${percent(answer.hydrationShare.p50)} (${percent(answer.hydrationShare.p10)} to ${percent(answer.hydrationShare.p90)})
              <//>
              <${Figure} label="Water taken up, by its own weight" answer=${answer} quantity=${['uptakeGPerG']}>${writeShort(answer.uptakeGPerG.p50)} times<//>
              <${Figure} label=${`Water put in, for ${say(1, 'kg', units)}`} answer=${answer} quantity=${['suppliedLPerKg']}>${say(answer.waterLPerKg.supplied, 'litres', units)}<//>
              <${Figure} label="Of it poured away" answer=${answer} quantity=${['discardedLPerKg']}>${say(answer.waterLPerKg.discarded, 'litres', units)}<//>
              <${Figure} label="Longest safe soak" answer=${answer} quantity=${['limitHours']}>${hoursAtMost(answer.limitHours)} h<//>
            </dl>
            <p>${answer.safe ? '✓ Safe to stand so long.' : '⚠ Too long at this temperature.'} ${textInSystem(answer.advice, units)}</p>`
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
      <${NumberField} label="Stored for" quantity="years" value=${years} minimum=${0} maximum=${40} whenEmpty="fresh" hint=${`at ${say(15, 'temperatureC', units)} and 10 % moisture`} onValue=${setYears} />
      <${CheckField} label="The soak water is poured away" value=${discard} onValue=${setDiscard} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<dl class="figures">
              <${Figure} label="Cooking time, from the boil" main answer=${answer} quantity=${['minutes']}>${spreadInWords(answer.minutes, 'minutes', units)}<//>
              <${Figure} label="In the pot" answer=${answer} quantity=${['temperatureC']}>${say(answer.temperatureC, 'temperatureC', units)}<//>
              ${
                answer.lectin.verdict === 'not-applicable'
                  ? null
                  : html`<${Figure} label="Boil that the lectin rule asks" answer=${answer} quantity=${['boilMinutesNeeded', 'lectinBoil']}>${minutesInWords(answer.lectin.boilMinutesNeeded)}<//>`
              }
            </dl>
            ${answer.extrapolated ? html`<p><span class="estimate"><span aria-hidden="true">≈ </span>extrapolation</span> This lies outside the measured temperatures.</p>` : null}
            ${
              answer.lectin.verdict === 'not-applicable'
                ? null
                : html`<p class=${answer.lectin.verdict === 'refused' ? 'notice' : undefined}>
                    ${answer.lectin.verdict === 'safe' ? '✓ ' : '✕ Refused. '}${textInSystem(`${answer.lectin.reason} ${answer.lectin.wayOut ?? ''}`, units)}
                  </p>`
            }`
    }
  <//>`;
}
