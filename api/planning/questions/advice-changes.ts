/**
 * What a household could get or do next: each a pure change of what a plan rests on. `advice.ts` plans again with each and
 * compares.
 */
import { FUELS } from '../../physics/fuels-table.ts';
import { INSULATION_MATERIALS } from '../../physics/insulation-table.ts';
import { STOVE_TYPES } from '../../physics/stoves-table.ts';
import type { PlanInput } from '../make-plan.ts';
import type { PreparedWeek } from '../week/prepared-week.ts';
import {
  freeId,
  moreFuel,
  moreWater,
  oneMoreSet,
  withFuels,
  withHousehold,
  withPlace,
  withVessels,
} from './household-changes.ts';
import { inWords } from './what-is-missing.ts';

/** What the effect of a change rests on. */
export type ChangeBasis =
  /** An amount that is added up. */
  | 'amount'
  /** Published relations and tables. */
  | 'tables'
  /** Common practice without a measurement behind it. */
  | 'common-practice';

export interface AdviceChange {
  id: string;
  kind: 'fuel' | 'water' | 'kit' | 'equipment' | 'practice';
  /** What to get or do, as an imperative. */
  text: string;
  /** Of a kit: its name. */
  kitName?: string;
  basis: ChangeBasis;
  /** Adds fuel, water or sets and nothing else, so that the ways of cooking stay as they are. */
  onlyAmounts: boolean;
  /** Already there: what it is worth is found by planning without it. */
  already: boolean;
  apply(input: PlanInput): PlanInput;
}

export interface AdviceChanges {
  changes: AdviceChange[];
  /** What was not tried, and why. */
  notApplicable: { id: string; text: string }[];
}

/** Sizes in which pressure cookers and bowls are commonly sold, L (common practice). */
const COOKER_SIZES_L = [3, 4, 5, 6, 8, 10, 12, 16, 22, 30, 40];
const BOWL_SIZES_L = [2, 3, 4, 6, 10, 15, 20];
/** Room in a soak bowl per serving, L: 80 g of beans, swollen, under water (common practice). */
const BOWL_L_PER_SERVING = 0.6;
/** Gauge pressure of a cooker that is bought, kPa: the lower of the usual two settings, on the careful side. */
const COOKER_GAUGE_KPA = 80;
/** Thicknesses of insulation that are tried, mm. */
const BOX_THICKNESSES_MM = [50, 100];
const THICK_BOX_MM = 100;
/** Wood that stood under a roof for two summers, % of its wet mass (common practice). */
const DRY_WOOD_PERCENT = 15;
const MORE_WATER_L = 10;

/**
 * The changes that make sense for a household.
 * @param base the plan's week, laid out open: says how large pots must be, and what is used
 */
