/** A report as comma-separated values: one row for each thing, so that a spreadsheet can sort them. */
import type { OutageReport } from '../planning/bookings/report.ts';
import { csvText } from './csv.ts';

/**
 * @returns rows `what,name,at,amount,unit,note` with a heading, lines ended as RFC 4180 has them
 */
export function reportCsv(report: OutageReport): string {
  const rows: (string | number | null)[][] = [['what', 'name', 'at', 'amount', 'unit', 'note']];
  for (const meal of report.meals)
    rows.push([
      `meal ${meal.state}`,
      [...meal.planned].join(' and '),
      meal.eatAt,
      null,
      '',
      [...meal.instead, meal.note ?? ''].filter(Boolean).join('; '),
    ]);
  for (const { fuelId, unit, predicted, used, left } of report.fuel) {
    rows.push([
      'fuel predicted',
      fuelId,
      report.to,
      rounded(predicted.p50),
      unit,
      `${rounded(predicted.p10)} to ${rounded(predicted.p90)}`,
    ]);
    if (used !== null) rows.push(['fuel used', fuelId, report.to, rounded(used), unit, 'by weighing']);
    rows.push(['fuel left', fuelId, report.to, rounded(left), unit, '']);
  }
  rows.push(['water used', 'water', report.to, rounded(report.waterL.planned), 'L', '']);
  rows.push(['water left', 'water', report.to, rounded(report.waterL.left), 'L', '']);
  const { fires, dishes, waterL } = report.boiled;
  rows.push(['fires lit', 'fires', report.to, fires, '1', '']);
  rows.push(['dishes boiled', 'dishes', report.to, dishes, '1', '']);
  rows.push(['water boiled', 'water', report.to, rounded(waterL), 'L', '']);
  for (const { what, at, quantity } of report.thrownAway) rows.push(['thrown away', what, at, quantity, 'sets', '']);
  for (const { id, at } of report.broke) rows.push(['broke', id, at, null, '', '']);
  for (const { kitName, sets } of report.packAgain) rows.push(['pack again', kitName, '', rounded(sets), 'sets', '']);
  for (const { fuelId, unit, amount, weighed } of report.refill)
    rows.push(['store again', fuelId, '', rounded(amount), unit, weighed ? 'as weighed' : 'as predicted']);
  for (const text of [...report.learned, ...report.advice]) rows.push(['note', '', '', null, '', text]);
  return csvText(rows);
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
