// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { connectNow, type PathRequest } from '../../../core/facts/connection.ts';
import { withoutSizes } from '../../../core/winding/joints/tips.ts';
import { createBackgroundConnector } from '../../../extension/engine/backgroundConnector.ts';
import { study } from '../../support/study.ts';

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
    tipSizes: { connection: withoutSizes, far: withoutSizes },
    contacts: null,
    judge: null,
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
    const { connect } = createBackgroundConnector(around, () => {
      found++;
    });
    const winding = windingOf(72, 8, 4);
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
    const { connect } = createBackgroundConnector(around, () => {
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
    const { connect } = createBackgroundConnector(around, () => {});
    const wanted = request(1, []);
    connect(windingOf(12, 4, 2), wanted);
    around.run();
    const first = connect(windingOf(12, 4, 2), wanted);
    expect(first.kind).toBe('connected');
    expect(connect(windingOf(12, 4, 2), wanted)).toBe(first);
  });

  it('keeps a connection that other sizes make the second best, offers the best one, and takes it when asked', () => {
    const around = surroundings();
    let found = 0;
    const { connect, take } = createBackgroundConnector(around, () => {
      found++;
    });
    const winding = windingOf(12, 4, 4);
    const asked = (leastTipGap: number | null, wishes: PathRequest['wishes'] = []) => {
      const wanted = { ...request(4, wishes), leastTipGap };
      connect(winding, wanted);
      around.run();
      return { state: connect(winding, wanted), now: connectNow(winding, wanted) };
    };
    const narrow = asked(1);
    expect(pathsOf(narrow.state)).toEqual(pathsOf(narrow.now));
    const wide = asked(1.5);
    expect(pathsOf(wide.now)).not.toEqual(pathsOf(narrow.now));
    expect(pathsOf(wide.state)).toEqual(pathsOf(narrow.now));
    expect(wide.state).toMatchObject({ offered: { paths: pathsOf(wide.now) } });
    // Back again there is nothing to offer.
    expect(asked(1).state).toEqual(narrow.state);

    asked(1.5);
    const before = found;
    take();
    expect(found).toBe(before + 1);
    expect(pathsOf(asked(1.5).state)).toEqual(pathsOf(wide.now));
    expect(asked(1.5).state).not.toHaveProperty('offered');
    // What is asked for in another way is shown at once.
    expect(asked(1, ['copper']).state).not.toHaveProperty('offered');
  });
});
