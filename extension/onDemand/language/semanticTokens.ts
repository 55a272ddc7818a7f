import { type SemanticTokens, SemanticTokensBuilder } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { lineStarts } from '../../../core/language/text/lines.ts';
import { coloredPhases, tokenLegend } from '../../language/tokenLegend.ts';

/** Phases and the sense of their bars, wherever the text names them. */
export function semanticTokens({ document, winding, text }: CheckedText): SemanticTokens {
  const builder = new SemanticTokensBuilder(tokenLegend);
  const names = new Map(winding?.phases.names.map((name, index) => [name, index % coloredPhases]));
  const starts = lineStarts(text);
  let line = 0;
  for (const { kind, text: written, start, end } of document.tokens) {
    if (kind !== 'signed-phase' && kind !== 'mark') continue;
    const phase = names.get(kind === 'mark' ? phaseOfMark(written, names) : written.slice(1));
    if (phase === undefined) continue;
    while (line + 1 < starts.length && starts[line + 1]! <= start) line++;
    builder.push(line, start - starts[line]!, end - start, phase, written.startsWith('-') ? 1 : 0);
  }
  return builder.build();
}

/** `U` of a phase and of its terminals `U1`, `U2`; a star point is none. */
function phaseOfMark(mark: string, names: ReadonlyMap<string, number>): string {
  return names.has(mark) ? mark : mark.slice(0, -1);
}
