import { expect, it } from 'vitest';
import type { Steps } from '../../../core/figures/steps.ts';
import { routeSteps } from '../../../core/routing/route.ts';
import { machine } from '../../winding/windings.ts';
import { remembered } from './remembered.ts';
import { routeSteps as rememberedSteps } from './route.ts';

/** Yields and result of some steps. */
function walked<T>(steps: Steps<T>): readonly [number, T] {
  for (let yields = 0; ; yields++) {
    const step = steps.next();
    if (step.done) return [yields, step.value];
  }
}

it('an equal question gets the same steps and answer without work, another one its own', () => {
  const kept = new Map<string, unknown>();
  let made = 0;
  const ask = (key: string) =>
    walked(
      remembered(kept, key, function* () {
        yield;
        yield;
        return ++made;
      }),
    );
  expect([ask('a'), ask('a'), ask('b'), ask('a')]).toEqual([
    [2, 1],
    [2, 1],
    [2, 2],
    [2, 1],
  ]);
});

it('connections are those of the router, each winding and each wish its own', () => {
  const windings = [
    machine({ slots: 24, poles: 4, layers: 2 }),
    machine({ slots: 24, poles: 4, layers: 2, span: 5 }),
  ];
  const wishes = [{ paths: 1 }, { paths: 2 }];
  for (let round = 0; round < 2; round++)
    for (const winding of windings)
      for (const options of wishes)
        expect(walked(rememberedSteps(winding, options))).toEqual(walked(routeSteps(winding, options)));
});
