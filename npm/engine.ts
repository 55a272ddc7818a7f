// The engine as a package: what programs and pages take from it, each name listed.

export type { Facts } from '../core/facts/facts.ts';
export { shopModel } from '../core/facts/shop.ts';
export type { Figure } from '../core/figures/figure.ts';
export type { Finding, Severity } from '../core/language/finding.ts';
export { format } from '../core/language/format/formatter.ts';
export type { Picture } from '../core/picture/picture.ts';
export { pictureToSvg } from '../core/picture/svg.ts';
export { type Report, reportSchema } from '../core/report/schema.ts';
export { compare } from '../core/review/compare.ts';
export { comparisonMarkdown } from '../core/review/markdown/markdown.ts';
export type { Comparison } from '../core/review/schema.ts';
export { sheets } from '../core/sheets/sheets.ts';
export { writeStep } from '../core/space/cad/writeStep.ts';
export { writeStl } from '../core/space/cad/writeStl.ts';
export { type Study, study } from '../core/study.ts';
export { type TableTrouble, troubleWords } from '../core/tables/import/grid.ts';
export type { TableWishes } from '../core/tables/import/head.ts';
export type { ImportedTable } from '../core/tables/import/readWinding.ts';
export { windingFromTable } from '../core/tables/import/windingFromTable.ts';
export { type ScheduleTable, schedule, scheduleTables } from '../core/tables/schedule.ts';
export { drawView, type ViewName, viewNames } from '../core/views/views.ts';
