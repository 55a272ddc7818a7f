// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { format } from '../../core/language/format/formatter.ts';
import { writtenStatements } from '../../core/winding/paths/writeOut.ts';
import { study } from '../support/study.ts';

const machines: readonly (readonly [
  slots: number,
  poles: number,
  phases: string,
  layers: number,
  span: number,
  paths: number,
])[] = [
  [48, 8, '3', 2, 6, 1],
  [48, 8, '3', 4, 6, 2],
  [48, 8, '3', 4, 5, 4],
  [12, 10, '3', 2, 1, 2],
  [36, 4, '3', 1, 9, 2],
  [60, 8, '3', 2, 7, 2],
  [72, 6, '6 apart 30 edeg', 2, 12, 2],
  [40, 4, '5', 2, 10, 2],
];

describe('paths written out', () => {
  it.each(machines)(
    'read back as they were: %i slots, %i poles, %s phases, %i layers, span %i, %i paths',
    (slots, poles, phases, layers, span, paths) => {
      const head = `winding "x"\n\nmachine { slots ${slots}  poles ${poles}  phases ${phases} }\n\nlayout { layers ${layers}  span ${span} }\n\n`;
      const routed = study(`${head}connect {\n  star\n  route paths ${paths}\n}\n`);
      expect(routed.facts?.connection.kind).toBe('connected');
      if (routed.facts?.connection.kind !== 'connected') return;
      const found = routed.facts.connection.facts.paths;
      const statements = writtenStatements(found, routed.winding!.phases, slots);
      const text = format(`${head}connect {\n  star\n${statements.map((line) => `  ${line}\n`).join('')}}\n`);
      expect(format(text)).toBe(text);
      const back = study(text);
      expect(back.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(back.facts?.connection.kind).toBe('connected');
      if (back.facts?.connection.kind !== 'connected') return;
      expect(back.facts.connection.facts.paths).toEqual(found);
      const { routing: _, findings: __, assumptions: ___, ...before } = routed.report();
      const { routing: a, findings: b, assumptions: c, ...after } = back.report();
      expect(after).toEqual(before);
      expect([a, b, c].length).toBe(3);
    },
  );
});