export function adviceChanges(base: PreparedWeek): AdviceChanges {
  const changes: AdviceChange[] = [];
  const notApplicable: AdviceChanges['notApplicable'] = [];
  const placeId = base.situation.place.id;
  const { household } = base.situation;
  const here = <Thing extends { placeId: string }>(things: readonly Thing[]) =>
    things.filter((thing) => thing.placeId === placeId);
  const most = Math.max(1, ...base.situation.slots.map((slot) => slot.wantServings));
  const skip = (id: string, text: string) => notApplicable.push({ id, text });

  // Amounts.
  changes.push({
    id: 'water-10-l',
    kind: 'water',
    text: `Store ${MORE_WATER_L} L more water that is safe to drink`,
    basis: 'amount',
    onlyAmounts: true,
    already: false,
    apply: (to) => withHousehold(to, moreWater(to.household, MORE_WATER_L, placeId)),
  });
  const fuelIds = [...new Set([...here(household.stoves).flatMap((stove) => stove.fuelIds)])].sort();
  for (const fuelId of fuelIds) {
    const density = FUELS[fuelId].densityKgPerL;
    const electric = fuelId === 'electricity';
    const amount = density ?? 1;
    const words = electric ? '1 kWh' : density === null ? '1 kg' : `1 litre (${amount} kg)`;
    changes.push({
      id: `fuel-${fuelId}`,
      kind: 'fuel',
      text: `Store ${words} more ${inWords(fuelId)}`,
      basis: 'amount',
      onlyAmounts: true,
      already: false,
      apply: (to) => withHousehold(to, moreFuel(to.household, fuelId, amount, placeId)),
    });
  }

  // Lids.
  const pots = here(household.vessels).filter((vessel) => vessel.kind === 'pot');
  const loose = pots.filter((vessel) => vessel.lid !== 'snug').map((vessel) => vessel.id);
  if (pots.length === 0) skip('lid', 'There is no pot to put a lid on.');
  else if (loose.length === 0) skip('lid', 'Every pot has a lid that fits.');
  else
    changes.push(
      equipment('lid', 'practice', 'Cook under lids that fit, on every pot', 'tables', (to) =>
        withVessels(to, (vessels) =>
          vessels.map((vessel) => (loose.includes(vessel.id) ? { ...vessel, lid: 'snug' } : vessel)),
        ),
      ),
    );

  // Soaking.
  const bowls = here(household.vessels).filter((vessel) => vessel.kind === 'soak-bowl');
  const soakable = base.situation.kits.some(({ kit }) => kit.parts.some((part) => part.soakable === true));
  const soaks = [...base.calendar.options.values()].some((option) => option.soak !== null);
  if (!soakable) skip('overnight-soak', 'No kit in store has a part that can be soaked for hours.');
  else if (bowls.length === 0) {
    const litres = sizeFor(BOWL_SIZES_L, most * BOWL_L_PER_SERVING);
    changes.push(
      equipment(
        'overnight-soak',
        'practice',
        `Soak beans and grain overnight, in a bowl of ${litres} L`,
        'tables',
        (to) =>
          withVessels(to, (vessels) => [
            ...vessels,
            { id: freeId('advised-bowl', to.household), placeId, kind: 'soak-bowl', capacityL: litres },
          ]),
      ),
    );
  } else if (soaks)
    changes.push({
      ...equipment('overnight-soak', 'practice', 'Go on soaking overnight', 'tables', (to) =>
        withVessels(to, (vessels) =>
          vessels.filter((vessel) => vessel.kind !== 'soak-bowl' || (vessel.placeId ?? placeId) !== placeId),
        ),
      ),
      already: true,
    });
  else skip('overnight-soak', 'There is a bowl, and nothing to soak in it that would be ready in time.');

  // Pressure cooker.
  const cookers = here(household.vessels).filter((vessel) => vessel.kind === 'pressure-cooker');
  const throttled = here(household.stoves).some((stove) => stove.throttle ?? STOVE_TYPES[stove.typeId].throttle);
  if (cookers.length > 0)
    changes.push({
      ...equipment('pressure-cooker', 'equipment', 'Go on using the pressure cooker', 'tables', (to) =>
        withVessels(to, (vessels) =>
          vessels.filter((vessel) => vessel.kind !== 'pressure-cooker' || (vessel.placeId ?? placeId) !== placeId),
        ),
      ),
      already: true,
    });
  else if (!throttled)
    skip('pressure-cooker', 'No stove here has a flame that can be turned down, which a pressure cooker needs.');
  else {
    const litres = sizeFor(COOKER_SIZES_L, largestDishL(base));
    changes.push(
      equipment('pressure-cooker', 'equipment', `Get a pressure cooker of ${litres} L`, 'tables', (to) =>
        withVessels(to, (vessels) => [
          ...vessels,
          {
            id: freeId('advised-cooker', to.household),
            placeId,
            kind: 'pressure-cooker',
            capacityL: litres,
            material: 'stainless',
            gaugeKPa: COOKER_GAUGE_KPA,
          },
        ]),
      ),
    );
  }

  // Retained-heat box.
  const boxes = here(household.boxes);
  if (pots.length === 0) skip('box', 'There is no pot to put into a box.');
  else if (boxes.length > 0) {
    // A box that was measured is as good as its reading says, whatever its walls are.
    const thin = boxes.filter((box) => box.reading === null && box.thicknessMm < THICK_BOX_MM).map((box) => box.id);
    if (thin.length > 0)
      changes.push(
        equipment(
          'box-thicker',
          'equipment',
          `Thicken the retained-heat box to ${THICK_BOX_MM} mm on all sides`,
          'tables',
          (to) =>
            withHousehold(to, {
              ...to.household,
              boxes: (to.household.boxes ?? []).map((box) =>
                thin.includes(box.id) ? { ...box, thicknessMm: THICK_BOX_MM } : box,
              ),
            }),
        ),
      );
    changes.push({
      ...equipment('box', 'equipment', 'Go on using the retained-heat box', 'tables', (to) =>
        withHousehold(to, {
          ...to.household,
          boxes: (to.household.boxes ?? []).filter((box) => (box.placeId ?? placeId) !== placeId),
        }),
      ),
      already: true,
    });
  } else
    for (const thicknessMm of BOX_THICKNESSES_MM)
      changes.push(
        equipment(
          `box-${thicknessMm}-mm`,
          'equipment',
          `Make a retained-heat box: ${INSULATION_MATERIALS.eps.name.toLowerCase()}, ${thicknessMm} mm on all sides, for ${pots.length === 1 ? 'the pot' : 'the pots'} under ${loose.length > 0 ? 'lids that fit' : 'their lids'}`,
          'tables',
          (to) =>
            withHousehold(to, {
              ...to.household,
              // A box keeps nothing hot under a loose lid.
              vessels: (to.household.vessels ?? []).map((vessel) =>
                loose.includes(vessel.id) ? { ...vessel, lid: 'snug' } : vessel,
              ),
              boxes: [
                ...(to.household.boxes ?? []),
                {
                  id: freeId('advised-box', to.household),
                  placeId,
                  fits: pots.map((pot) => pot.id),
                  materialId: 'eps',
                  thicknessMm,
                },
              ],
            }),
        ),
      );

  // Windscreen.
  const { wind } = base.situation.place;
  const outdoors = here(household.stoves).some((stove) => stove.site === 'outdoors');
  if (!outdoors || wind === 'still') skip('windscreen', 'No stove here stands in the wind.');
  else if (wind === 'screened') skip('windscreen', 'The stoves are screened already.');
  else
    changes.push(
      equipment(
        'windscreen',
        'practice',
        'Screen the stoves from the wind, with air let in below',
        'common-practice',
        (to) => withPlace(to, placeId, (place) => ({ ...place, wind: 'screened' })),
      ),
    );

  // Drier wood.
  const wood = household.fuels.find((fuel) => fuel.fuelId === 'wood');
  if (wood === undefined || !fuelIds.includes('wood')) skip('drier-wood', 'No wood is burnt here.');
  else if ((wood.moisturePercent ?? 0) <= DRY_WOOD_PERCENT)
    skip('drier-wood', `The wood is as dry as air-dry wood gets (${wood.moisturePercent} %).`);
  else
    changes.push(
      equipment(
        'drier-wood',
        'practice',
        `Burn drier wood: ${DRY_WOOD_PERCENT} % moisture instead of ${wood.moisturePercent} %`,
        'tables',
        (to) =>
          withFuels(to, (fuels) =>
            fuels.map((fuel) => (fuel.fuelId === 'wood' ? { ...fuel, moisturePercent: DRY_WOOD_PERCENT } : fuel)),
          ),
      ),
    );

  // Kits, those first of which there is least.
  const asInTheRecipe = base.situation.kits.filter(({ kit }) => kit.madeFrom === undefined);
  const kits = [...asInTheRecipe].sort(
    (a, b) => (base.week.sets[a.kit.id] ?? 0) - (base.week.sets[b.kit.id] ?? 0) || (a.kit.id < b.kit.id ? -1 : 1),
  );
  for (const { kit } of kits)
    changes.push({
      id: `kit-${kit.id}`,
      kind: 'kit',
      text: `Pack one more set of ${kit.name}`,
      kitName: kit.name,
      basis: 'amount',
      onlyAmounts: true,
      already: false,
      apply: (to) => ({ ...to, stock: [...to.stock, ...oneMoreSet(to, kit.id, placeId)] }),
    });
  // What could be had comes before what is there already: where time ends the list, it ends there.
  const ordered = [...changes.filter(({ already }) => !already), ...changes.filter(({ already }) => already)];
  return { changes: ordered, notApplicable };
}

function equipment(
  id: string,
  kind: AdviceChange['kind'],
  text: string,
  basis: ChangeBasis,
  apply: AdviceChange['apply'],
): AdviceChange {
  return { id, kind, text, basis, onlyAmounts: false, already: false, apply };
}

/** Capacity of a pressure cooker that the largest dish of the plan's kits fits into, L. */
function largestDishL(base: PreparedWeek): number {
  const byKit = new Map<string, number>();
  for (const { kit, slot, servingsCooked, method } of base.calendar.options.values()) {
    if (method === null || servingsCooked < slot.wantServings - 1e-6) continue;
    const litres = method.needs.volumeL / (method.needs.foams ? 0.5 : 2 / 3);
    byKit.set(kit.kit.id, Math.max(byKit.get(kit.kit.id) ?? 0, litres));
  }
  return Math.max(2, ...byKit.values());
}

function sizeFor(sizes: readonly number[], litres: number): number {
  return sizes.find((size) => size >= litres - 1e-6) ?? Math.ceil(litres);
}
