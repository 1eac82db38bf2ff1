/** Stoves, vessels and retained-heat boxes. */

import { asHeading, fuelName } from '../../api/wording/names.ts';
import type { HouseholdDocument } from '../api-types.ts';
import { CheckField } from '../components/fields.ts';
import { html } from '../html.ts';
import { say } from '../measures.ts';
import { INSULATION_NAMES, LID_NAMES, newIdFrom, VESSEL_KIND_NAMES, VESSEL_MATERIAL_NAMES, wordsOf } from '../names.ts';
import { type NamedRow, usePage } from '../page-state.ts';
import { choices, type SectionProps, SetUpPart } from './set-up-part.ts';

const SITES = [
  ['outdoors', 'Outdoors'],
  ['vented-indoors', 'Indoors, built in and vented'],
] as const;

/** A box cannot hold a vessel that is gone. */
function withoutVesselInBoxes(household: HouseholdDocument, vesselId: string): HouseholdDocument {
  if (household.boxes === undefined) return household;
  return {
    ...household,
    boxes: household.boxes.map((box) => ({ ...box, fits: box.fits.filter((id) => id !== vesselId) })),
  };
}

export function EquipmentSections(props: SectionProps) {
  return html`<${StoveSection} ...${props} /><${VesselSection} ...${props} /><${BoxSection} ...${props} />`;
}

function rowChoices(rows: readonly NamedRow[], present: readonly string[]): [string, string][] {
  const listed = rows.map((row): [string, string] => [row.id, wordsOf(row.name)]);
  // Until the tables have come, what is stored still has to be shown.
  const missing = present.filter((id) => !rows.some((row) => row.id === id));
  return [...listed, ...missing.map((id): [string, string] => [id, wordsOf(id)])];
}

function StoveSection({ body, fields, add }: SectionProps) {
  const page = usePage();
  const stoves = body.stoves ?? [];
  const types = rowChoices(
    page.tables.stoveTypes,
    stoves.map((stove) => stove.typeId),
  );
  return html`<${SetUpPart} title="Stoves" holds=${stoves.map((stove) => stove.name ?? wordsOf(stove.id)).join(', ') || 'none'} teaches=${stoves.length === 0 ? 'Without a stove a plan has only dishes that need no fire. Add what you would cook on, indoors or out.' : undefined}>
    ${stoves.map((stove, index) => {
      const path = ['stoves', index] as const;
      const name = stove.name ?? wordsOf(stove.id);
      const needsLabel = stove.typeId.startsWith('other-');
      const burnt = [...new Set([...(body.fuels ?? []).map((store) => store.fuelId), ...stove.fuelIds])];
      return html`<fieldset key=${stove.id}>
        <legend>${name}</legend>
        <div class="fields">
          ${fields.text('Called', [...path, 'name'])}
          ${fields.choice('Type', [...path, 'typeId'], types)}
          ${fields.choice('Where it burns', [...path, 'site'], SITES, { optional: true })}
          ${fields.number('Burners', 'count', [...path, 'burners'], { minimum: 1, maximum: 8, optional: true })}
        </div>
        <fieldset>
          <legend>Burns</legend>
          <div class="row-end">
            ${burnt.map(
              (fuelId) => html`<${CheckField}
                key=${fuelId}
                label=${asHeading(fuelName(fuelId))}
                value=${stove.fuelIds.includes(fuelId)}
                onValue=${(on: boolean) =>
                  page.household?.edit((old) => ({
                    ...old,
                    stoves: (old.stoves ?? []).map((one) =>
                      one.id === stove.id
                        ? { ...one, fuelIds: on ? [...one.fuelIds, fuelId] : one.fuelIds.filter((id) => id !== fuelId) }
                        : one,
                    ),
                  }))}
              />`,
            )}
          </div>
        </fieldset>
        <details class="more" open=${needsLabel || undefined}>
          <summary>From the label of ${name}</summary>
          <p class="hint">
            ${needsLabel ? 'No row of the tables fits this stove: its power is needed.' : 'What stands here goes before the table; a boil test goes before both.'}
          </p>
          <div class="fields">
            ${fields.number('Power at full flame', 'kW', [...path, 'powerKW'], { minimum: 0.05, maximum: 30, optional: needsLabel ? 'none' : 'by type' })}
            ${fields.number('Efficiency', 'share', [...path, 'efficiency'], { minimum: 0.02, maximum: 1, optional: 'by type' })}
            ${fields.number('One fill', 'ml', [...path, 'fillMl'], { minimum: 1, maximum: 5000, optional: 'by type' })}
            ${fields.number('One fill burns for', 'minutes', [...path, 'minutesPerFill'], { minimum: 1, maximum: 600, optional: 'by type' })}
            ${fields.number('Cools before refilling', 'minutes', [...path, 'coolDownMinutes'], { minimum: 0, maximum: 240, optional: 'by type' })}
            ${fields.number('Largest pot', 'litres', [...path, 'largestPotL'], { minimum: 0.1, maximum: 100, optional: 'by type' })}
          </div>
        </details>
        ${fields.remove(name, ['stoves'], index)}
      </fieldset>`;
    })}
    <button
      type="button"
      class="small"
      onClick=${() =>
        add(['stoves'], {
          id: newIdFrom(
            'stove',
            stoves.map((one) => one.id),
          ),
          name: 'New stove',
          typeId: 'propane-camp',
          fuelIds: ['propane'],
          site: 'outdoors',
        })}
    >
      Add a stove
    </button>
  <//>`;
}

