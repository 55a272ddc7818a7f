import type { Picture } from '../core/drawing/picture.ts';
import { pictureToSvg } from '../core/drawing/svg.ts';
import { drawView, type ViewName } from '../core/drawing/views.ts';
import { type Study, study } from '../core/study.ts';
import type { FileFormats } from './fileFormats.ts';
import { readText, UsageError, writeBytes, writeText } from './files.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from './outcome.ts';

export interface DrawOptions {
  readonly view: ViewName;
  readonly phase?: string;
  readonly output?: string;
  readonly maxWarnings: number;
}

/** Draws one view of a file: as SVG to standard output, or as SVG, PDF or DXF to a file. */
export function draw(file: string, options: DrawOptions, loadFormats: () => FileFormats): Outcome {
  const ending = /\.(svg|pdf|dxf)$/i.exec(options.output ?? '.svg')?.[1]?.toLowerCase();
  if (ending === undefined) {
    throw new UsageError(`${options.output}: the ending of the output file has to be .svg, .pdf or .dxf.`);
  }
  const text = readText(file);
  const studied = study(text);
  const name = file === '-' ? '<stdin>' : file;
  const lines = () => findingLines(name, text, studied.findings);
  if (!studied.facts) {
    const complaints = `${lines()}slotwright: ${name}: the text yields no slot table; nothing is drawn.\n`;
    return { exitCode: 1, output: '', complaints };
  }
  const picture = pictureOf(studied, options);
  const exitCode = exitCodeOf(countFindings(studied.findings), options.maxWarnings);
  // The picture does not say why the exit code is 1.
  const outcome = { exitCode, complaints: exitCode === 0 ? '' : lines() };
  const { output } = options;
  if (output === undefined) return { ...outcome, output: pictureToSvg(picture) };
  if (ending === 'pdf')
    return { ...outcome, output: '', finish: () => writePdf(output, studied, picture, loadFormats()) };
  if (ending === 'dxf') {
    const phaseNames = studied.facts.winding.phases.names;
    writeText(output, loadFormats().writers.pictureToDxf(picture, { phaseNames }));
  } else writeText(output, pictureToSvg(picture));
  return { ...outcome, output: '' };
}

function pictureOf(studied: Study, { view, phase: name }: DrawOptions): Picture {
  const { title, specification, facts } = studied;
  if (name === undefined) return drawView({ title, specification, facts: facts! }, view);
  const { names } = facts!.winding.phases;
  const phase = names.indexOf(name);
  if (phase < 0) throw new UsageError(`--phase ${name}: the phases are ${names.join(', ')}.`);
  return drawView({ title, specification, facts: facts! }, view, { phase });
}

async function writePdf(
  output: string,
  studied: Study,
  picture: Picture,
  formats: FileFormats,
): Promise<void> {
  const bytes = await formats.writers.pictureToPdf([picture], {
    fontBytes: formats.font,
    metadata: { title: studied.title },
  });
  writeBytes(output, bytes);
}
