// Takes its time: studies every example.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { finished } from '../../core/figures/steps.ts';
import { checkCrashed, findingKinds, ruleSteps } from '../../core/findings/registry.ts';
import { examples, projectFolder } from '../support/files.ts';
import { study } from '../support/study.ts';
import { windingText } from '../support/windingText.ts';

/** Codes that stand in the core's source behind `code:`. */
const codesInSource = readdirSync(`${projectFolder}core`, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .flatMap((name) => {
    const source = readFileSync(`${projectFolder}core/${name}`, 'utf8');
    return [...source.matchAll(/code: '([^']+)',\s*severity: '/g)].map((match) => match[1]!);
  });

describe('the registry of findings', () => {
  it('lists every code of the source once, and no other', () => {
    expect(codesInSource.length).toBeGreaterThan(40);
    const listed = findingKinds.map(({ code }) => code);
    expect(listed.filter((code, i) => listed.indexOf(code) !== i)).toEqual([]);
    expect([...listed].sort()).toEqual([...codesInSource].sort());
  });

  it('names codes in words and explains each in sentences', () => {
    for (const { code, help } of findingKinds) {
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(help, code).toMatch(/^\S.*[.")]$/s);
    }
  });
});

describe('severities', () => {
  it('beside that of a kind are declared, and told in the list of findings', () => {
    for (const { code, severity, graded = [] } of findingKinds) {
      expect(graded, code).not.toContain(severity);
      expect(new Set(graded).size, code).toBe(graded.length);
    }
    const kinds = new Map(findingKinds.map((kind) => [kind.code, kind]));
    // An accepted warning is told as an info, whatever its kind.
    const found = examples.flatMap(({ text }) => study(text).findings).filter(({ accepted }) => !accepted);
    expect(found.length).toBeGreaterThan(30);
    for (const { code, severity } of found) {
      const kind = kinds.get(code)!;
      expect([kind.severity, ...(kind.graded ?? [])], code).toContain(severity);
    }
  });
});

describe('a check that crashes', () => {
  it('becomes a finding and does not stop the others', () => {
    const { facts, specification } = study(windingText({}));
    const checks = [
      {
        name: 'first',
        check: () => {
          throw new Error('no such bar');
        },
      },
      {
        name: 'second',
        check: () => {
          throw 'text';
        },
      },
    ];
    const findings = finished(ruleSteps(facts!, checks));
    expect(findings.map(({ code, message }) => [code, message])).toEqual([
      ['check-crashed', checkCrashed.message({ check: 'first', problem: 'no such bar' })],
      ['check-crashed', checkCrashed.message({ check: 'second', problem: 'text' })],
    ]);
    expect(findings[0]!.range.start).toBe(specification.machine!.range.start);
  });
});
