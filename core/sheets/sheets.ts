import type { Facts } from '../facts/facts.ts';
import { finished, type Steps } from '../figures/steps.ts';
import type { LimitResult } from '../findings/limits.ts';
import type { Finding } from '../language/finding.ts';
import { plural } from '../language/lists.ts';
import type { Specification } from '../language/specification/specification.ts';
import { visible } from '../language/text/visible.ts';
import { group, pathShape } from '../picture/make.ts';
import type { Picture, Primitive } from '../picture/picture.ts';
import { layoutInput } from '../views/layout/connectedLayout.ts';
import { contentsBlock, type SetContents, schemeBesideLeads, sheetContents } from './contents.ts';
import { type Foot, sheetFoot } from './conventions.ts';
import { bandHeight, notReleasedBand } from './page/band.ts';
import { drawPart, flow, indexOf, type PlacedPart, type SheetIndex } from './page/flow.ts';
import { type Area, type SheetFormat, sheetFormat, sheetSizeNamed } from './page/format.ts';
import { drawSheetFrame } from './page/frame.ts';
import { drawTitleBlock, titleBlockHeight, titleBlockWidth } from './page/title.ts';

/** What a sheet set is made from: parts of a study, and a hash that names the winding file. */
export interface SheetsInput {
  readonly facts: Facts;
  readonly specification: Specification;
  /** The winding's name. */
  readonly title: string;
  readonly findings: readonly Finding[];
  /** Hash of the winding file's bytes, as text. */
  readonly fileHash: string;
  /** Results of the required limits; left out: no table of them. */
  readonly limits?: readonly LimitResult[] | undefined;
}

/** Most bars that a sheet set shows; the largest windings have a few thousand. */
export const mostSheetBars = 20_000;

/** Why a winding has no handover sheets, as a sentence; null where it has. */
export function noSheetsWords({ winding }: Facts): string | null {
  const bars = winding.table.cells.reduce((sum: number, cell) => sum + (cell === 0 ? 0 : 1), 0);
  if (bars <= mostSheetBars) return null;
  return `Handover sheets show at most ${mostSheetBars} bars; this winding has ${bars}. Its views and schedules have no such bound.`;
}

/** Free border between the frame and the contents: centring marks reach 5 mm into it. */
const inset = 6;

/**
 * The handover sheet set, one picture a sheet of the size that the text names (A3 by default): frame after ISO 5457,
 * title block after ISO 7200, letters of ISO 3098 from 1.8 mm, lines of ISO 128. Conventions, the developed layout and
 * one for each phase, slot table, bar list with sketches, joint list, leads, test values, notes and cautions. While
 * findings of severity error stand, every sheet says that it is not released. The same input gives the same pictures.
 * Throws RangeError where `noSheetsWords` says why there are none.
 */
export function sheets(input: SheetsInput): readonly Picture[] {
  const { draw } = finished(sheetPlan(input));
  return finished(draw());
}

/** A sheet set that has been laid out: how many sheets it has, and what draws them. */
export interface SheetPlan {
  readonly count: number;
  readonly draw: () => Steps<readonly Picture[]>;
}

/** The same in steps: first the contents are spread over sheets, then each sheet is drawn. */
export function* sheetPlan(input: SheetsInput): Steps<SheetPlan> {
  const { facts, findings, specification } = input;
  const refused = noSheetsWords(facts);
  if (refused !== null) throw new RangeError(refused);
  const format = sheetFormat(sheetSizeNamed(specification.sheet?.sheetSize?.value));
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const page = pageOf(format, facts, errors);
  const contents = yield* sheetContents({
    ...input,
    layout: layoutInput(facts.winding, input.title, facts.connection),
    area: page.area,
    size: format.size,
  });
  const spread = (set: SetContents) =>
    flow([set.first, contentsBlock(set, page.area), ...set.rest], page.area);
  const first = spread(contents);
  const other = schemeBesideLeads(contents, first);
  const placed = other ? spread(other) : first;
  const index = indexOf(placed);
  return {
    count: placed.length,
    draw: function* () {
      const drawn: Picture[] = [];
      for (const parts of placed) {
        yield;
        drawn.push(yield* drawSheet(input, page, parts, index, drawn.length + 1, placed.length));
      }
      return drawn;
    },
  };
}

