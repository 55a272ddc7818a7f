import {
  type CancellationToken,
  DocumentHighlight,
  DocumentHighlightKind,
  Location,
  type Position,
  type TextDocument,
} from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import { editorRange } from '../../edits.ts';
import { afterRest, createPause } from '../inSlices.ts';
import { decidingStatements } from './deciding.ts';
import { definitionsOf, type Named, namedAt, placesOf, placesOfPath } from './named.ts';

/** Where what stands at a position comes from; for a limit the statements that decide it. */
export async function definitionsAt(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  token: CancellationToken,
): Promise<Location[]> {
  const named = namedAt(study, document.offsetAt(position));
  if (named === null) return [];
  const ranges =
    named.kind === 'limit' ? await decidersOf(study, named.index, token) : definitionsOf(study, named);
  return ranges.map((range) => new Location(document.uri, editorRange(document, range)));
}

/** Every place that has to do with it; for a statement the limits that it decides. */
export async function referencesAt(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  withDefinition: boolean,
  token: CancellationToken,
): Promise<Location[]> {
  const named = namedAt(study, document.offsetAt(position));
  if (named === null) return [];
  const ranges = await referencesOf(study, named, withDefinition, token);
  return ranges.map((range) => new Location(document.uri, editorRange(document, range)));
}

async function referencesOf(
  study: CheckedText,
  named: Named,
  withDefinition: boolean,
  token: CancellationToken,
): Promise<readonly Range[]> {
  if (named.kind === 'limit') return decidersOf(study, named.index, token);
  if (named.kind === 'statement') {
    const own = withDefinition ? [named.statement.range] : [];
    return [...own, ...(await decidedBy(study, named, token))];
  }
  return placesOf(study, named)
    .filter(({ defines }) => withDefinition || !defines || named.kind === 'bars')
    .map(({ range }) => range);
}

/** What lights with the text at a position. */
export async function highlightsAt(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  token: CancellationToken,
): Promise<DocumentHighlight[]> {
  const named = namedAt(study, document.offsetAt(position));
  if (named === null) return [];
  // Limits are computed anew for each statement left out.
  if (named.kind === 'limit' || named.kind === 'statement') await afterRest(token);
  const lit = (kind: DocumentHighlightKind) => (range: Range) =>
    new DocumentHighlight(editorRange(document, range), kind);
  const [defining, using] = [lit(DocumentHighlightKind.Write), lit(DocumentHighlightKind.Read)];
  if (named.kind === 'limit') {
    const own = study.limits[named.index]!.range;
    return [defining(own), ...(await decidersOf(study, named.index, token)).map(using)];
  }
  if (named.kind === 'statement') {
    const limits = await decidedBy(study, named, token);
    return limits.length > 0 ? [defining(named.range), ...limits.map(using)] : [];
  }
  const places = placesOf(study, named);
  const rows = named.kind === 'path' ? placesOfPath(study, named.phase, named.number) : [];
  return [
    ...places.map(({ range, defines }) => (defines ? defining(range) : using(range))),
    ...rows.map(using),
  ];
}

async function decidersOf(
  study: CheckedText,
  limit: number,
  token: CancellationToken,
): Promise<readonly Range[]> {
  const deciding = await decidingStatements(study, createPause(token));
  return [...deciding].flatMap(([{ range }, limits]) => (limits.includes(limit) ? [range] : []));
}

async function decidedBy(
  study: CheckedText,
  { statement }: Extract<Named, { readonly kind: 'statement' }>,
  token: CancellationToken,
): Promise<readonly Range[]> {
  const deciding = await decidingStatements(study, createPause(token));
  return (deciding.get(statement) ?? []).flatMap((index) => study.limits[index]?.range ?? []);
}
