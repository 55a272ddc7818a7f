import { describe, expect, it } from 'vitest';
import { connectNow, type PathRequest } from '../../core/facts/connection.ts';
import { createBackgroundConnector } from '../../extension/backgroundConnector.ts';
import { study } from '../support/study.ts';

function windingOf(slots: number, poles: number, layers: number) {
  const span = slots / poles;
  return study(
    `winding "x"\nmachine { slots ${slots} poles ${poles} phases 3 }\nlayout { layers ${layers} span ${span} }\n`,
  ).winding!;
}

function request(asked: number, wishes: PathRequest['wishes']): PathRequest {
  return {
    asked,
    byDefault: false,
    wishes,
    deviation: null,
    limits: [],
    specials: null,
    connection: 'star',
    form: 'hairpin',
    gap: 'inner',
    leastTipGap: null,
  };
}

/** Paths of a connection, or its kind where there are none. */
function pathsOf(state: ReturnType<typeof connectNow>) {
  return state.kind === 'connected' ? state.facts.paths : state.kind;
}

/** Surroundings in which time passes with every look at the clock, and later comes when asked. */
function surroundings() {
  let time = 0;
  const waiting: (() => void)[] = [];
  return {
    now: () => {
      time += 6;
      return time;
    },
    later: (work: () => void) => {
      waiting.push(work);
    },
    run: () => {
      for (let work = waiting.shift(); work; work = waiting.shift()) work();
    },
    waiting,
  };
}

describe('the background connector', () => {
  it('finds in slices what is found at once', () => {
    const around = surroundings();
    let found = 0;
    const connect = createBackgroundConnector(around, () => {
      found++;
    });
    const winding = windingOf(72, 8, 8);
    const wanted = request(4, ['joints']);
    expect(connect(winding, wanted)).toEqual({ kind: 'pending' });
    expect(connect(winding, wanted)).toEqual({ kind: 'pending' });
    expect(found).toBe(0);
    around.run();
    expect(found).toBe(1);
    expect(pathsOf(connect(winding, wanted))).toEqual(pathsOf(connectNow(winding, wanted)));
  });

  it('drops a search when another winding is asked for', () => {
    const around = surroundings();
    let found = 0;
    const connect = createBackgroundConnector(around, () => {
      found++;
    });
    connect(windingOf(72, 8, 8), request(4, ['joints']));
    const other = windingOf(48, 8, 2);
    const wanted = request(2, []);
    connect(other, wanted);
    around.run();
    expect(pathsOf(connect(other, wanted))).toEqual(pathsOf(connectNow(other, wanted)));
    expect(found).toBeLessThanOrEqual(1);
  });

  it('keeps what it found', () => {
    const around = surroundings();
    const connect = createBackgroundConnector(around, () => {});
    const wanted = request(1, []);
    connect(windingOf(12, 4, 2), wanted);
    around.run();
    const first = connect(windingOf(12, 4, 2), wanted);
    expect(first.kind).toBe('connected');
    expect(connect(windingOf(12, 4, 2), wanted)).toBe(first);
  });
});
