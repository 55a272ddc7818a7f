import type { Log, Region, ReportingDescriptor, Result } from 'sarif';
import type { Finding, FindingKind, Range, Severity } from '../language/finding.ts';
import { lineColumn, lineStarts } from '../language/text/lines.ts';
import { visible } from '../language/text/visible.ts';
import { sentence } from './markdown/guard.ts';

/** One checked file; `uri` is relative to the root of the repository, with forward slashes, percent-encoded. */
export interface CheckedFile {
  readonly uri: string;
  readonly text: string;
  readonly findings: readonly Finding[];
}

export interface SarifOptions {
  readonly version: string;
  /** Every kind of finding there is: each becomes a rule. */
  readonly kinds: readonly Pick<FindingKind<unknown>, 'code' | 'severity' | 'help'>[];
  /** Address of the project, whose docs/findings.md explains the rules; without it rules have names only. */
  readonly home?: string | undefined;
  /** Files that could not be read, as sentences: the run is then marked as incomplete. Asked when all files are taken. */
  readonly complaints: () => readonly string[];
}

const levels = { error: 'error', warning: 'warning', info: 'note' } as const satisfies Record<
  Severity,
  string
>;

/**
 * Findings as a log after OASIS SARIF 2.1.0: columns in UTF-16 units from 1, ends exclusive, places
 * relative to the repository, and fingerprints from code and text, which survive edits elsewhere.
 */
export function sarifLog(files: Iterable<CheckedFile>, options: SarifOptions): Log {
  const ruleIndex = new Map(options.kinds.map(({ code }, i) => [code, i]));
  // Files may come one by one, and trouble with them along the way.
  const results: Result[] = [];
  for (const file of files) for (const result of resultsOf(file, ruleIndex)) results.push(result);
  const complaints = options.complaints();
  return {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'slotwright',
            version: options.version,
            semanticVersion: options.version,
            ...(options.home === undefined ? {} : { informationUri: options.home }),
            rules: options.kinds.map((kind) => ruleOf(kind, options.home)),
          },
        },
        automationDetails: { id: 'slotwright/check/' },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { SRCROOT: { description: { text: 'The root of the repository.' } } },
        invocations: [
          {
            executionSuccessful: complaints.length === 0,
            toolExecutionNotifications: complaints.map((text) => ({
              level: 'error' as const,
              message: { text: plainMessage(text) },
            })),
          },
        ],
        results,
      },
    ],
  };
}

function ruleOf(
  { code, severity, help }: SarifOptions['kinds'][number],
  home: string | undefined,
): ReportingDescriptor {
  const words = code.replaceAll('-', ' ');
  return {
    id: code,
    shortDescription: { text: `${words.charAt(0).toUpperCase()}${words.slice(1)}.` },
    fullDescription: { text: plainMessage(help) },
    help: { text: plainMessage(help), markdown: `**${code}**: ${bracesDoubled(sentence(help))}` },
    // A page to open; without a home there is none, and the help stands in the rule.
    ...(home === undefined ? {} : { helpUri: `${home}/docs/findings.md` }),
    defaultConfiguration: { level: levels[severity] },
  };
}

/**
 * Text as a plain text message of SARIF 2.1.0: braces are doubled, so that none is a placeholder (3.11.5), and
 * where brackets would make a link, `[text](target)`, they are escaped (3.11.6). Readers that know no escapes
 * are kept from making one by U+200B between the brackets.
 */
export function plainMessage(text: string): string {
  const message = visible(text);
  return bracesDoubled(
    message.includes('](') ? message.replace(/[\\[\]]/g, '\\$&').replaceAll('](', ']\u200b(') : message,
  );
}

function bracesDoubled(text: string): string {
  return text.replace(/[{}]/g, '$&$&');
}

function resultsOf({ uri, text, findings }: CheckedFile, ruleIndex: ReadonlyMap<string, number>): Result[] {
  const starts = lineStarts(text);
  const artifactLocation = { uri, uriBaseId: 'SRCROOT' };
  const place = (range: Range) => ({ artifactLocation, region: regionOf(starts, range) });
  const seen = new Map<string, number>();
  return findings.map(({ code, severity, message, range, related, fix, accepted }): Result => {
    const end = Math.min(range.end, range.start + longestPrint);
    const content = `${code}\n${text.slice(range.start, end).replace(/\s+/g, ' ').trim()}`;
    const times = (seen.get(content) ?? 0) + 1;
    seen.set(content, times);
    const index = ruleIndex.get(code);
    return {
      ruleId: code,
      ...(index === undefined ? {} : { ruleIndex: index }),
      level: levels[severity],
      message: { text: plainMessage(message) },
      locations: [{ physicalLocation: place(range) }],
      ...(related.length === 0
        ? {}
        : {
            relatedLocations: related.map((other, id) => ({
              id,
              message: { text: plainMessage(other.message) },
              physicalLocation: place(other.range),
            })),
          }),
      // Of all results or of none (3.27.23): an empty list says that a result is not suppressed.
      suppressions: accepted
        ? [
            {
              kind: 'inSource',
              status: 'accepted',
              justification: visible(accepted.reason.trim()),
              location: { physicalLocation: place(accepted.statement) },
            },
          ]
        : [],
      partialFingerprints: { 'findingPlace/v1': `${fingerprint(content)}:${times}` },
      ...(fix && fix.edits.length <= mostEdits
        ? {
            fixes: [
              {
                description: { text: plainMessage(fix.title) },
                artifactChanges: [
                  {
                    artifactLocation,
                    replacements: fix.edits.map((edit) => ({
                      deletedRegion: regionOf(starts, edit.range),
                      insertedContent: { text: edit.text },
                    })),
                  },
                ],
              },
            ],
          }
        : {}),
    };
  });
}

function regionOf(starts: readonly number[], { start, end }: Range): Region {
  const [from, to] = [lineColumn(starts, start), lineColumn(starts, end)];
  return { startLine: from.line, startColumn: from.column, endLine: to.line, endColumn: to.column };
}

/** Fixes of more edits are left to the editor. */
const mostEdits = 20;

/** So much of a text is hashed: as much tells it from all others. */
const longestPrint = 2000;

/** The 64-bit FNV-1a hash of a text's UTF-16 units, in hexadecimal. */
export function fingerprint(text: string): string {
  let hash = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    for (const byte of [unit & 0xff, unit >> 8])
      hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
  }
  return hash.toString(16).padStart(16, '0');
}
