// Takes its time: studies every example.

import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { replaceUnseen } from '../../core/language/text/visible.ts';
import { junitXml } from '../../core/report/junit.ts';
import { type ReadElement, readXml } from '../picture/checkPicture.ts';
import { examples } from '../support/files.ts';
import { buildCommands } from '../support/hostile.ts';
import { study } from '../support/study.ts';
import { junitProblems } from './junitModel.ts';

const report = (files: readonly { readonly name: string; readonly text: string }[], unread = [] as never[]) =>
  junitXml(
    files.map(({ name, text }) => {
      const { findings, limits } = study(text);
      return { file: name, text, findings, limits };
    }),
    unread,
  );

const named = (element: ReadElement, name: string) => element.children.filter((child) => child.name === name);

describe('the JUnit report', () => {
  it('keeps to the schema and counts right', () => {
    const root = readXml(report(examples));
    expect(root.name).toBe('testsuites');
    expect(junitProblems(root)).toEqual([]);
    expect(named(root, 'testsuite').map(({ attributes }) => attributes.name)).toEqual(
      examples.map(({ name }) => name),
    );
    let failures = 0;
    for (const suite of named(root, 'testsuite')) {
      const cases = named(suite, 'testcase');
      const failed = cases.filter((test) => named(test, 'failure').length > 0);
      failures += failed.length;
      expect(suite.attributes).toMatchObject({
        tests: String(cases.length),
        failures: String(failed.length),
      });
    }
    expect(root.attributes.failures).toBe(String(failures));
  });

  it('makes a test of each limit', () => {
    const { name, text } = examples.find((example) => example.name === 'harbor-ferry-pod-drive.winding')!;
    const strict = text.replace('>= 0.96', '>= 0.99');
    expect(strict).not.toBe(text);
    const [suite] = named(readXml(report([{ name, text: strict }])), 'testsuite');
    const cases = named(suite!, 'testcase');
    const { limits } = study(strict);
    expect(cases).toHaveLength(1 + limits.length);
    const [failed, ...others] = cases.filter((test) => named(test, 'failure').length > 0);
    expect(others).toEqual([]);
    expect(failed!.attributes.name).toBe('winding-factor harmonic 1 >= 0.99');
    expect(named(failed!, 'failure')[0]!.attributes.message).toContain('0.9659');
  });

  it('reports a file that cannot be read as an error', () => {
    const root = readXml(junitXml([], [{ file: 'a<b>.winding', problem: 'a<b>.winding: access denied.' }]));
    expect(junitProblems(root)).toEqual([]);
    expect(root.attributes).toMatchObject({ tests: '1', failures: '0', errors: '1' });
  });

  it('is well-formed XML 1.0 whatever the text holds', () => {
    const letters = Array.from({ length: 0x3000 }, (_, i) => String.fromCharCode(i)).join('');
    const hostile = `${letters}\n::error::x\r  ::y\u{e0041} ##[group] ##vso[x]`;
    const text = `winding "${hostile.replace(/["\\\r\n]/g, '')}\ud800\ufffe" machine { slots \ud800\ufffe\u0000 }`;
    const xml = junitXml([
      {
        file: `${hostile}]]>.winding`,
        text,
        limits: [],
        findings: [
          {
            code: 'x',
            severity: 'error',
            message: hostile,
            range: { start: 0, end: 1 },
            data: null,
            related: [],
          },
          {
            code: 'x',
            severity: 'warning',
            message: `]]>${hostile}`,
            range: { start: 0, end: 1 },
            data: null,
            related: [],
          },
        ],
      },
    ]);
    const problems: string[] = [];
    const parser = new SaxesParser();
    parser.on('error', (error) => problems.push(error.message));
    parser.write(xml).close();
    expect(problems).toEqual([]);
    // The letters are all there, and none of them disturbs a terminal or a log.
    expect(buildCommands(xml)).toEqual([]);
    expect(xml.replaceAll('\n', '')).toBe(replaceUnseen(xml.replaceAll('\n', ''), () => '!'));
    const [suite] = named(readXml(xml), 'testsuite');
    expect(suite!.attributes.name).toBe(`${hostile.replace(/[^\t\n\r -\u{10ffff}]/gu, '\ufffd')}]]>.winding`);
    expect(junitProblems(readXml(report([{ name: 'x', text }])))).toEqual([]);
  });
});
