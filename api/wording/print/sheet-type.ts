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
  /** Above and below the words of a row, with its rule, mm. */
  rowPaddingMm: number;
  /** Width of the columns for tick box and time, mm. */
  leadMm: number;
}

/** The box that A4 and US Letter share less margins of 12 mm. */
export const PAGE_WIDTH_MM = 186;
export const PAGE_HEIGHT_MM = 255;

const METRICS: Readonly<Record<SheetType, SheetMetrics>> = {
  normal: {
    type: 'normal',
    actionPt: 14,
    smallPt: 12,
    timePt: 20,
    headingPt: 20,
    rowMm: 9,
    rowPaddingMm: 1,
    leadMm: 27.5,
  },
  large: {
    type: 'large',
    actionPt: 18,
    smallPt: 18,
    timePt: 22,
    headingPt: 22,
    rowMm: 11,
    rowPaddingMm: 1,
    leadMm: 34,
  },
  compact: {
    type: 'compact',
    actionPt: 12,
    smallPt: 12,
    timePt: 14,
    headingPt: 16,
    rowMm: 8,
    rowPaddingMm: 1,
    leadMm: 25,
  },
};

/** By how much the column of smaller times is narrower, mm; the same in `web/public/print.css`. */
const NARROWER_TIMES_MM = 3.5;

/** The sizes of a card so full that it would take a page more: what to do in the small type as well, times smaller. */
export function smallMetrics(metrics: SheetMetrics): SheetMetrics {
  return {
    ...metrics,
    actionPt: metrics.smallPt,
    timePt: 16,
    headingPt: 16,
    rowPaddingMm: 0.6,
    leadMm: metrics.leadMm - NARROWER_TIMES_MM,
  };
}

/** The sizes of a setting; `web/public/print.css` draws the same. */
export function sheetMetrics(type: SheetType): SheetMetrics {
  return METRICS[type];
}
