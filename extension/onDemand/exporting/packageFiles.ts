import type { Facts } from '../../../core/facts/facts.ts';
import type { BarState } from '../../../core/space/cad/barLines.ts';
import { type ScheduleTable, schedule, scheduleTables } from '../../../core/tables/schedule.ts';
import type { ViewName } from '../../../core/views/views.ts';
import { manifestName, manifestSchema } from '../../windingFiles.ts';
import { sha256 } from './digest.ts';
import { type Drawable, type DrawingFormat, drawingFile, type Making, picturesOf } from './drawingFiles.ts';
import { stepBytes } from './solidFiles.ts';

/** A file to be written: its name and its bytes. */
export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** One file of the handover package. */
interface PackagePart {
  /** What follows the winding's name: `-sheets.pdf`. */
  readonly ending: string;
  /** What it is, as the manifest tells. */
  readonly what: string;
  /** Null where there is none, because the text does not give what it needs. */
  readonly make: (study: Drawable, making: Making) => Uint8Array | null | Promise<Uint8Array | null>;
}

const described: Readonly<Partial<Record<ScheduleTable, string>>> = {
  field: 'places and currents of all bars for a field computation',
  operation: 'most torque over the speed',
  duty: 'points of the duty',
};

/** What a text has no speeds or no duty for. */
function isEmpty(facts: Facts, table: ScheduleTable): boolean {
  return table === 'duty'
    ? facts.duty() === null
    : table === 'operation' && facts.torqueSpeedCurve().length === 0;
}

const schedules: readonly PackagePart[] = scheduleTables.map((table) => ({
  ending: `-${table}.csv`,
  what: described[table] ?? `schedule of ${table}`,
  make: ({ facts }) => (isEmpty(facts, table) ? null : bytesOf(schedule(facts, table))),
}));

/** Everything in the handover package but its manifest, in order. A further file is one more row. */
const packageParts: readonly PackagePart[] = [
  { ending: '.winding', what: 'the winding', make: ({ text }) => bytesOf(text) },
  drawing('sheet', 'pdf', '-sheets', 'handover sheets'),
  drawing('layout', 'dxf', '-layout', 'developed layout'),
  drawing('section', 'dxf', '-section', 'section of the slots, 1:1 in millimeters where sizes are given'),
  ...schedules,
  solids('finished', '-bars', 'the bars for CAD programs, as they stand'),
  solids('before', '-bars-before', 'the bars for CAD programs, as they are put in'),
  { ending: '-report.md', what: 'report', make: (study) => bytesOf(study.markdown()) },
  {
    ending: '-report.json',
    what: 'report as data',
    make: (study) => bytesOf(`${JSON.stringify(study.report(), null, 2)}\n`),
  },
];

function drawing(view: ViewName | 'sheet', format: DrawingFormat, name: string, what: string): PackagePart {
  return {
    ending: `${name}.${format}`,
    what,
    make: async (study, making) =>
      drawingFile(study, await picturesOf(study, view, format, making), format, making),
  };
}

/** The bars as a STEP file; none where the text does not give their bends. */
function solids(state: BarState, name: string, what: string): PackagePart {
  return {
    ending: `${name}.step`,
    what,
    make: (study, making) => stepBytes(study, state, making),
  };
}

/** Every schedule as CSV. `stem` heads the files' names. */
export async function scheduleFiles(
  study: Drawable,
  stem: string,
  making: Making,
): Promise<readonly NamedFile[]> {
  const files: NamedFile[] = [];
  for (const { ending, make } of schedules) {
    await making.pause();
    const bytes = await make(study, making);
    if (bytes) files.push({ name: `${stem}${ending}`, bytes });
  }
  return files;
}

/** Tells how far the work is, from 0 to 1, before each file; where it throws, the work ends. */
export type Advance = (name: string, done: number) => Promise<void>;

/**
 * All that goes to the shop, from one study: winding, drawings, schedules, reports, and a manifest with what each
 * file is and its SHA-256. The same text gives the same bytes.
 */
export async function packageFiles(
  study: Drawable,
  stem: string,
  making: Making,
  advance: Advance,
): Promise<readonly NamedFile[]> {
  const files: NamedFile[] = [];
  const listed: object[] = [];
  for (const { ending, what, make } of packageParts) {
    const name = `${stem}${ending}`;
    await advance(name, files.length / (packageParts.length + 1));
    const bytes = await make(study, making);
    if (bytes === null) continue;
    files.push({ name, bytes });
    listed.push({ file: name, what, bytes: bytes.length, sha256: await sha256(bytes) });
  }
  const count = (severity: string) => study.findings.filter((found) => found.severity === severity).length;
  const manifest = {
    schema: manifestSchema,
    title: study.title,
    revision: study.specification.sheet?.revision?.value ?? null,
    errors: count('error'),
    warnings: count('warning'),
    files: listed,
  };
  return [...files, { name: manifestName, bytes: bytesOf(`${JSON.stringify(manifest, null, 2)}\n`) }];
}

function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