/** What is the same on all sheets. */
interface Page {
  readonly format: SheetFormat;
  readonly area: Area;
  readonly foot: Foot;
  readonly footPlace: { readonly left: number; readonly top: number };
  readonly errors: number;
}

function pageOf(format: SheetFormat, facts: Facts, errors: number): Page {
  const { frame } = format;
  const blockTop = frame.bottom - titleBlockHeight;
  const beside = frame.right - titleBlockWidth - frame.left;
  const under = beside < 60;
  const width = under ? frame.right - frame.left - 2 * inset : Math.min(240, beside - inset - 5);
  const foot = sheetFoot(facts.winding, width);
  const footTop = (under ? blockTop - 2 : frame.bottom - inset - 0.5) - foot.height;
  const band = errors > 0 ? bandHeight + 2 : 0;
  return {
    format,
    foot,
    errors,
    footPlace: { left: frame.left + inset, top: under ? footTop : Math.min(footTop, blockTop + 2) },
    area: {
      left: frame.left + inset,
      top: frame.top + inset + band,
      right: frame.right - inset,
      bottom: Math.min(blockTop, footTop) - 4,
    },
  };
}

function* drawSheet(
  input: SheetsInput,
  page: Page,
  parts: readonly PlacedPart[],
  index: SheetIndex,
  sheet: number,
  count: number,
): Steps<Picture> {
  const { format, area, foot, footPlace, errors } = page;
  const { frame } = format;
  const shows = sectionsOf(parts);
  const ruleY = Math.min(frame.bottom - titleBlockHeight, footPlace.top - 2);
  const band = { ...area, top: frame.top + inset };
  const contents: Primitive[] = [];
  for (const [number, placed] of parts.entries()) {
    contents.push(group(`part-${number + 1}`, 'frame', yield* drawPart(placed, index)));
    yield;
  }
  const items: Primitive[] = [
    drawSheetFrame(format, { bottom: frame.right - titleBlockWidth <= format.width / 2 }),
    drawTitleBlock(format, {
      given: input.specification.sheet,
      title: input.title,
      shows,
      fileHash: input.fileHash,
      released: errors === 0,
      sheet,
      sheets: count,
    }),
    ...(errors > 0 ? [group('band', 'band-line', notReleasedBand(band, errors))] : []),
    foot.draw(footPlace.left, footPlace.top),
    pathShape('foot-rule', 'table-line', [footRule(frame, ruleY)]),
    ...contents,
  ];
  return {
    width: format.width,
    height: format.height,
    title: `${visible(input.title).slice(0, 200)}: sheet ${sheet} of ${count}, ${shows}`,
    description: `Handover sheet ${sheet} of ${count}, size ${format.size}: ${shows}.${errors > 0 ? ` NOT RELEASED: ${plural(errors, 'error')}.` : ''}`,
    items,
  };
}

/** From the frame's left side to the title block, or over the whole width above it. */
function footRule(frame: Area, y: number): readonly number[] {
  const blockLeft = frame.right - titleBlockWidth;
  const beside = blockLeft > frame.left + 1;
  return beside && y >= frame.bottom - titleBlockHeight - 1e-6
    ? [frame.left, y, blockLeft, y]
    : [frame.left, y, frame.right, y];
}

/** The sections on a sheet in words: `Slot table; bar list`. */
function sectionsOf(parts: readonly PlacedPart[]): string {
  const names = [...new Set(parts.map(({ section }) => section))];
  return names
    .map((name, index) => (index === 0 ? name : name.charAt(0).toLowerCase() + name.slice(1)))
    .join('; ');
}
