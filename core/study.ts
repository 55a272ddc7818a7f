import { type Connector, connectNow } from './facts/connection.ts';
import { lazy } from './facts/lazy.ts';
import { measureBeside, workStore } from './facts/workFirst.ts';
import { type CheckedText, checkText } from './findings/checkedText.ts';
import { lineStarts } from './language/text/lines.ts';
import type { Picture } from './picture/picture.ts';
import { buildReport } from './report/build.ts';
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
  /**
   * The report; `orders` is the highest order listed, by default max(4 slots, 20 pole pairs). The
   * connections to choose from are listed where `candidates` asks for them, which takes a further search.
   */
  report(orders?: number, candidates?: boolean): Report;
  markdown(orders?: number): string;
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
  const report = (orders?: number, candidates = false): Report =>
    buildReport({
      title,
      specification,
      facts,
      limits,
      findings,
      accepted,
      lineStarts: starts(),
      candidates,
      ...(orders === undefined ? {} : { orders }),
    });
  return {
    ...checked,
    layoutPicture: lazy(() => (facts ? connectedLayout(facts, title) : null)),
    keyFigures: lazy(() => (facts ? keyFigures(facts) : [])),
    factorRows: lazy(() => (facts ? factorTableRows(facts) : [])),
    report,
    markdown: (orders) => reportMarkdown(report(orders), facts, limits),
  };
}
