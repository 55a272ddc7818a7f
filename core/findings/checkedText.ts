import { connectWinding } from '../facts/connect.ts';
import {
  type ConnectionFacts,
  type ConnectionState,
  type Connector,
  connectNow,
} from '../facts/connection.ts';
import { type Facts, gatherFacts } from '../facts/facts.ts';
import type { WorkStore } from '../facts/workFirst.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { type Measurer, measureNow } from '../figures/work.ts';
import { type Finding, finding, type Range } from '../language/finding.ts';
import type { Specification } from '../language/specification/specification.ts';
import { specify } from '../language/specification/specify.ts';
import { varyFindings } from '../language/specification/varyRules.ts';
import type { Document } from '../language/text/document.ts';
import { mostFindings, parse } from '../language/text/parser.ts';
import { visible } from '../language/text/visible.ts';
import { findingsTooMany } from '../language/textFindingKinds.ts';
import { deriveWinding } from '../winding/derive.ts';
import type { Path, Winding } from '../winding/model.ts';
import { type AcceptedWarnings, acceptWarnings } from './acceptance/acceptance.ts';
import { type LimitResult, limitFindings, limitSteps } from './limits.ts';
import { checkCrashed, crashFinding, ruleSteps } from './registry.ts';
import { checkReleased } from './sheetRules.ts';
import { writeOutPaths } from './writeOutPaths.ts';

/** A winding text with all that is found in it: what an editor needs with every keystroke. */
export interface CheckedText {
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
  /** Clearances and end windings are still being computed: more findings may follow. */
  readonly measuring: boolean;
  /** Every finding, in text order. */
  readonly findings: readonly Finding[];
  /** Warnings that the text accepts with a reason. */
  readonly accepted: readonly AcceptedWarnings[];
  readonly limits: readonly LimitResult[];
  /** The edit that writes the found paths into the text, or those chosen instead; null where there is nothing to write. */
  writeOutPaths(chosen?: readonly Path[]): { readonly range: Range; readonly text: string } | null;
  /** The same text as if its bars were joined so, to show what a connection would give. */
  connectedBy(connection: ConnectionFacts): CheckedText;
}

/** In text order, and cut off with a finding that says so where there are too many. */
function capped(findings: readonly Finding[]): readonly Finding[] {
  const sorted = [...findings].sort((a, b) => a.range.start - b.range.start || a.range.end - b.range.end);
  if (sorted.length <= mostFindings + 1) return sorted;
  const next = sorted[mostFindings]!.range;
  return [...sorted.slice(0, mostFindings), finding(findingsTooMany, next, { most: mostFindings })];
}

function releasedFindings(document: Document, facts: Facts): readonly Finding[] {
  return facts.specification.sheet?.status ? checkReleased(facts, writeOutPaths(document, facts)) : [];
}

const untitled = 'Untitled winding';

/**
 * Checks a winding text; `connector` finds its paths, `measurer` its clearances. What limits on found paths measure is
 * put into the store, where there is one. Never throws for any text.
 */
export function checkText(
  text: string,
  connector: Connector = connectNow,
  measurer: Measurer = measureNow,
  store?: WorkStore,
): CheckedText {
  return finished(checkSteps(text, connector, measurer, store));
}

/** The same in steps: reading, joining, each check and each limit, so that a check that nobody waits for gives way. */
export function* checkSteps(
  text: string,
  connector: Connector,
  measurer: Measurer,
  store?: WorkStore,
): Steps<CheckedText> {
  const document = parse(text);
  yield;
  const specification = specify(document);
  const { winding, paths, findings: derived } = deriveWinding(specification);
  const connect = (): ConnectionState =>
    winding
      ? connectWinding(specification, winding, paths, connector, store)
      : { kind: 'none', why: 'not-said' };
  yield;
  return yield* judge({ document, specification, winding, derived, connect, measurer });
}

interface Read extends Pick<CheckedText, 'document' | 'specification' | 'winding'> {
  readonly derived: readonly Finding[];
  readonly connect: () => ConnectionState;
  readonly measurer: Measurer;
}

/** Everything found in a text that has been read, with its bars joined as `connect` says. */
function* judge(read: Read): Steps<CheckedText> {
  const { document, specification, winding, derived, connect, measurer } = read;
  const { text } = document;
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
  const connection = safely<ConnectionState>('paths', { kind: 'none', why: 'failed' }, connect);
  yield;
  let measuring = false;
  const noting: Measurer = (work) => {
    const measured = measurer(work);
    if (measured === null) measuring = true;
    return measured;
  };
  const facts = winding ? gatherFacts(specification, winding, connection, noting) : null;
  const checked = facts ? yield* ruleSteps(facts) : [];
  const limits = yield* limitSteps(specification, facts, (compute) => safely('limits', [], compute));
  const formal = [...document.findings, ...derived];
  const broken = winding === null || formal.some(({ severity }) => severity === 'error');
  const released = facts ? safely('release', [], () => releasedFindings(document, facts)) : [];
  yield;
  const varied = varyFindings(specification, document);
  const found = [...formal, ...varied, ...checked, ...released, ...limitFindings(limits, facts), ...crashes];
  const all =
    !broken &&
    !measuring &&
    connection.kind !== 'pending' &&
    connection.kind !== 'refused' &&
    !found.some(({ code }) => code === checkCrashed.code);
  const { findings, accepted } = acceptWarnings(text, specification.accepts, found, all);
  return {
    text,
    document,
    specification,
    title: visible(specification.title?.value ?? untitled),
    winding,
    facts,
    pending: connection.kind === 'pending',
    measuring,
    broken,
    findings: capped(findings),
    accepted,
    limits,
    writeOutPaths: (chosen) => writeOutPaths(document, facts, chosen),
    connectedBy: (joined) =>
      finished(judge({ ...read, connect: () => ({ kind: 'connected', facts: joined }) })),
  };
}
