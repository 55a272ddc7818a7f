import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { connectNow } from '../../core/facts/connection.ts';
import { measureNow } from '../../core/figures/work.ts';
import { checkSteps, checkText } from '../../core/findings/checkedText.ts';
import { rules } from '../../core/findings/rules.ts';
import { startWorkspaceFindings } from '../../extension/workspaceFindings.ts';
import { examples } from '../support/files.ts';
import { soundText } from './activated.ts';
import { editorState, events, resetStub } from './vscodeStub.ts';

beforeEach(() => {
  resetStub();
  vi.useFakeTimers();
});
let started: ReturnType<typeof startWorkspaceFindings> = [];
afterEach(() => {
  for (const each of started) each.dispose();
  vi.useRealTimers();
});

/** A workspace of one file whose check takes so many steps of 3 ms; turns of the host are run one by one. */
async function workspaceOf(steps: number) {
  const clock = { now: 1_000_000 };
  const turns: (() => void)[] = [];
  const done = { steps: 0 };
  const told: number[] = [];
  editorState.workspaceFolders = ['memory:/yard'];
  editorState.folder = 'memory:/yard';
  editorState.files.set('memory:/yard/a.winding', new TextEncoder().encode(soundText));
  started = startWorkspaceFindings(
    {
      ready: async () => ({
        createCheckFile: () =>
          function* () {
            for (let step = 0; step < steps; step++) {
              done.steps++;
              clock.now += 3;
              yield;
            }
            return checkText(soundText);
          },
      }),
    } as never,
    { set: (_engine, _file, findings) => told.push(findings.length), clear: () => {} },
    { error: () => {}, info: () => {} } as never,
    { now: () => clock.now, later: (work) => void turns.push(work) },
  );
  /** One turn of the host, and all that follows from it without another one. */
  const turn = async () => {
    turns.shift()?.();
    for (let rest = 0; rest < 30; rest++) await Promise.resolve();
  };
  while (done.steps === 0) await turn();
  return { clock, done, told, turn };
}

test('a check that takes long is done in slices: a turn of the host holds no more than 8 ms of it', async () => {
  const { done, told, turn } = await workspaceOf(30);
  let before = 0;
  while (told.length === 0) {
    expect(done.steps - before).toBeLessThanOrEqual(3);
    before = done.steps;
    await turn();
  }
  expect(done.steps).toBe(30);
});

test('after a key not one further step is done until the keys have rested for a while', async () => {
  const { clock, done, told, turn } = await workspaceOf(30);
  await turn();
  events.changed.fire({ document: null } as never);
  const atKey = done.steps;
  for (let again = 0; again < 20; again++) await turn();
  expect(done.steps).toBe(atKey);
  clock.now += 390;
  await vi.advanceTimersByTimeAsync(400);
  await turn();
  expect(done.steps).toBe(atKey);
  clock.now += 20;
  await vi.advanceTimersByTimeAsync(400);
  for (let again = 0; told.length === 0 && again < 60; again++) await turn();
  expect(done.steps).toBe(30);
});

test('what is taken away stops within a step', async () => {
  const { done, told, turn } = await workspaceOf(30);
  for (const each of started) each.dispose();
  const before = done.steps;
  for (let again = 0; again < 20; again++) await turn();
  expect([done.steps, told]).toEqual([before, []]);
});

const small = /^(?:sluice-fan|tidal-pump|broken-ballast-pump)/;

test.each(examples.filter(({ name }) => small.test(name)).map(({ name, text }) => [name, text]))(
  '%s: each check and each limit is a step, and the findings are those of a check at once',
  (_, text) => {
    const steps = checkSteps(text, connectNow, measureNow);
    let count = 0;
    for (;;) {
      const step = steps.next();
      if (!step.done) {
        count++;
        continue;
      }
      const { findings, limits, facts, specification } = step.value;
      const ofRules = facts === null ? 0 : rules.length;
      expect(count).toBeGreaterThanOrEqual(3 + ofRules + specification.limits.length);
      const atOnce = checkText(text);
      expect(findings).toEqual(atOnce.findings);
      expect(limits).toEqual(atOnce.limits);
      return;
    }
  },
);
