import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../cli/program.ts';
import { readXml, valuesOf } from '../picture/checkPicture.ts';
import { generatedFerry } from '../review/texts.ts';

let folder: string;

/** A repository's folder as far as finding its root goes, and a file outside any. */
beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'slotwright-check-')));
  mkdirSync(join(folder, 'house/.git'), { recursive: true });
  mkdirSync(join(folder, 'house/drives 100%'));
  writeFileSync(join(folder, 'house/drives 100%/pod.winding'), generatedFerry.replace('0.93', '0.99'));
  writeFileSync(join(folder, 'alone.winding'), 'machine {');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const uris = (output: string): readonly string[] =>
  JSON.parse(output).runs[0].results.map(
    (result: { locations: [{ physicalLocation: { artifactLocation: { uri: string } } }] }) =>
      result.locations[0].physicalLocation.artifactLocation.uri,
  );

describe('check --format sarif and junit', () => {
  it('name files from the root of their repository', () => {
    const sarif = run(['check', join(folder, 'house'), '--format', 'sarif'], '0.0.0');
    expect(sarif.exitCode).toBe(1);
    expect(new Set(uris(sarif.output))).toEqual(new Set(['drives%20100%25/pod.winding']));
    const junit = run(['check', join(folder, 'house'), '--format', 'junit'], '0.0.0');
    expect(junit.exitCode).toBe(1);
    expect(valuesOf(readXml(junit.output), 'classname')).toContain('drives 100%/pod.winding');
  });

  it('say so where a file cannot be read, and exit with 2', () => {
    const names = [join(folder, 'house/nowhere.winding'), join(folder, 'alone.winding')];
    const sarif = run(['check', ...names, '--format', 'sarif'], '0.0.0');
    expect(sarif.exitCode).toBe(2);
    expect(JSON.parse(sarif.output).runs[0].invocations[0]).toMatchObject({
      executionSuccessful: false,
      toolExecutionNotifications: [{ level: 'error' }],
    });
    expect(uris(sarif.output).length).toBeGreaterThan(0);
    const junit = run(['check', ...names, '--format', 'junit'], '0.0.0');
    expect(readXml(junit.output).attributes).toMatchObject({ errors: '1' });
    expect(junit.complaints).toMatch(/no such file/);
  });
});
