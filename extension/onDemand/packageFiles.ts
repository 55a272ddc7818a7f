import { schedule, scheduleTables } from '../../core/tables/schedule.ts';
import type { Parts } from '../loadOnDemand.ts';
import { sha256 } from './digest.ts';
import { type Drawable, drawingFile, picturesOf } from './drawingFiles.ts';

/** A file to be written: its name and its bytes. */
export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Tells how far the work is, from 0 to 1, before each file; where it throws, the work ends. */
export type Advance = (name: string, done: number) => Promise<void>;

/** Every schedule as CSV. `stem` heads the files' names. */
export function scheduleFiles(study: Drawable, stem: string): readonly NamedFile[] {
  return scheduleTables.map((table) => ({
    name: `${stem}-${table}.csv`,
    bytes: new TextEncoder().encode(schedule(study.facts, table)),
  }));
}

/**
 * All that goes to the shop, from one study: handover sheets as PDF, layout as DXF, schedules, report, the
 * winding text itself, and a manifest with the SHA-256 of each. The same text gives the same bytes.
 */
export async function packageFiles(
  study: Drawable,
  stem: string,
  parts: Parts,
  advance: Advance,
): Promise<readonly NamedFile[]> {
  const text = (content: string) => new TextEncoder().encode(content);
  const makers: readonly (readonly [string, () => Uint8Array | Promise<Uint8Array>])[] = [
    [`${stem}.winding`, () => text(study.text)],
    [
      `${stem}-sheets.pdf`,
      async () => drawingFile(study, await picturesOf(study, 'sheet', 'pdf'), 'pdf', parts),
    ],
    [
      `${stem}-layout.dxf`,
      async () => drawingFile(study, await picturesOf(study, 'layout', 'dxf'), 'dxf', parts),
    ],
    ...scheduleFiles(study, stem).map(({ name, bytes }) => [name, () => bytes] as const),
    [`${stem}-report.md`, () => text(study.markdown())],
    [`${stem}-report.json`, () => text(`${JSON.stringify(study.report(), null, 2)}\n`)],
  ];
  const files: NamedFile[] = [];
  for (const [name, make] of makers) {
    await advance(name, files.length / (makers.length + 1));
    files.push({ name, bytes: await make() });
  }
  const hashes = await Promise.all(
    files.map(async ({ name, bytes }) => ({ file: name, bytes: bytes.length, sha256: await sha256(bytes) })),
  );
  const count = (severity: string) => study.findings.filter((found) => found.severity === severity).length;
  const manifest = {
    schema: 'slotwright-manifest/1',
    title: study.title,
    revision: study.specification.sheet?.revision?.value ?? null,
    errors: count('error'),
    warnings: count('warning'),
    files: hashes,
  };
  return [...files, { name: 'manifest.json', bytes: text(`${JSON.stringify(manifest, null, 2)}\n`) }];
}
