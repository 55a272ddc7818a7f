import type { CheckedText } from '../findings/checkedText.ts';
import type { Finding } from '../language/finding.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { regularBends } from '../winding/joints/bends.ts';
import type { Path, Winding } from '../winding/model.ts';
import { type SourcedPath, walkPaths } from '../winding/paths/writtenPaths.ts';
import type { DrawingBase } from './nextBars.ts';

/** What paths are drawn on in a text. */
export interface DrawingSource {
  readonly winding: Winding;
  readonly connection: PhaseConnection;
  readonly base: DrawingBase;
  /** The paths that the text writes, with their places; some bars may be in none of them. */
  readonly written: readonly SourcedPath[];
  readonly paths: readonly Path[];
}

/**
 * Why no path can be drawn in a text: it has errors; its block `connect` does not say how the phases are joined; its
 * paths are still being found; or they were found and must be written out first.
 */
export type NoDrawing = 'errors' | 'not-connected' | 'pending' | 'found';

/** What paths are drawn on, or why there is nothing to draw on. */
export function drawingSource({
  document,
  specification,
  winding,
  facts,
}: CheckedText): DrawingSource | NoDrawing {
  const { connect, layout } = specification;
  if (!winding || !facts || document.findings.some(({ severity }) => severity === 'error')) return 'errors';
  const connection = connect?.connections[0]?.value;
  if (!connect || !connection) return 'not-connected';
  const state = facts.connection;
  if (state.kind === 'pending') return 'pending';
  if (state.kind === 'connected' && state.facts.written === null) return 'found';
  const problems: Finding[] = [];
  const layers = layout ? winding.layers : null;
  const written =
    state.kind === 'connected'
      ? (state.facts.written ?? [])
      : walkPaths(connect, { ...winding, layers }, problems);
  // A statement that cannot be read would be written a second time.
  if (problems.some(({ severity }) => severity === 'error')) return 'errors';
  const paths = written.map(({ path }) => path);
  return { winding, connection, written, paths, base: { winding, bends: regularBends(winding, paths) } };
}