function VesselSection({ body, fields, add }: SectionProps) {
  const { units } = usePage();
  const vessels = body.vessels ?? [];
  const holds = vessels
    .map((vessel) => `${vessel.name ?? VESSEL_KIND_NAMES[vessel.kind]} ${say(vessel.capacityL, 'litres', units)}`)
    .join(', ');
  return html`<${SetUpPart} title="Pots, flasks and bowls" holds=${holds || 'none'} teaches=${vessels.length === 0 ? 'A pot to cook in, a bowl to soak in, a flask that keeps water hot: add each with what it holds.' : undefined}>
    ${vessels.map((vessel, index) => {
      const path = ['vessels', index] as const;
      const name = vessel.name ?? wordsOf(vessel.id);
      const heated = vessel.kind === 'pot' || vessel.kind === 'pressure-cooker';
      return html`<fieldset key=${vessel.id}>
        <legend>${name}</legend>
        <div class="fields">
          ${fields.text('Called', [...path, 'name'])}
          ${fields.choice('Kind', [...path, 'kind'], choices(VESSEL_KIND_NAMES))}
          ${fields.number('Holds to the brim', 'litres', [...path, 'capacityL'], { minimum: 0.1, maximum: 100 })}
          ${heated ? fields.choice('Made of', [...path, 'material'], choices(VESSEL_MATERIAL_NAMES), { optional: true }) : null}
          ${vessel.kind === 'pot' ? fields.choice('Lid', [...path, 'lid'], choices(LID_NAMES), { optional: true }) : null}
          ${vessel.kind === 'pressure-cooker' ? fields.number('Gauge pressure', 'kPa', [...path, 'gaugeKPa'], { minimum: 0, maximum: 150, optional: true }) : null}
          ${heated ? fields.number('Diameter', 'mm', [...path, 'diameterMm'], { minimum: 50, maximum: 1000, optional: 'from the volume' }) : null}
          ${heated ? fields.number('Mass', 'kg', [...path, 'massKg'], { minimum: 0.02, maximum: 50, optional: 'from the volume' }) : null}
          <div class="row-end">${fields.remove(name, ['vessels'], index, (old) => withoutVesselInBoxes(old as HouseholdDocument, vessel.id))}</div>
        </div>
        ${vessel.kind === 'pot' ? fields.check('Has heat-exchange fins', [...path, 'finned']) : null}
      </fieldset>`;
    })}
    <button type="button" class="small" onClick=${() =>
      add(['vessels'], {
        id: newIdFrom(
          'pot',
          vessels.map((one) => one.id),
        ),
        name: 'New pot',
        kind: 'pot',
        capacityL: 4,
      })}>
      Add a vessel
    </button>
  <//>`;
}

function BoxSection({ body, fields, add }: SectionProps) {
  const page = usePage();
  const { units } = page;
  const boxes = body.boxes ?? [];
  const pots = (body.vessels ?? []).filter((vessel) => vessel.kind === 'pot' || vessel.kind === 'pressure-cooker');
  return html`<${SetUpPart} title="Retained-heat boxes" holds=${boxes.map((box) => box.name ?? wordsOf(box.id)).join(', ') || 'none'} teaches=${boxes.length === 0 ? 'A pot brought to the boil and packed into a box goes on cooking without a flame. A carton with blankets around the pot is one.' : undefined}>
    ${boxes.map((box, index) => {
      const path = ['boxes', index] as const;
      const name = box.name ?? wordsOf(box.id);
      return html`<fieldset key=${box.id}>
        <legend>${name}</legend>
        <div class="fields">
          ${fields.text('Called', [...path, 'name'])}
          ${fields.choice('Insulation', [...path, 'materialId'], choices(INSULATION_NAMES), { optional: true })}
          ${fields.number('Thickness', 'mm', [...path, 'thicknessMm'], { minimum: 1, maximum: 500, optional: true })}
          <div class="row-end">${fields.remove(name, ['boxes'], index)}</div>
        </div>
        <fieldset>
          <legend>Fits into it</legend>
          <div class="row-end">
            ${pots.map(
              (pot) => html`<${CheckField}
                key=${pot.id}
                label=${`${pot.name ?? wordsOf(pot.id)}, ${say(pot.capacityL, 'litres', units)}`}
                value=${box.fits.includes(pot.id)}
                onValue=${(on: boolean) =>
                  page.household?.edit((old) => ({
                    ...old,
                    boxes: (old.boxes ?? []).map((one) =>
                      one.id === box.id
                        ? { ...one, fits: on ? [...one.fits, pot.id] : one.fits.filter((id) => id !== pot.id) }
                        : one,
                    ),
                  }))}
              />`,
            )}
          </div>
        </fieldset>
      </fieldset>`;
    })}
    <button type="button" class="small" onClick=${() =>
      add(['boxes'], {
        id: newIdFrom(
          'box',
          boxes.map((one) => one.id),
        ),
        name: 'New box',
        fits: pots.map((pot) => pot.id),
        materialId: 'eps',
        thicknessMm: 50,
      })}>
      Add a box
    </button>
  <//>`;
}
