/** Fuel as a list of containers: full, part, or weighed. */

import { asHeading, fuelName } from '../../api/wording/names.ts';
import type { FuelContainer, FuelStore } from '../api-types.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { newIdFrom, wordsOf } from '../names.ts';
import { usePage } from '../page-state.ts';
import { type SectionProps, SetUpPart } from './set-up-part.ts';

const LEVELS = [
  ['full', 'Full'],
  ['part', 'Partly used'],
  ['unknown', 'Not known'],
  ['empty', 'Empty'],
] as const;

/** What a container is known to hold; null where only the server's careful guess says. */
export function knownKg(container: FuelContainer): number | null {
  if (container.leftKg !== undefined) return container.leftKg;
  if (container.grossKg !== undefined && container.tareKg !== undefined)
    return Math.max(0, container.grossKg - container.tareKg);
  const count = container.count ?? 1;
  if (container.level === 'empty') return 0;
  if (container.fullKg !== undefined && (container.level === 'full' || container.level === undefined))
    return container.fullKg * count;
  return null;
}

function holdsInWords(store: FuelStore, units: 'metric' | 'us'): string {
  if (store.fuelId === 'electricity') return `${store.leftKWh ?? 0} kWh`;
  const known = (store.containers ?? []).map(knownKg);
  const sum = known.reduce((total: number, kg) => total + (kg ?? 0), 0);
  return `${say(sum, 'kg', units)}${known.includes(null) ? ' and a part container, counted low' : ''}`;
}

export function FuelSection({ body, fields, add }: SectionProps) {
  const page = usePage();
  const { units } = page;
  const stores = body.fuels ?? [];
  const unused = page.tables.fuels.filter((fuel) => !stores.some((store) => store.fuelId === fuel.id));
  return html`<${SetUpPart} title="Fuel" holds=${stores.map((store) => `${fuelName(store.fuelId)} ${holdsInWords(store, units)}`).join(', ') || 'none'} teaches=${stores.length === 0 ? 'A plan burns no more than what stands here, less a reserve. Add each fuel, then its containers.' : undefined}>
    ${stores.map((store, index) => {
      const name = asHeading(fuelName(store.fuelId));
      const path = ['fuels', index] as const;
      return html`<fieldset key=${store.fuelId}>
        <legend>${name}: ${holdsInWords(store, units)}</legend>
        ${(store.containers ?? []).map((container, at) => {
          const inside = [...path, 'containers', at];
          return html`<fieldset key=${container.id}>
            <legend>${wordsOf(container.id)}</legend>
            <div class="fields">
              ${fields.number('Weight of the fuel left', 'kg', [...inside, 'leftKg'], { minimum: 0, maximum: 5000, optional: 'from the fields beside' })}
              ${fields.number('Holds when full', 'kg', [...inside, 'fullKg'], { minimum: 0, maximum: 5000, optional: 'not given' })}
              ${fields.number('How many', 'count', [...inside, 'count'], { minimum: 0, maximum: 1000, optional: '1' })}
              ${fields.choice('Level', [...inside, 'level'], LEVELS, { optional: true })}
              ${fields.number('Weighed now, with the container', 'kg', [...inside, 'grossKg'], { minimum: 0, maximum: 5000, optional: 'not weighed' })}
              ${fields.number('Empty container', 'kg', [...inside, 'tareKg'], { minimum: 0, maximum: 5000, optional: 'not weighed' })}
              <div class="row-end">${fields.remove(wordsOf(container.id), [...path, 'containers'], at)}</div>
            </div>
          </fieldset>`;
        })}
        ${
          store.fuelId === 'electricity'
            ? html`<div class="fields">
                ${fields.number('Energy on hand', 'kWh', [...path, 'leftKWh'], { minimum: 0, maximum: 10000, optional: 'none' })}
                ${fields.number('Comes in each day', 'kWh', [...path, 'dailySupplyKWh'], { minimum: 0, maximum: 1000, optional: 'none' })}
              </div>`
            : html`<button
                type="button"
                class="small"
                onClick=${() =>
                  add([...path, 'containers'], {
                    id: newIdFrom(
                      'container',
                      (store.containers ?? []).map((one) => one.id),
                    ),
                    leftKg: 1,
                  })}
              >
                Add a container of ${name.toLowerCase()}
              </button>`
        }
        <div class="fields">
          ${fields.number('Reserve that no plan touches', 'share', [...path, 'reserveShare'], { minimum: 0, maximum: 0.9, optional: true })}
          ${
            store.fuelId === 'wood' || store.fuelId === 'charcoal'
              ? fields.number('Moisture', 'percent', [...path, 'moisturePercent'], {
                  minimum: 0,
                  maximum: 60,
                  optional: true,
                })
              : null
          }
          ${store.fuelId === 'electricity' ? null : fields.number('Comes in each day', 'kg', [...path, 'dailySupplyKg'], { minimum: 0, maximum: 500, optional: 'none' })}
          <div class="row-end">${fields.remove(name, ['fuels'], index)}</div>
        </div>
      </fieldset>`;
    })}
    ${
      unused.length === 0
        ? null
        : html`<div class="row-end" role="group" aria-label="Add a fuel">
            ${unused.map((fuel) => html`<button type="button" class="small" key=${fuel.id} onClick=${() => add(['fuels'], { fuelId: fuel.id, containers: [] })}>Add ${fuel.name}</button>`)}
          </div>`
    }
  <//>`;
}
