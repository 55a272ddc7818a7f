import { toldMessage } from '../findings/acceptance/acceptance.ts';
import { type LimitResult, limitName, limitValue } from '../findings/limits.ts';
import type { Finding } from '../language/finding.ts';
import { lineColumn, lineStarts } from '../language/text/lines.ts';
import { partCommands, replaceUnseen } from '../language/text/visible.ts';

/** One checked file for the JUnit report; `limits` are its acceptance limits. */
export interface TestedFile {
  readonly file: string;
  readonly text: string;
  readonly findings: readonly Finding[];
  readonly limits: readonly LimitResult[];
}

/** A file that could not be read, and why. */
export interface UnreadFile {
  readonly file: string;
  readonly problem: string;
}

const limitCodes = new Set(['limit-failed', 'limit-not-computable']);

/**
 * Findings as a JUnit XML report, the form that build servers read: a suite for each file, in it one test
 * for the text and its winding, and one for each acceptance limit. Errors fail; warnings are told in the
 * output of the suite. There are no times: the report depends on the files alone.
 */
export function junitXml(files: Iterable<TestedFile>, unread: readonly UnreadFile[] = []): string {
  const tested = Array.from(files, fileSuite);
  // Files may come one by one, and trouble with them along the way.
  const suites = [...tested, ...unread.map(unreadSuite)];
  const total = (part: 'tests' | 'failures' | 'errors') =>
    suites.reduce((sum, suite) => sum + suite[part], 0);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="slotwright" tests="${total('tests')}" failures="${total('failures')}" errors="${total('errors')}">`,
    ...suites.flatMap(({ lines }) => lines),
    '</testsuites>',
    '',
  ].join('\n');
}

interface Suite {
  readonly tests: number;
  readonly failures: number;
  readonly errors: number;
  readonly lines: readonly string[];
}

function fileSuite({ file, text, findings, limits }: TestedFile): Suite {
  const starts = lineStarts(text);
  const line = ({ severity, message, range, code, accepted }: Finding) => {
    const { line, column } = lineColumn(starts, range.start);
    return `${file}:${line}:${column}: ${severity}: ${toldMessage(message, accepted?.reason)} [${code}]`;
  };
  const general = findings.filter(({ code }) => !limitCodes.has(code));
  const errors = general.filter(({ severity }) => severity === 'error');
  const others = general.filter(({ severity }) => severity !== 'error');
  const cases = [
    testCase(file, 'text and winding', errors[0]?.message ?? null, errors.map(line).join('\n')),
    ...limits.map((limit) => {
      const failed = findings.find(({ code, range }) => limitCodes.has(code) && range === limit.range);
      const name = `${limitName(limit)} ${limit.relation} ${limit.source.written}`;
      if (limit.met) return testCase(file, name, null, `is ${limitValue(limit, limit.actual!)}`);
      return testCase(file, name, failed?.message ?? 'the limit does not hold', failed ? line(failed) : '');
    }),
  ];
  const failures = cases.filter(({ failed }) => failed).length;
  const output =
    others.length === 0 ? [] : [`    <system-out>${escaped(others.map(line).join('\n'))}</system-out>`];
  return suite(file, cases.length, failures, 0, [...cases.flatMap(({ lines }) => lines), ...output]);
}

function unreadSuite({ file, problem }: UnreadFile): Suite {
  return suite(file, 1, 0, 1, [
    `    <testcase classname="${escaped(file)}" name="file can be read">`,
    `      <error type="file" message="${escaped(problem)}"/>`,
    '    </testcase>',
  ]);
}

function suite(
  file: string,
  tests: number,
  failures: number,
  errors: number,
  lines: readonly string[],
): Suite {
  const counts = `tests="${tests}" failures="${failures}" errors="${errors}" skipped="0"`;
  return {
    tests,
    failures,
    errors,
    lines: [
      `  <testsuite name="${escaped(file)}" ${counts} file="${escaped(file)}">`,
      ...lines,
      '  </testsuite>',
    ],
  };
}

function testCase(
  file: string,
  name: string,
  problem: string | null,
  body: string,
): { readonly failed: boolean; readonly lines: readonly string[] } {
  const open = `    <testcase classname="${escaped(file)}" name="${escaped(name)}"`;
  if (problem === null) {
    return {
      failed: false,
      lines: [body === '' ? `${open}/>` : `${open}><system-out>${escaped(body)}</system-out></testcase>`],
    };
  }
  return {
    failed: true,
    lines: [
      `${open}>`,
      `      <failure type="finding" message="${escaped(problem)}">${escaped(body)}</failure>`,
      '    </testcase>',
    ],
  };
}

/**
 * Text for XML content and attributes. Characters that XML 1.0 forbids become U+FFFD; those that show nothing
 * are written by number, and so is what a build server would take for a command in its log.
 */
function escaped(text: string): string {
  const markup = text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
  return partCommands(
    replaceUnseen(markup, (character) => `&#${character.codePointAt(0)};`),
    '#&#35;',
  );
}
