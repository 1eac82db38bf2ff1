/** Puts the chosen ways of a week on the clock: every fire's work in turn, backwards from the meal. */

import { burnersAtOnce, onFireMinutes } from './fire-minutes.ts';
import type {
  HotWaterDetail,
  LightingDetail,
  OptionDetail,
  TreatmentDetail,
  WeekCalendar,
} from './week-calendar-types.ts';
import { burnerOf, type WeekChoice } from './week-instance.ts';

export interface PlacedDish {
  detail: OptionDetail;
  /** Pot on the fire (or water added, without fire). */
  startMinute: number;
  /** Off the fire. */
  offMinute: number;
  /** Ready: out of the pressure cooker, or into the box. */
  doneMinute: number;
}

export interface PlacedHotWater {
  detail: HotWaterDetail;
  startMinute: number;
  doneMinute: number;
}

export interface PlacedTreatment {
  detail: TreatmentDetail;
  litres: number;
  startMinute: number;
  doneMinute: number;
}

export interface PlacedLighting {
  detail: LightingDetail;
  startMinute: number;
  endMinute: number;
}

export interface PlacedWeek {
  dishes: PlacedDish[];
  hotWater: PlacedHotWater[];
  treatments: PlacedTreatment[];
  lightings: PlacedLighting[];
}

/**
 * On one fire things follow one another: water made safe, hot water, dishes for the box, and last the dish that is eaten
 * straight from the pot; on a stove of several burners as many things at once. Minutes are taken at their high end, so that
 * the meal is ready nine times in ten.
 */
export function placeWeek(choice: WeekChoice, calendar: WeekCalendar): PlacedWeek {
  const details = choice.options.flatMap((id) => calendar.options.get(id) ?? []);
  const placed: PlacedWeek = { dishes: [], hotWater: [], treatments: [], lightings: [] };
  for (const detail of details) {
    if (detail.lighting !== null) continue;
    const stand = Math.ceil((detail.noHeat?.standMinutes ?? 0) + (detail.noHeat?.handsOnMinutes ?? 0));
    const startMinute = detail.slot.eatMinute - stand;
    placed.dishes.push({ detail, startMinute, offMinute: startMinute, doneMinute: detail.slot.eatMinute });
  }
  for (const [id, lighting] of calendar.lightings) {
    const own = details.filter((detail) => detail.lighting?.id === id);
    const water = choice.hotWater
      .flatMap((task) => calendar.hotWater.get(task) ?? [])
      .filter((task) => task.lighting.id === id);
    const treated = Object.entries(choice.treatedL).flatMap(([treatmentId, litres]) => {
      const detail = calendar.treatments.get(treatmentId);
      return detail !== undefined && detail.lighting?.id === id ? [{ detail, litres }] : [];
    });
    if (own.length + water.length + treated.length === 0) continue;
    const direct = own.filter((detail) => detail.method?.choice.finish === 'flame');
    const kept = own.filter((detail) => detail.method?.choice.finish !== 'flame');
    // Backwards from the meal, one thing before the other on each burner.
    const burners = burnersAtOnce(lighting.stove);
    const freeUntil = new Array<number>(burners).fill(lighting.endMinute);
    let fireEnd = 0;
    const take = (burner: number, minutes: number, restMinutes = 0) => {
      // A pot that rests off the fire leaves the burner to the next.
      const offMinute = Math.min(freeUntil[burner] as number, lighting.endMinute - restMinutes);
      const doneMinute = restMinutes > 0 ? lighting.endMinute : offMinute;
      const startMinute = offMinute - minutes;
      freeUntil[burner] = startMinute;
      fireEnd = Math.max(fireEnd, offMinute);
      return { startMinute, offMinute, doneMinute };
    };
    for (const detail of [...direct, ...kept]) {
      const method = detail.method as NonNullable<OptionDetail['method']>;
      const restMinutes = method.choice.finish === 'flame' ? Math.ceil(method.restMinutes) : 0;
      const burner = burnerOf(detail.slot === lighting.slot ? 'meal' : 'later-meal', burners);
      placed.dishes.push({ detail, ...take(burner, onFireMinutes(method), restMinutes) });
    }
    for (const detail of water) {
      const { startMinute, doneMinute } = take(burnerOf('water', burners), Math.ceil(detail.minutes.p90));
      placed.hotWater.push({ detail, startMinute, doneMinute });
    }
    for (const { detail, litres } of treated) {
      for (let left = litres; left > 1e-6; left -= detail.potfulL) {
        const potful = Math.min(left, detail.potfulL);
        const { startMinute, doneMinute } = take(
          burnerOf('water', burners),
          Math.ceil(detail.minutesPerL * potful - 1e-6),
        );
        placed.treatments.push({ detail, litres: potful, startMinute, doneMinute });
      }
    }
    placed.lightings.push({
      detail: lighting,
      startMinute: Math.min(...freeUntil) - Math.ceil(lighting.startUpMinutes),
      endMinute: fireEnd,
    });
  }
  placed.dishes.sort((a, b) => a.startMinute - b.startMinute || (a.detail.id < b.detail.id ? -1 : 1));
  placed.lightings.sort((a, b) => a.startMinute - b.startMinute || (a.detail.id < b.detail.id ? -1 : 1));
  placed.hotWater.sort((a, b) => a.startMinute - b.startMinute);
  placed.treatments.sort((a, b) => a.startMinute - b.startMinute);
  return placed;
}
