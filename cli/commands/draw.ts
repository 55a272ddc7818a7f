import { createHash } from 'node:crypto';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { stacked } from '../../core/review/movePicture.ts';
import { noSheetsWords, sheets } from '../../core/sheets/sheets.ts';
import { type Study, study } from '../../core/study.ts';
import { drawView, type ViewName } from '../../core/views/views.ts';
import { outputFormat } from '../files/destination.ts';
import type { FileFormats } from '../files/fileFormats.ts';
import { nameOf, readText, UsageError } from '../files/files.ts';
import { complaintLine } from '../inert.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from '../outcome.ts';
import { drawSolids, isSolid, type SolidFormat, type SolidOptions, solidEndings } from './drawSolids.ts';

export interface DrawOptions extends SolidOptions {
  readonly view: ViewName | 'sheet';
  readonly phase?: string;
  readonly output?: string;
  readonly maxWarnings: number;
}

/**
 * Draws one view of a file, or its handover sheets: as SVG to standard output (sheets one above the
 * other), or as SVG, PDF or DXF to a file; the bars in space also as solids, STEP or STL.
 */
export function draw(file: string, options: DrawOptions, loadFormats: () => FileFormats): Outcome {
  const { output } = options;
  const format = formatOf(file, options);
  const text = readText(file);
  const studied = study(text);
  const lines = () => findingLines(file, text, studied.findings);
  if (!studied.facts) {
    const complaints =
      lines() + complaintLine(`${nameOf(file)}: the text yields no slot table; nothing is drawn.`);
    return { exitCode: 1, output: '', complaints };
  }
  if (output !== undefined && isSolid(format)) return drawSolids(file, studied, options, output, format);
  const pictures = picturesOf(studied, text, options, format === 'dxf');
  const exitCode = exitCodeOf(countFindings(studied.findings), options.maxWarnings);
  // The picture does not say why the exit code is 1.
  const outcome = { exitCode, complaints: exitCode === 0 ? '' : lines() };
  const { names: phaseNames } = studied.facts.winding.phases;
  const contents = {
    svg: () => pictureToSvg(stacked(pictures, titleOfAll(studied, pictures))),
    pdf: () => pdfBytes(studied, pictures, loadFormats()),
    dxf: () => loadFormats().writers.pictureToDxf(pictures, { phaseNames }),
  };
  if (output === undefined) return { ...outcome, output: contents.svg() };
  return {
    ...outcome,
    output: '',
    files: [{ file: output, content: contents[format as keyof typeof contents] }],
  };
}

/** What the output's ending asks for; the options of solids go with solids alone. */
function formatOf(file: string, options: DrawOptions): 'svg' | 'pdf' | 'dxf' | SolidFormat {
  const { output, view, phase, shape, state, chordError } = options;
  const solids = view === 'space' ? solidEndings : [];
  if (
    output !== undefined &&
    view !== 'space' &&
    solidEndings.some((ending) => output.toLowerCase().endsWith(`.${ending}`))
  )
    throw new UsageError(`${output}: STEP and STL files hold the bars in space; ask for --view space.`);
  const format =
    output === undefined ? 'svg' : (outputFormat(output, ['svg', 'pdf', 'dxf', ...solids], file) ?? 'svg');
  if (isSolid(format)) {
    if (phase !== undefined) throw new UsageError('--phase: a file of solids has no phases; leave it out.');
    if (chordError !== undefined && format !== 'stl')
      throw new UsageError(
        '--chord-error: a STEP file has exact curves; it goes with an --output that ends with .stl.',
      );
    return format;
  }
  for (const [name, given] of Object.entries({ shape, state, 'chord-error': chordError }))
    if (given !== undefined)
      throw new UsageError(
        `--${name}: it goes with --view space and an --output that ends with .step or .stl.`,
      );
  return format;
}

/** Several pictures in one file are all sheets. */
function titleOfAll({ title }: Study, pictures: readonly Picture[]): string | undefined {
  return pictures.length > 1 ? `${title}: sheets 1 to ${pictures.length}` : undefined;
}

/** One picture for a view; for the handover sheets one a sheet. */
function picturesOf(
  studied: Study,
  text: string,
  { view, phase: name }: DrawOptions,
  fullSize: boolean,
): readonly Picture[] {
  const { title, specification, findings, limits } = studied;
  const facts = studied.facts!;
  if (view === 'sheet') {
    if (name !== undefined) throw new UsageError('--phase: the sheets show every phase; leave it out.');
    const refused = noSheetsWords(facts);
    if (refused !== null) throw new UsageError(refused);
    const fileHash = createHash('sha256').update(text, 'utf8').digest('hex');
    return sheets({ facts, specification, title, findings, limits, fileHash });
  }
  if (name === undefined) return [drawView({ title, specification, facts }, view, { fullSize })];
  const { names } = facts.winding.phases;
  const phase = names.indexOf(name);
  if (phase < 0) throw new UsageError(`--phase ${name}: the phases are ${names.join(', ')}.`);
  return [drawView({ title, specification, facts }, view, { fullSize, emphasis: { phase } })];
}

function pdfBytes(studied: Study, pictures: readonly Picture[], formats: FileFormats): Promise<Uint8Array> {
  return formats.writers.pictureToPdf(pictures, {
    fontBytes: formats.font,
    metadata: pdfMetadata(studied),
    bookmarks: pictures.map(({ title }) => title),
  });
}

function pdfMetadata({ title, specification }: Study): { title: string; author?: string } {
  const author = specification.sheet?.drawnBy?.value ?? specification.sheet?.owner?.value;
  return { title, ...(author === undefined ? {} : { author }) };
}
