import { shopModel } from '../../core/facts/shop.ts';
import { format } from '../../core/language/format/formatter.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { reportSchema } from '../../core/report/schema.ts';
import { compare } from '../../core/review/compare.ts';
import { comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { comparisonSchema } from '../../core/review/schema.ts';
import { sheets } from '../../core/sheets/sheets.ts';
import { writeStep } from '../../core/space/cad/writeStep.ts';
import { writeStl } from '../../core/space/cad/writeStl.ts';
import { type Study, study } from '../../core/study.ts';
import { schedule, scheduleTables } from '../../core/tables/schedule.ts';
import { drawView, viewNames } from '../../core/views/views.ts';
import { readXml, troublesOf } from '../picture/checkPicture.ts';
import { sheetTroubles, someHash } from '../sheets/sheetSets.ts';

/** What became of one text. */
export interface Outcome {
  readonly studied: Study;
  /** It describes a winding, so pictures, sheets and schedules were made of it. */
  readonly wound: boolean;
  readonly connected: boolean;
  /** What is wrong with anything made of it, in words. */
  readonly troubles: readonly string[];
}

const nonsense = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object /;

/** Makes everything there is of a text, and of the step from what was studied before it, and looks for faults. */
export function outcomeOf(text: string, before: Study | null = null): Outcome {
  const troubles: string[] = [];
  const guarded = (what: string, make: () => readonly string[]) => {
    try {
      troubles.push(...make().map((trouble) => `${what}: ${trouble}`));
    } catch (error) {
      troubles.push(`${what} throws ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const studied = study(text);
  const { facts, specification, title, findings, limits } = studied;
  guarded('findings', () =>
    findings.flatMap(({ code, message }) =>
      code === 'check-crashed' || nonsense.test(message) ? [`${code} ${message}`] : [],
    ),
  );
  guarded('report', () => reportTroubles(studied));
  guarded('format', () => {
    const once = format(text);
    return format(once) === once ? [] : ['is not the same the second time'];
  });
  guarded('comparison', () => comparisonTroubles(before ?? studied, studied));
  if (facts === null) return { studied, wound: false, connected: false, troubles };
  for (const [index, view] of viewNames.entries())
    guarded(view, () => {
      const picture = drawView({ title, specification, facts }, view, { coarse: true });
      // All views go through one writer: one of them by turns is read back.
      if (index === text.length % viewNames.length) readXml(pictureToSvg(picture));
      return troublesOf(picture);
    });
  guarded('sheets', () => {
    const pages = sheets({ facts, specification, title, findings, limits, fileHash: someHash });
    return sheetTroubles({ study: studied, pages });
  });
  guarded('solids', () => solidTroubles(studied, text.length));
  for (const table of scheduleTables)
    guarded(table, () => (nonsense.test(schedule(facts, table)) ? ['holds no number'] : []));
  return { studied, wound: true, connected: facts.connection.kind === 'connected', troubles };
}

function reportTroubles(studied: Study): readonly string[] {
  const read = reportSchema.safeParse(JSON.parse(JSON.stringify(studied.report())));
  const shown = nonsense.exec(studied.markdown());
  return [...(read.success ? [] : [read.error.message]), ...(shown ? [`Markdown holds ${shown[0]}`] : [])];
}

function comparisonTroubles(before: Study, now: Study): readonly string[] {
  const comparison = compare(before, now);
  const read = comparisonSchema.safeParse(JSON.parse(JSON.stringify(comparison)));
  const shown = nonsense.exec(comparisonMarkdown(comparison, 'old', 'new'));
  const itself = compare(now, now);
  return [
    ...(read.success ? [] : [read.error.message]),
    ...(shown ? [`Markdown holds ${shown[0]}`] : []),
    ...(itself.numbers.length > 0 || itself.bars.length > 0 ? ['a winding differs from itself'] : []),
  ];
}

/** Bytes of an STL file before its triangles, and of each: nine coordinates behind a normal. */
const stl = { header: 84, triangle: 50 };

/** Solids of the bars, STL and STEP by turns, as they stand and as they are put in. */
function solidTroubles({ facts, title }: Study, turn: number): readonly string[] {
  if (turn % 4 > 1 || facts === null) return [];
  const model = shopModel(facts, title, { shape: null, state: turn % 8 < 4 ? 'finished' : 'before' });
  if (!model.known) return [];
  if (turn % 4 === 0) return nonsense.test(writeStep(model.value)) ? ['STEP holds no number'] : [];
  const bytes = writeStl(model.value);
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const triangles = view.getUint32(stl.header - 4, true);
  const size = stl.header + stl.triangle * triangles;
  if (bytes.length !== size) return [`STL of ${triangles} triangles has ${bytes.length} bytes, not ${size}`];
  for (let at = stl.header; at < size; at += stl.triangle)
    for (let part = 0; part < 12; part++)
      if (!Number.isFinite(view.getFloat32(at + 4 * part, true))) return ['STL holds no number'];
  return [];
}
