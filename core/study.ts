import { type Connector, connectNow } from './facts/connection.ts';
import { measureBeside, workStore } from './facts/workFirst.ts';
import { lazy } from './figures/lazy.ts';
import { type CheckedText, checkText } from './findings/checkedText.ts';
import { lineStarts } from './language/text/lines.ts';
import type { Picture } from './picture/picture.ts';
import { buildReport, type ReportWishes } from './report/build.ts';
import { type FactorTableRow, factorTableRows, type KeyFigure, keyFigures } from './report/figures.ts';
import { reportMarkdown } from './report/markdown/markdown.ts';
import type { Report } from './report/schema.ts';
import { connectedLayout } from './views/layout/connectedLayout.ts';

/** Everything that follows from one winding text, computed once, each part when first asked for. */
export interface Study extends CheckedText {
  /** The developed layout, or null where the text yields no slot table. */
  layoutPicture(): Picture | null;
  keyFigures(): readonly KeyFigure[];
  /** The factor table as shown: orders that matter, numbers as text. */
  factorRows(): readonly FactorTableRow[];
  report(asked?: ReportWishes): Report;
  /** The report as Markdown; it lists no connections to choose from. */
  markdown(asked?: Pick<ReportWishes, 'orders'>): string;
}

/** Studies a winding text; `connector` finds its paths. Never throws for any text. */
export function study(text: string, connector: Connector = connectNow): Study {
  const store = workStore(mostWork);
  return studyOf(checkText(text, connector, measureBeside(store), store));
}

/** Results that limits on found paths leave to the study: those of some connections. */
const mostWork = 40;

/** The study of a text that has been checked already. */
export function studyOf(checked: CheckedText): Study {
  const { text, title, specification, facts, limits, findings, accepted } = checked;
  const starts = lazy(() => lineStarts(text));
  const report = (asked?: ReportWishes): Report =>
    buildReport({ ...asked, title, specification, facts, limits, findings, accepted, lineStarts: starts() });
  return {
    ...checked,
    layoutPicture: lazy(() => (facts ? connectedLayout(facts, title) : null)),
    keyFigures: lazy(() => (facts ? keyFigures(facts) : [])),
    factorRows: lazy(() => (facts ? factorTableRows(facts) : [])),
    report,
    markdown: (asked) => reportMarkdown(report(asked), facts, limits),
  };
}
