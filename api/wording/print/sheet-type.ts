/** The three settings of the printed sheets: type sizes in points, the height of rows, and what a page holds. */

export type SheetType = 'normal' | 'large' | 'compact';

export interface SheetMetrics {
  type: SheetType;
  /** Action text, pt. */
  actionPt: number;
  /** Everything else, pt: never below 12. */
  smallPt: number;
  timePt: number;
  headingPt: number;
  rowMm: number;
  /** Width of the columns for tick box and time, mm. */
  leadMm: number;
}

/** The box that A4 and US Letter share less margins of 12 mm. */
export const PAGE_WIDTH_MM = 186;
export const PAGE_HEIGHT_MM = 255;

const METRICS: Readonly<Record<SheetType, SheetMetrics>> = {
  normal: { type: 'normal', actionPt: 14, smallPt: 12, timePt: 20, headingPt: 20, rowMm: 9, leadMm: 27.5 },
  large: { type: 'large', actionPt: 18, smallPt: 18, timePt: 22, headingPt: 22, rowMm: 11, leadMm: 34 },
  compact: { type: 'compact', actionPt: 12, smallPt: 12, timePt: 14, headingPt: 16, rowMm: 8, leadMm: 25 },
};

/** The sizes of a setting; `web/public/print.css` draws the same. */
export function sheetMetrics(type: SheetType): SheetMetrics {
  return METRICS[type];
}
