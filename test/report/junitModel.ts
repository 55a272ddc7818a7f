import type { ReadElement } from '../picture/checkPicture.ts';

/**
 * What elements of a JUnit report may hold and must say, after the schema that Jenkins's xUnit plugin
 * checks by (junit-10.xsd), restated.
 */
const model: Readonly<
  Record<string, { children: readonly string[]; needs: readonly string[]; may: readonly string[] }>
> = {
  testsuites: { children: ['testsuite'], needs: [], may: ['name', 'time', 'tests', 'failures', 'errors'] },
  testsuite: {
    children: ['testsuite', 'properties', 'testcase', 'system-out', 'system-err'],
    needs: ['name', 'tests', 'failures', 'errors'],
    may: ['group', 'time', 'skipped', 'timestamp', 'hostname', 'id', 'package', 'file', 'log', 'url'],
  },
  testcase: {
    children: ['skipped', 'error', 'failure', 'system-out', 'system-err'],
    needs: ['name'],
    may: ['time', 'classname', 'group'],
  },
  failure: { children: [], needs: [], may: ['type', 'message'] },
  error: { children: [], needs: [], may: ['type', 'message'] },
  'system-out': { children: [], needs: [], may: [] },
};

/** What of an element and what it holds is against the model. */
export function junitProblems(element: ReadElement): readonly string[] {
  const rule = model[element.name];
  if (!rule) return [`no element ${element.name}`];
  const names = Object.keys(element.attributes);
  return [
    ...rule.needs.filter((name) => !names.includes(name)).map((name) => `${element.name} lacks ${name}`),
    ...names
      .filter((name) => !rule.needs.includes(name) && !rule.may.includes(name))
      .map((name) => `${element.name} must not have ${name}`),
    ...element.children
      .filter(({ name }) => !rule.children.includes(name))
      .map(({ name }) => `${element.name} must not hold ${name}`),
    ...element.children.flatMap(junitProblems),
  ];
}
