import { type ConnectionFacts, joinedFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { shopBars } from '../facts/shop.ts';
import { unjoinedReason } from '../facts/unjoined.ts';
import { type Figure, missing } from '../figures/figure.ts';
import type { Steps } from '../figures/steps.ts';
import type { LimitResult } from '../findings/limits.ts';
import type { Finding } from '../language/finding.ts';
import { pathShape } from '../picture/make.ts';
import type { Space } from '../space/space.ts';
import type { LayoutInput } from '../views/layout/input.ts';
import { nearPlaces } from '../views/space/nearPlaces.ts';
import { conductorTable, slotSizesTable } from './conductors.ts';
import { conventionsBlock } from './conventions.ts';
import { dutyTables } from './duty.ts';
import { bendTables } from './ends/bendList.ts';
import { crossView } from './ends/crossView.ts';
import { crownViews } from './ends/crownView.ts';
import { endSizesTable, ringTable } from './ends/endSizes.ts';
import { insulationTable } from './ends/insulation.ts';
import { spaceView } from './ends/spaceView.ts';
import { endsHeading, phaseConnectionOf } from './joining.ts';
import { layoutBand, phaseAlone } from './layout/layout.ts';
import { planPhaseRows, planRows, type RowPlan } from './layout/scale.ts';
import { schemeBlock } from './layout/scheme.ts';
import { machineTable } from './machine.ts';
import { cautionsText, limitsTable, notesText, sourceTexts, testTable } from './notes.ts';
import {
  type Block,
  type Content,
  columnGap,
  type PlacedPart,
  rowGap,
  type SheetIndex,
} from './page/flow.ts';
import type { Area, SheetSize } from './page/format.ts';
import { type Paragraphs, paragraphsBlock } from './page/paragraphs.ts';
import { splitBlock, wholeBlock } from './page/split.ts';
import { drawHeading, headingHeight, type SheetTable, tableBlock } from './page/table.ts';
import { line, widthOf } from './page/text.ts';
import { barSketch } from './sketches/barSketch.ts';
import { pieceSketch } from './sketches/pieceSketch.ts';
import { pieceShapes, pieceTable } from './sketches/pieces.ts';
import { shapeRows, shapeSizes } from './sketches/shapeData.ts';
import { sketchWidthWithin } from './sketches/sketch.ts';
import { slotFigureBlock } from './sketches/slotFigure.ts';
import { barTable, endsTable, jointTables, slotTables } from './tables.ts';
import { windingTable } from './windingTable.ts';

/** What the contents of a sheet set are made from. */
export interface ContentsInput {
  readonly facts: Facts;
  readonly title: string;
  readonly findings: readonly Finding[];
  readonly fileHash: string;
  readonly limits?: readonly LimitResult[] | undefined;
  readonly layout: LayoutInput;
  /** The free area of every sheet. */
  readonly area: Area;
  readonly size: SheetSize;
}

/** Everything on the sheets, in order; the list of contents comes after the first. */
export interface SetContents {
  readonly first: Content;
  readonly rest: readonly Content[];
  readonly sections: readonly string[];
}

const sections = {
  conventions: 'Conventions',
  machine: 'Machine',
  winding: 'Winding',
  slotAndBars: 'Bars and slots',
  scheme: 'Connection scheme',
  layout: 'Layout, all phases',
  slots: 'Slot table',
  bars: 'Bar list',
  shapes: 'Bar shapes',
  ends: 'End winding',
  bends: 'Bend list',
  joints: 'Joint list',
  crowns: 'Crowns',
  tests: 'Test values',
  notes: 'Notes',
  cautions: 'Cautions',
  source: 'Source',
} as const;

/** Two columns of text have room beside joints and leads, or test values, on A3. */
const textWidth = 91.9;
/** Beside it, machine, winding, bars and slots stand on the first A3 sheet. */
const conventionsWidth = 166;

/** Makes contents, at once or in steps. */
type Maker = () => readonly Content[] | Steps<readonly Content[]>;

/** The contents of a sheet set, in steps. Slot numbers, bars and joints all come from the same facts. */
export function* sheetContents(input: ContentsInput): Steps<SetContents> {
  const { facts, area } = input;
  const { winding } = facts;
  const width = area.right - area.left;
  const joined = joinedFacts(facts);
  const table = (sheetTable: SheetTable) => tableContent(sheetTable, width);
  const scheme = (when: boolean) => (joined && when ? [schemeContent(facts, joined)] : []);
  const short = joined !== null && isShortScheme(joined);
  const makers: readonly Maker[] = [
    () => [table(machineTable(facts, sections.machine))],
    () => dutyTables(facts, sections.machine).map(table),
    () => [table(windingTable(facts, sections.winding))],
    () =>
      [slotFigureBlock(facts, sections.slotAndBars, Math.min(88, width))].flatMap((figure) =>
        figure ? [goingBack(block(figure))] : [],
      ),
    () => [goingBack(table(conductorTable(facts, sections.slotAndBars)))],
    () => [goingBack(table(slotSizesTable(facts, sections.slotAndBars)))],
    () => scheme(short).map(goingBack),
    ...(yield* layoutContents(input, width)),
    () => slotTables(facts, sections.slots, width).map(table),
    () => (joined ? barContents(facts, joined, width, table) : [unjoined(facts)]),
    () => (joined ? endContents(input, joined, width, table) : []),
    () => (joined ? jointTables(facts, joined, sections.joints, sections.crowns).map(table) : []),
    () => scheme(!short),
    () => (joined ? [table(endsTable(facts, joined, endsHeading(joined.connection)))] : []),
    () => closing(input, table),
  ];
  const rest: Content[] = [];
  for (const make of makers) {
    yield;
    const made = make();
    rest.push(...('next' in made ? yield* made : made));
  }
  const first: Content = {
    kind: 'block',
    block: conventionsBlock(
      winding,
      phaseConnectionOf(facts),
      sections.conventions,
      Math.min(width, conventionsWidth),
    ),
  };
  return setOf(first, rest);
}

function setOf(first: Content, rest: readonly Content[]): SetContents {
  return { first, rest, sections: [...new Set([first, ...rest].map(sectionOf))] };
}

function sectionOf(content: Content): string {
  return content.kind === 'block' ? content.block.section : content.band.section;
}

/** The same with the connection scheme before the leads, for sets where it would have a sheet of its own; null where that is not so. */
export function schemeBesideLeads(
  { first, rest }: SetContents,
  placed: readonly (readonly PlacedPart[])[],
): SetContents | null {
  const alone = placed.some((parts) => parts.every(({ section }) => section === sections.scheme));
  const scheme = rest.find((content) => sectionOf(content) === sections.scheme);
  if (!alone || !scheme) return null;
  const others = rest.filter((content) => content !== scheme);
  const leads = others.findIndex((content) => sectionOf(content).startsWith('Leads'));
  return setOf(first, [...others.slice(0, leads), scheme, ...others.slice(leads)]);
}

function tableContent(sheetTable: SheetTable, width: number): Content {
  return { kind: 'block', block: tableBlock(sheetTable, width) };
}

/** Up to two paths of each of three phases fit on the first sheet; longer schemes stand with the leads. */
function isShortScheme({ paths }: ConnectionFacts): boolean {
  return paths.length <= 6;
}

function schemeContent(facts: Facts, joined: ConnectionFacts): Content {
  return block(schemeBlock(facts.winding.phases, joined, sections.scheme));
}

function block(made: Block): Content {
  return { kind: 'block', block: made };
}

/** The same, below what comes before it where a sheet has no other room. */
function goingBack(content: Content): Content {
  return content.kind === 'block' ? block({ ...content.block, goesBack: true }) : content;
}

function text(paragraphs: Paragraphs): Content {
  return { kind: 'block', block: paragraphsBlock(paragraphs) };
}

/** The layout of all phases, then one of each phase alone, in the same rows of slots; what makes each. */
function* layoutContents({ layout, area, size }: ContentsInput, width: number): Steps<readonly Maker[]> {
  const height = area.bottom - area.top - headingHeight;
  const plan = yield* planRows(layout, width, height);
  if (plan === null)
    return [
      () => [
        text({
          id: 'no-layout',
          section: sections.layout,
          heading: 'Developed layout',
          paragraphs: [
            `The developed layout of this winding does not fit on ${size} with letters of 1.8 mm; name a larger sheet-size.`,
          ],
          width: textWidth,
        }),
      ],
    ];
  const { names } = layout.winding.phases;
  const phases = names.map((_, phase) => phaseAlone(layout, phase));
  const phasePlan = yield* planPhaseRows(plan, phases, width, height);
  const band =
    (input: LayoutInput, plan: RowPlan, id: string, section: string, of: string) =>
    (): readonly Content[] => [
      {
        kind: 'band',
        band: layoutBand({
          input,
          plan,
          id,
          section,
          heading: `Developed layout, not to scale: ${of}`,
          width,
        }),
      },
    ];
  return [
    band(layout, plan, 'layout', sections.layout, 'all phases'),
    ...phases.map((phase, index) => {
      const of = `phase ${names[index]}`;
      return band(phase, phasePlan, `layout-${names[index]}`, `Layout, ${of}`, of);
    }),
  ];
}

type MakeTable = (table: SheetTable) => Content;

function* barContents(
  facts: Facts,
  joined: ConnectionFacts,
  width: number,
  table: MakeTable,
): Steps<readonly Content[]> {
  const rows = shapeRows(facts, joined);
  yield;
  const pieces = pieceShapes(facts, joined);
  const space = spaceOf(facts);
  const ofLengths = facts.copper().length.bars;
  const context = {
    winding: facts.winding,
    sizes: shapeSizes(facts),
    section: sections.shapes,
    width: sketchWidthWithin(width, columnGap),
  };
  const sketches: Block[] = [];
  for (const row of rows) {
    yield;
    sketches.push(barSketch(row, context));
  }
  for (const piece of pieces) {
    yield;
    sketches.push(pieceSketch(piece, context));
  }
  return [
    table(barTable(facts.specification, rows, ofLengths.known ? [] : ofLengths.needs, sections.bars)),
    ...(pieces.length > 0 ? [table(pieceTable(pieces, space, sections.bars))] : []),
    ...sketches.map(block),
  ];
}

/** The bars in space; null where something of them is missing. */
function spaceOf(facts: Facts): Space | null {
  const figure = facts.space().space;
  return figure.known ? figure.value : null;
}

/** The bend list, or what it needs. */
function bendContents(facts: Facts, table: MakeTable): readonly Content[] {
  const { space, bars } = shopBars(facts);
  if (space.known && bars.known) return bendTables(space.value, bars.value, sections.bends).map(table);
  return [lacking('bends', sections.bends, 'No bend list', bars)];
}

/** Words in place of what cannot be made: what it needs, or why nothing would help. */
function lacking(id: string, section: string, what: string, figure: Figure<unknown>): Content {
  const { needs, reason } = figure.known ? missing() : figure;
  return text({
    id: `no-${id}`,
    section,
    heading: section,
    paragraphs: [needs.length > 0 ? `${what}: it needs ${needs.join(', ')}.` : `${what}, because ${reason}.`],
    width: textWidth,
  });
}

/** How the ends stand above the stack, in words and to scale, and what parts the phases. */
function* endContents(
  { facts, layout }: ContentsInput,
  joined: ConnectionFacts,
  width: number,
  table: MakeTable,
): Steps<readonly Content[]> {
  const space = spaceOf(facts);
  const insulation = table(insulationTable(facts, space, sections.ends));
  if (space === null)
    return [
      insulation,
      lacking('ends', sections.ends, 'No sizes and views of the end winding', facts.space().space),
      ...bendContents(facts, table),
    ];
  const lead = facts.specification.bar?.leadLength?.value ?? null;
  const sketch = sketchWidthWithin(width, columnGap);
  const tables = [
    table(endSizesTable(space, lead, sections.ends)),
    ...(space.rings.length > 0 ? [table(ringTable(space, sections.ends))] : []),
    insulation,
  ];
  yield;
  const views = [
    block(crossView(space, sections.ends, sketch)),
    ...crownViews(space, sections.ends, sketch).map(block),
  ];
  yield;
  const inSpace = block(yield* spaceView(layout, space, joined, sections.ends, width, nearPlaces(facts)));
  yield;
  return [...tables, ...views, inSpace, ...bendContents(facts, table)];
}

function unjoined({ connection, winding }: Facts): Content {
  const reason = connection.kind === 'connected' ? null : unjoinedReason(connection, winding);
  const words =
    reason === null
      ? 'The text does not say how the bars are joined: no bar list, joint list or leads. The statement connect gives it.'
      : `No bar list, joint list or leads, because ${reason}.`;
  return text({
    id: 'unjoined',
    section: sections.bars,
    heading: 'Bars and joints',
    paragraphs: [words],
    width: textWidth,
  });
}

function closing(
  { facts, limits, title, fileHash, findings }: ContentsInput,
  table: MakeTable,
): readonly Content[] {
  const notes = notesText(facts, sections.notes, textWidth);
  const given = facts.specification.sheet;
  return [
    table(testTable(facts, sections.tests)),
    ...(limits !== undefined && limits.length > 0 ? [table(limitsTable(limits, sections.tests))] : []),
    ...(notes ? [text(notes)] : []),
    text(cautionsText(sections.cautions, textWidth)),
    ...sourceTexts({ title, given, fileHash, findings }, sections.source, textWidth).map(text),
  ];
}

const contentsWidth = 78;
const contentsPitch = 4.9;
/** Lists up to this height are not split. */
const wholeHeight = 110;

/** Between two columns of the list, which together are as wide as the conventions. */
const contentsGap = conventionsWidth - 2 * contentsWidth;

/** The list of sections with the sheets they begin on: in two columns where one does not fit below what comes first. */
export function contentsBlock({ first, sections: names }: SetContents, area: Area): Content {
  const above = first.kind === 'block' ? first.block.take(area.bottom - area.top)?.part.height : undefined;
  const room = area.bottom - area.top - (above ?? 0) - rowGap;
  const width = 2 * contentsWidth + contentsGap;
  const rows = Math.ceil(names.length / 2);
  const height = headingHeight + rows * contentsPitch;
  const one = headingHeight + names.length * contentsPitch;
  if (one > room && height <= room && width <= area.right - area.left)
    return block(
      wholeBlock(
        { section: sections.conventions, width },
        {
          height,
          draw: (left, top, index) => [
            ...drawContentsList(names.slice(0, rows), 0, left, top, index),
            ...drawEntries(names.slice(rows), rows, left + contentsWidth + contentsGap, top, index),
          ],
        },
      ),
    );
  return block(
    splitBlock({
      section: sections.conventions,
      width: contentsWidth,
      count: names.length,
      head: () => headingHeight,
      height: () => contentsPitch,
      wholeHeight,
      least: 3,
      draw: (from, count) => (left, top, index) =>
        drawContentsList(names.slice(from, from + count), from, left, top, index),
    }),
  );
}

function drawContentsList(
  names: readonly string[],
  from: number,
  left: number,
  top: number,
  index: SheetIndex,
) {
  const heading = from === 0 ? 'Sheets' : 'Sheets, continued';
  return [
    ...drawHeading(`contents-heading-${from}`, heading, left, top),
    ...drawEntries(names, from, left, top, index),
  ];
}

/** Lines of the list below its heading, the first of them line `from`. */
function drawEntries(names: readonly string[], from: number, left: number, top: number, index: SheetIndex) {
  const right = left + contentsWidth;
  return names.flatMap((name, row) => {
    const y = top + headingHeight + row * contentsPitch + 3.5;
    const sheet = String(index.get(name) ?? '');
    const dots = [left + widthOf(name, 2.5) + 2, right - widthOf(sheet, 2.5) - 2] as const;
    return [
      line(`contents-${from + row + 1}`, 'sheet-text', left, y, name, { height: 2.5 }),
      ...(dots[1] > dots[0]
        ? [pathShape(`contents-line-${from + row + 1}`, 'table-rule', [[dots[0], y, dots[1], y]])]
        : []),
      line(`contents-sheet-${from + row + 1}`, 'sheet-text', right, y, sheet, {
        height: 2.5,
        anchor: 'end',
      }),
    ];
  });
}
