import type { FactorTableRow, KeyFigure } from '../../core/report/figures.ts';
import {
  factorColumns,
  nothingListed,
  nothingMarked,
  type PanelControls,
  type PanelHeading,
  type PanelMarks,
  type PanelNotice,
  type PathMark,
  type Place,
  type ShownConnections,
  type ShownDifference,
  type ShownDrawing,
  type ShownFinding,
  type ShownLimit,
} from './shownParts.ts';
import { itemsBy, list, optional, type StateOf, type StatePart, whole } from './stateParts.ts';
import { hasTexts, isCount, isListOf, isRecord, isText, isTexts } from './values.ts';
import { followView, type ViewContent, viewChange } from './viewContent.ts';
import { readWish } from './wish.ts';

/** The view of the panel; null where nothing can be shown. */
const view: StatePart<ViewContent | null> = {
  start: null,
  change: (before, content) => viewChange(before ?? null, content),
  follow: (before, change) => followView(before ?? null, change),
};

const limitParts = ['name', 'limit', 'value', 'margin', 'state', 'place'] as const;

/**
 * Everything a panel shows, part by part. The extension makes it from the text, the page holds a copy, and only what
 * changes between the two is sent (`panelUpdate.ts`).
 */
export const panelParts = {
  heading: whole(isHeading),
  notice: optional(isNotice),
  controls: whole(isControls),
  /** Null where nothing can be shown. */
  view,
  figures: list(
    isKeyFigure,
    itemsBy(({ label, value, help }) => `${label}\t${value}\t${help ?? ''}`),
  ),
  factors: list(
    isFactorRow,
    itemsBy((row) => factorColumns.map((column) => row[column]).join('\t')),
  ),
  /** Everything found in the present text, errors first. */
  findings: list(
    isShownFinding,
    itemsBy(({ severity, message, place }) => `${severity}\t${message}\t${place}`),
  ),
  /** Failed ones first, then by what is in hand. */
  limits: list(
    isShownLimit,
    itemsBy((limit) => limitParts.map((name) => limit[name]).join('\t')),
  ),
  connections: whole(isConnections, nothingListed),
  marks: whole(isMarks, nothingMarked),
  /** Null while nothing is drawn by hand. */
  drawing: optional(isDrawing),
  /** Null while nothing is compared. */
  difference: optional(isDifference),
};

export type PanelState = StateOf<typeof panelParts>;

function isHeading(value: unknown): value is PanelHeading {
  return hasTexts(value, ['source', 'file', 'title']) && typeof value.waiting === 'boolean';
}

function isNotice(value: unknown): value is PanelNotice {
  return hasTexts(value, ['stamp', 'headline']) && isListOf(value.places, isPlace);
}

function isPlace(value: unknown): value is Place {
  return hasTexts(value, ['text', 'place']);
}

function isControls(value: unknown): value is PanelControls {
  return (
    isRecord(value) &&
    readWish(value.wish) !== null &&
    isTexts(value.phases) &&
    isCount(value.paths) &&
    isCount(value.layers)
  );
}

function isKeyFigure(value: unknown): value is KeyFigure {
  return hasTexts(value, ['label', 'value']) && ['string', 'undefined'].includes(typeof value.help);
}

function isFactorRow(value: unknown): value is FactorTableRow {
  return hasTexts(value, factorColumns);
}

function isShownFinding(value: unknown): value is ShownFinding {
  return hasTexts(value, ['severity', 'message', 'place']);
}

function isShownLimit(value: unknown): value is ShownLimit {
  return hasTexts(value, limitParts);
}

function isConnections(value: unknown): value is ShownConnections {
  return (
    hasTexts(value, ['status']) &&
    ['none', 'written', 'searching', 'found'].includes(value.status as string) &&
    isListOf(value.rows, isTexts) &&
    isCount(value.drawn)
  );
}

function isMarks(value: unknown): value is PanelMarks {
  return (
    hasTexts(value, ['words']) &&
    isTexts(value.bars) &&
    isListOf(value.joints, isCount) &&
    isListOf(value.paths, isPathMark) &&
    (value.chosen === null || isText(value.chosen))
  );
}

function isDrawing(value: unknown): value is ShownDrawing {
  return (
    hasTexts(value, ['words']) &&
    isCount(value.phase) &&
    isTexts(value.lines) &&
    isListOf(value.next, isOffer) &&
    isCount(value.marked) &&
    typeof value.joint === 'boolean'
  );
}

function isDifference(value: unknown): value is ShownDifference {
  return (
    hasTexts(value, ['against', 'words']) &&
    isListOf(value.rows, isTexts) &&
    isTexts(value.bars) &&
    isListOf(value.joints, isCount)
  );
}

function isOffer(value: unknown): value is ShownDrawing['next'][number] {
  return hasTexts(value, ['bar', 'kind']) && ['regular', 'special', 'piece'].includes(value.kind as string);
}

function isPathMark(value: unknown): value is PathMark {
  return isRecord(value) && isCount(value.phase) && isCount(value.path);
}
