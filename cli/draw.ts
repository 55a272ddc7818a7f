import { pictureToSvg } from '../core/drawing/svg.ts';
import { study } from '../core/study.ts';
import { readText, UsageError, writeText } from './files.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from './outcome.ts';

export interface DrawOptions {
  readonly view: 'layout';
  readonly output?: string;
  readonly maxWarnings: number;
}

/** Draws one view of a file as SVG, to standard output or a file. */
export function draw(file: string, options: DrawOptions): Outcome {
  if (options.output !== undefined && !/\.svg$/i.test(options.output)) {
    throw new UsageError(`${options.output}: the ending of the output file has to be .svg.`);
  }
  const text = readText(file);
  const studied = study(text);
  const picture = studied.layoutPicture();
  if (!picture) {
    const complaints = `${findingLines(file, text, studied.findings)}slotwright: ${file}: the text yields no slot table; nothing is drawn.\n`;
    return { exitCode: 1, output: '', complaints };
  }
  const svg = pictureToSvg(picture);
  if (options.output !== undefined) writeText(options.output, svg);
  const exitCode = exitCodeOf(countFindings(studied.findings), options.maxWarnings);
  return { exitCode, output: options.output === undefined ? svg : '', complaints: '' };
}
