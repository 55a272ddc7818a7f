import { type FigurePath, type FigureRow, figureRegister } from '../figures/register.ts';
import { capitalized } from '../language/numbers.ts';
import { requireWords } from '../language/vocabulary/blocks/limits.ts';

/** What a part of the report holds, by the first word of its figures' places; in the order of the register. */
const parts: Readonly<Record<string, string>> = {
  winding: 'The winding',
  symmetry: 'Symmetry',
  factors: 'Winding factors',
  mmf: 'MMF',
  balance: 'Balance of the paths',
  routing: 'Connections found',
  shapes: 'Shapes',
  voltageBetweenBars: 'Voltage between bars',
  emf: 'EMF, torque and inductances',
  operation: 'Operation',
  duty: 'Duty',
  iron: 'Iron',
  copper: 'Copper',
  space: 'Bars in space',
};

/** What a part of the report is called in headings; its own name where it has no other. */
function partTitle(part: string): string {
  return parts[part] ?? part;
}

/** The list of all figures as a Markdown page, made from the register and the vocabulary. */
export function figuresReference(): string {
  const limits = new Map<string, string[]>();
  for (const { word, reportPath } of requireWords) {
    if (reportPath) limits.set(reportPath, [...(limits.get(reportPath) ?? []), word]);
  }
  const paths = Object.keys(figureRegister) as FigurePath[];
  const names = [...new Set(paths.map((path) => path.split(/[.[]/)[0]!))];
  const sections = names.flatMap((name) => [
    '',
    `## ${partTitle(name)}`,
    '',
    '| figure | in the report | unit | limit | model | source |',
    '| --- | --- | --- | --- | --- | --- |',
    ...paths
      .filter((path) => path.split(/[.[]/)[0] === name)
      .map((path) => figureLine(path, figureRegister[path], limits.get(path) ?? [])),
  ]);
  const introduction = `# Figures

Every figure of the report: what it is called everywhere, its place in the JSON report, the unit it has there (SI; fractions, factors and counts have none), the word that limits it in \`require\`, how it is computed, and after whom. [theory.md](theory.md) derives them; "from memory" marks a source that was not at hand when it was named.`;
  return `${[introduction, ...sections].join('\n')}\n`;
}

/** Where a figure stands in the JSON report; the names of those of the duty's points leave out that these are a list. */
function placeOf(path: string): string {
  return path.replace(/^duty\.points\./, 'duty.points[].');
}

function figureLine(path: string, row: FigureRow, limits: readonly string[]): string {
  const cells = [
    capitalized(row.words),
    `\`${placeOf(path)}\``,
    row.unit === '1' ? '' : row.unit,
    limits.map((word) => `\`${word}\``).join(' '),
    row.model ?? '',
    row.source ?? '',
  ];
  return `| ${cells.map((cell) => cell.replace(/\|/g, '\\|')).join(' | ')} |`;
}
