import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { confirmed } from '../../../cli/files/confirmed.ts';

const terminal = (isTTY: boolean) => {
  const [input, output] = [new PassThrough(), new PassThrough()].map((stream) =>
    Object.assign(stream, { isTTY }),
  );
  return { input: input!, output: output! };
};

it.each([
  ['y\n', true],
  ['Yes\n', true],
  ['n\n', false],
  ['\n', false],
  ['yesterday\n', false],
])('a question answered with %j is %s', async (answer, expected) => {
  const { input, output } = terminal(true);
  const asked = confirmed('Start?', { input, output });
  input.write(answer);
  expect(await asked).toBe(expected);
  expect(String(output.read())).toContain('Start? [y/N] ');
});

it('an end of the input is no', async () => {
  const { input, output } = terminal(true);
  const asked = confirmed('Start?', { input, output });
  input.end();
  expect(await asked).toBe(false);
});

it('nobody is asked where there is no terminal', async () => {
  expect(await confirmed('Start?', terminal(false))).toBeNull();
});
