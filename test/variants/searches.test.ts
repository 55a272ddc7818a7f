// Takes its time: searches for connections again and again.

import { expect, it } from 'vitest';
import { type PathRequest, routeOptions } from '../../core/facts/connection.ts';
import { finished } from '../../core/figures/steps.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import type { MeasuredTips } from '../../core/routing/measure.ts';
import { type RouteResult, searchSteps } from '../../core/routing/route.ts';
import { connectionSearch } from '../../core/variants/searches.ts';
import type { Winding } from '../../core/winding/model.ts';

/** A winding with bar ends of these sizes, and what it asks the router for. */
function asked(height: number, clearance: number, form: string, wish = '', limit = '') {
  const found: { readonly winding: Winding; readonly request: PathRequest }[] = [];
  const text = `winding "Lock gate"
machine { slots 24  poles 4  phases 3  bore 81 mm  stack 96 mm }
slot { width 4.6 mm  depth 16 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 3.6 mm  height ${height} mm  coating 0.09 mm  form ${form}
  end-straight 6 mm  end-clearance ${clearance} mm  joint-straight 8 mm
}
layout { layers 4  span 5 }
connect { star  route paths 2 ${wish} }
require { ${limit} }`;
  checkText(text, (winding, request) => {
    found.push({ winding, request });
    return { kind: 'pending' };
  });
  const { winding, request } = found[0]!;
  return { winding, options: routeOptions(request) };
}

it('a search for other sizes comes to what it would come to alone, and is made anew only where tips differ', () => {
  const search = connectionSearch();
  const met = new Set<RouteResult>();
  let searched = 0;
  for (const form of ['hairpin', 'straight'])
    for (const clearance of [0.3, 1.2, 3.2])
      for (const height of [2.4, 2.5, 3.2]) {
        const { winding, options } = asked(height, clearance, form);
        const result = finished(search(winding, options));
        expect(result).toEqual(finished(searchSteps(winding, options)));
        met.add(result);
        searched++;
      }
  expect(met.size).toBeGreaterThan(2);
  expect(met.size).toBeLessThan(searched / 2);
});

it('a search that measures many connections, for limits that the best one misses, is not made anew', () => {
  const search = connectionSearch();
  const sized = (height: number) => asked(height, 1.2, 'hairpin', 'fewest legs-apart', 'special-joints <= 2');
  const { winding, options } = sized(2.4);
  const first = finished(search(winding, options));
  const other = sized(2.6);
  expect(finished(search(other.winding, other.options))).toBe(first);
  const tips: MeasuredTips[] = [];
  expect(first).toEqual(finished(searchSteps(other.winding, other.options, tips)));
  expect(tips.length).toBeGreaterThan(150);
});
