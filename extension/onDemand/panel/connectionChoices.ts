import type { Candidate, ConnectionFacts } from '../../../core/facts/connection.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { fixed, percent, significant } from '../../../core/language/numbers.ts';
import { type ReportedCandidate, reportedCandidateSteps } from '../../../core/report/candidates.ts';
import { nothingListed, type ShownConnections } from '../../protocol/shownParts.ts';
import { l10n } from '../../wording.ts';
import { createPause, inSlices } from '../inSlices.ts';
import type { Shown } from './content.ts';

/** The connections to choose from of one panel's text, and which of them is drawn. */
export interface ConnectionChoices {
  /** The text that the panel shows has been checked again. */
  readonly follow: (study: CheckedText | null) => void;
  /** Whether the list is on the page: it is kept in step with the text then. */
  readonly listed: (open: boolean) => void;
  /** Looks for the connections of the present text, if they are not known; resolves when they are, or are not wanted any more. */
  readonly found: () => Promise<readonly ReportedCandidate[]>;
  /** Draws one of them as if it were the text's; 0 is what the text gives. */
  readonly draw: (index: number) => void;
  /** The study of the present text and one of its connections; null where there is none. */
  readonly candidate: (
    index: number,
  ) => { readonly study: CheckedText; readonly candidate: Candidate } | null;
  readonly shown: () => ShownConnections;
  /** What the panel shows, with the connection that is tried in place of the text's. */
  readonly tried: (shown: Shown) => Shown;
}

interface Found {
  readonly candidates: readonly Candidate[];
  readonly reported: readonly ReportedCandidate[];
  readonly rows: ShownConnections['rows'];
}

/** No connections are known yet; `changed` is called when the page has other ones to show. */
export function createConnectionChoices(changed: () => void): ConnectionChoices {
  let study: CheckedText | null = null;
  /** What the text gives, if others can be found for it. */
  let own: ConnectionFacts | null = null;
  let found: Found | null = null;
  let search: { isCancellationRequested: boolean; readonly done: Promise<void> } | null = null;
  let open = false;
  let drawn = 0;
  let trial: { readonly of: CheckedText; readonly index: number; readonly study: CheckedText } | null = null;
  let sent: ShownConnections = nothingListed;

  const stop = () => {
    if (search !== null) search.isCancellationRequested = true;
    search = null;
  };
  const look = () => {
    const facts = study?.facts;
    if (!facts || own?.candidates == null || found !== null) return Promise.resolve();
    if (search !== null) return search.done;
    const token = { isCancellationRequested: false };
    const { candidates } = own;
    const work = async () => {
      const pause = createPause(token);
      const reported = await inSlices(reportedCandidateSteps(facts), pause);
      const all = await inSlices(candidates(), pause);
      if (token.isCancellationRequested) return;
      found = { candidates: all, reported, rows: reported.map((each) => cellsOf(each, reported[0]!)) };
      search = null;
      changed();
    };
    // A search that is not wanted any more ends by itself.
    const running = Object.assign(token, { done: work().catch(() => {}) });
    search = found === null ? running : null;
    changed();
    return running.done;
  };
  return {
    follow: (next) => {
      study = next;
      const connection = next?.facts?.connection;
      const joined =
        connection?.kind === 'connected' && connection.facts.candidates ? connection.facts : null;
      if (joined !== own) {
        own = joined;
        found = null;
        drawn = 0;
        stop();
      }
      if (open) void look();
    },
    listed: (next) => {
      const was = open;
      open = next;
      if (open) void look();
      // A page that has just begun says so too, and ends no trial that was begun elsewhere.
      else if (was && drawn !== 0) {
        drawn = 0;
        changed();
      }
    },
    found: async () => {
      await look();
      return found?.reported ?? [];
    },
    draw: (index) => {
      if (found?.candidates[index] === undefined || index === drawn) return;
      drawn = index;
      changed();
    },
    candidate: (index) => {
      const candidate = found?.candidates[index];
      return study === null || candidate === undefined ? null : { study, candidate };
    },
    shown: () => {
      const next: ShownConnections = {
        status: statusOf(study, found !== null, search !== null),
        rows: found?.rows ?? [],
        drawn,
      };
      if (next.status !== sent.status || next.rows !== sent.rows || next.drawn !== sent.drawn) sent = next;
      return sent;
    },
    tried: (shown) => {
      const candidate = drawn === 0 ? undefined : found?.candidates[drawn];
      if (candidate === undefined || study === null || shown.study !== study) return shown;
      if (trial?.of !== study || trial.index !== drawn)
        trial = { of: study, index: drawn, study: study.connectedBy(candidate.facts) };
      const stamp = l10n.t('On trial: connection {0} of {1}', drawn + 1, found!.candidates.length);
      return { ...shown, study: trial.study, notice: { stamp, headline: '', places: [] } };
    },
  };
}

