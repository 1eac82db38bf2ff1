import { useState } from 'preact/hooks';
import { textInSystem } from '../../api/wording/text-in-system.ts';
import type { BoilingPointAnswer } from '../api-types.ts';
import { Calculator, Figure, useAnswer } from '../components/calculator.ts';
import { NumberField } from '../components/fields.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { writeNumber } from '../numbers.ts';
import { usePage } from '../page-state.ts';

/** Elevation of the household's first place, which every calculator starts from. */
export function useHomeElevation(): number {
  return usePage().household?.state().body.places[0]?.elevationM ?? 0;
}

export function BoilingPointCalculator() {
  const { units } = usePage();
  const home = useHomeElevation();
  const [elevation, setElevation] = useState<number | undefined>(undefined);
  const [gaugeKPa, setGaugeKPa] = useState<number | undefined>(undefined);
  const elevationM = elevation ?? home;
  const gauge = gaugeKPa === undefined ? '' : `&gaugeKPa=${gaugeKPa}`;
  const asked = useAnswer<BoilingPointAnswer>(
    (page) => page.api.get(`/api/boiling-point?elevationM=${Number(elevationM.toFixed(6))}${gauge}&explain=1`),
    [elevationM, gaugeKPa],
  );
  const { answer } = asked;
  return html`<${Calculator}
    title="Boiling point"
    asked=${asked}
    form=${html`
      <${NumberField} label="Elevation" quantity="elevationM" value=${elevation} minimum=${-430} maximum=${8850} whenEmpty=${home} onValue=${setElevation} />
      <${NumberField} label="Pressure cooker, gauge" quantity="kPa" value=${gaugeKPa} minimum=${0} maximum=${150} whenEmpty="none" onValue=${setGaugeKPa} />
    `}
  >
    ${
      answer === null
        ? null
        : html`<dl class="figures">
              <${Figure} label="Boiling point" main answer=${answer} quantity=${['boilingPointC']}>${say(answer.boilingPointC, 'temperatureC', units)}<//>
              ${
                answer.pressureCooker === undefined
                  ? null
                  : html`<${Figure} label="In the pressure cooker" answer=${answer} quantity=${['inCookerC']}>${say(answer.pressureCooker.temperatureC, 'temperatureC', units)}<//>`
              }
              <${Figure} label="Air pressure" answer=${answer} quantity=${['pressureKPa']}>${say(answer.pressureKPa, 'kPa', units)}<//>
            </dl>
            <p>${textInSystem(answer.text, units)} ${units === 'metric' ? `To the hundredth: ${writeNumber(answer.boilingPointC, 2)}\u00a0°C.` : ''}</p>
            ${answer.ask === null ? null : html`<p class="notice">${textInSystem(answer.ask, units)}</p>`}`
    }
  <//>`;
}
