import { layoutInput } from './drawing/connectedLayout.ts';
import { layoutPicture } from './drawing/layout.ts';
import type { Picture } from './drawing/picture.ts';
import { type ConnectionState, type Connector, connectNow, connectWinding } from './findings/connection.ts';
import { type Facts, gatherFacts } from './findings/facts.ts';
import { lazy } from './findings/lazy.ts';
import { evaluateLimits, type LimitResult, limitFindings } from './findings/limits.ts';
import { crashFinding, runRules } from './findings/registry.ts';
import { writeOutPaths } from './findings/writeOutPaths.ts';
import type { Document } from './language/document.ts';
import { type Finding, finding, type Range } from './language/finding.ts';
import { findingsTooMany, visible } from './language/kinds.ts';
import { lineStarts } from './language/lines.ts';
import { parse } from './language/parser.ts';
import type { Specification } from './language/specification.ts';
import { specify } from './language/specify.ts';
import { buildReport } from './report/build.ts';
import { type FactorTableRow, factorTableRows, type KeyFigure, keyFigures } from './report/figures.ts';
import { reportMarkdown } from './report/markdown.ts';
import type { Report } from './report/schema.ts';
import { deriveWinding } from './winding/derive.ts';
import type { Winding } from './winding/model.ts';

/** Everything that follows from one winding text, computed once, each part when first asked for. */
export interface Study {
  readonly text: string;
  readonly document: Document;
  readonly specification: Specification;
  /** The winding's name, fit to be shown. */
  readonly title: string;
  readonly winding: Winding | null;
  readonly facts: Facts | null;
  /** The text has errors of form, or describes no winding: figures and pictures may not be what it means. */
  readonly broken: boolean;
  /** Paths are still being found: ask again when they are found. */
  readonly pending: boolean;
  /** Every finding, in text order. */
  readonly findings: readonly Finding[];
  readonly limits: readonly LimitResult[];
  /** The developed layout, or null where the text yields no slot table. */
  layoutPicture(): Picture | null;
  keyFigures(): readonly KeyFigure[];
  /** The factor table as shown: orders that matter, numbers as text. */
  factorRows(): readonly FactorTableRow[];
  /** The edit that writes the found paths into the text; null where there is nothing to write. */
  writeOutPaths(): { readonly range: Range; readonly text: string } | null;
  /** The report; `orders` is the highest order listed, by default max(4 slots, 20 pole pairs). */
  report(orders?: number): Report;
  markdown(orders?: number): string;
}

/** Findings a text can have; further ones help nobody. */
const mostFindings = 1000;

/** In text order, and cut off with a finding that says so where there are too many. */
function capped(findings: readonly Finding[]): readonly Finding[] {
  const sorted = [...findings].sort((a, b) => a.range.start - b.range.start || a.range.end - b.range.end);
  if (sorted.length <= mostFindings + 1) return sorted;
  const next = sorted[mostFindings]!.range;
  return [...sorted.slice(0, mostFindings), finding(findingsTooMany, next, { most: mostFindings })];
}

const untitled = 'Untitled winding';

/** Studies a winding text; `connector` finds its paths. Never throws for any text. */
export function study(text: string, connector: Connector = connectNow): Study {
  const document = parse(text);
  const specification = specify(document);
  const { winding, paths, findings: derived } = deriveWinding(specification);
  const start = specification.machine?.range ?? { start: 0, end: 0 };
  const crashes: Finding[] = [];
  const safely = <T>(check: string, otherwise: T, compute: () => T): T => {
    try {
      return compute();
    } catch (problem) {
      crashes.push(crashFinding(check, start, problem));
      return otherwise;
    }
  };
  const connection = safely<ConnectionState>('paths', { kind: 'none' }, () =>
    winding ? connectWinding(specification, winding, paths, connector) : { kind: 'none' },
  );
  const facts = winding ? gatherFacts(specification, winding, connection) : null;
  const title = visible(specification.title?.value ?? untitled);
  const checked = facts ? runRules(facts) : [];
  const limits = safely<readonly LimitResult[]>('limits', [], () =>
    evaluateLimits(specification.limits, facts),
  );
  const limited = facts ? limitFindings(limits) : [];
  const formal = [...document.findings, ...derived];
  const findings = capped([...formal, ...checked, ...limited, ...crashes]);
  const starts = lazy(() => lineStarts(text));
  const report = (orders?: number): Report =>
    buildReport({
      title,
      specification,
      facts,
      limits,
      findings,
      lineStarts: starts(),
      ...(orders === undefined ? {} : { orders }),
    });
  const picture = lazy(() => (winding ? layoutPicture(layoutInput(winding, title, connection)) : null));
  return {
    text,
    document,
    specification,
    title,
    winding,
    facts,
    pending: connection.kind === 'pending',
    broken: winding === null || formal.some(({ severity }) => severity === 'error'),
    findings,
    limits,
    layoutPicture: picture,
    keyFigures: lazy(() => (facts ? keyFigures(facts) : [])),
    factorRows: lazy(() => (facts ? factorTableRows(facts) : [])),
    writeOutPaths: () => writeOutPaths(document, facts),
    report,
    markdown: (orders) => reportMarkdown(report(orders), facts, limits),
  };
}