function statusOf(study: CheckedText | null, found: boolean, searching: boolean): ShownConnections['status'] {
  const connection = study?.facts?.connection;
  if (connection?.kind === 'pending') return 'searching';
  if (connection?.kind !== 'connected') return 'none';
  if (!connection.facts.candidates) return 'written';
  return found ? 'found' : searching ? 'searching' : 'none';
}

/** What a connection costs, in the order of the columns; behind it what it has more or less than the first. */
function cellsOf(each: ReportedCandidate, first: ReportedCandidate): readonly string[] {
  const counts = countedParts.map((part) => {
    const more = each[part] - first[part];
    return `${each[part]}${more === 0 ? '' : ` (${signed(more, String)})`}`;
  });
  // The difference is in the value's unit.
  const part = (name: (typeof measuredParts)[number], number: (value: number) => string, unit: string) => {
    const [value, usual] = [each[name], first[name]];
    if (value === null) return '–';
    const more = usual === null ? 0 : value - usual;
    const change = signed(more, number);
    return `${number(value)}${unit}${/[1-9]/.test(change) ? ` (${change})` : ''}`;
  };
  return [
    ...counts,
    part('voltageInSlot', (value) => significant(100 * value, 3), ' %'),
    part('copperLength', (value) => fixed(value, 2), ' m'),
    part('terminalWindow', (value) => fixed(value, 1), '°'),
  ];
}

const countedParts = [
  'pieces',
  'levels',
  'jointShapes',
  'barShapes',
  'legsBentApart',
  'specialJoints',
] as const satisfies readonly (keyof ReportedCandidate)[];

const measuredParts = [
  'voltageInSlot',
  'copperLength',
  'terminalWindow',
] as const satisfies readonly (keyof ReportedCandidate)[];

function signed(value: number, words: (size: number) => string): string {
  return `${value < 0 ? '\u2212' : '+'}${words(Math.abs(value))}`;
}

/** One connection in a line: what counts most. */
export function connectionLine(each: ReportedCandidate): string {
  return [
    each.pieces === 1 ? l10n.t('1 piece') : l10n.t('{0} pieces', each.pieces),
    each.jointShapes === 1 ? l10n.t('1 joint shape') : l10n.t('{0} joint shapes', each.jointShapes),
    each.specialJoints === 1 ? l10n.t('1 special joint') : l10n.t('{0} special joints', each.specialJoints),
  ].join(' · ');
}

/** The rest of what it costs. */
export function connectionDetail(each: ReportedCandidate): string {
  return [
    l10n.t('{0} bar shapes', each.barShapes),
    l10n.t('{0} legs bent apart', each.legsBentApart),
    ...(each.levels > 0 ? [l10n.t('{0} levels of pieces', each.levels)] : []),
    ...(each.voltageInSlot === null
      ? []
      : [l10n.t('{0} of the phase voltage in a slot', percent(each.voltageInSlot, 3))]),
    ...(each.copperLength === null ? [] : [l10n.t('{0} m of bars and pieces', fixed(each.copperLength, 2))]),
    l10n.t('starts within {0}°', fixed(each.terminalWindow, 1)),
  ].join(' · ');
}

/** Of a text whose connection is the only one found: what there is to change in it. */
export function onlyConnection(): string {
  return l10n.t(
    "No other connection was found that is better in anything. Another number in 'route paths', or another place of special spans by 'specials', asks anew.",
  );
}
