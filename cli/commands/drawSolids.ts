import { shopModel } from '../../core/facts/shop.ts';
import { writeStep } from '../../core/space/cad/writeStep.ts';
import { largeStl, stlSize, writeStl } from '../../core/space/cad/writeStl.ts';
import type { Study } from '../../core/study.ts';
import { nameOf, UsageError } from '../files/files.ts';
import { complaintLine } from '../inert.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from '../outcome.ts';

/** Which solids go into a file. */
export interface SolidOptions {
  /** Number of a bar shape, or of a kind of it; left out: everything that stands in space. */
  readonly shape?: string;
  /** Default: finished. */
  readonly state?: 'finished' | 'before';
  /** Of the chords of an STL file, m. */
  readonly chordError?: number;
}

/** Endings of files that hold solids. */
export const solidEndings = ['step', 'stp', 'stl'] as const;
export type SolidFormat = (typeof solidEndings)[number];

export function isSolid(format: string): format is SolidFormat {
  return (solidEndings as readonly string[]).includes(format);
}

/** Writes the bars of a study as a STEP or STL file; where the text does not give their bends, says what is missing. */
export function drawSolids(
  file: string,
  studied: Study,
  { shape, state, chordError, maxWarnings }: SolidOptions & { readonly maxWarnings: number },
  output: string,
  format: SolidFormat,
): Outcome {
  const { text, title, findings } = studied;
  const facts = studied.facts!;
  const model = shopModel(facts, title, { shape: shape ?? null, state: state ?? 'finished' });
  const lines = () => findingLines(file, text, findings);
  if (!model.known) {
    const words = `${nameOf(file)}: no solids of the bars: they need ${model.needs.join(', ')}.`;
    return { exitCode: 1, output: '', complaints: lines() + complaintLine(words) };
  }
  if (shape !== undefined && model.value.products.length === 0)
    throw new UsageError(`--shape ${shape}: ${shapesWords(studied)}`);
  const exitCode = exitCodeOf(countFindings(findings), maxWarnings);
  const content = () => (format === 'stl' ? writeStl(model.value, chordError) : writeStep(model.value));
  const size = format === 'stl' ? stlSize(model.value, chordError) : 0;
  const remark =
    size > largeStl
      ? complaintLine(
          `${output}: ${Math.round(size / 1e6)} MB of triangles. A larger --chord-error makes fewer; STEP files are far smaller.`,
        )
      : '';
  return {
    exitCode,
    output: '',
    complaints: (exitCode === 0 ? '' : lines()) + remark,
    files: [{ file: output, content }],
  };
}

function shapesWords({ facts }: Study): string {
  const connection = facts?.connection;
  const count = connection?.kind === 'connected' ? connection.facts.barShapes().length : 0;
  const shapes = count === 1 ? 'there is one bar shape, 1' : `the bar shapes are 1 to ${count}`;
  return `${shapes}; the bend list has their kinds, such as 1-A.`;
}
