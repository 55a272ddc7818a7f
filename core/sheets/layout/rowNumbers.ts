import type { Primitive } from '../../picture/picture.ts';
import { arrangeCutNumbers, drawCutNumber, withLeaders } from '../../views/layout/cutNumbers.ts';
import type { BrokenOverhang } from './rowCuts.ts';
import type { RowPlace } from './rowPlace.ts';
import { cutRoom, cutsOf, sortedCuts } from './scale.ts';

/** Numbers and names under which lines go on in the next row, or at the other cut edge. */
export function drawCuts(place: RowPlace, side: BrokenOverhang): readonly Primitive[] {
  const { scale } = place.band.plan;
  const far = side.overhang.side === 'far';
  const base = far ? place.stack.bottom : place.stack.top;
  const way = far ? 1 : -1;
  const [outer, inner] = cutRoom(side, scale);
  const range: [number, number] = far ? [base - inner, base - outer] : [base + outer, base + inner];
  return (['left', 'right'] as const).flatMap((edge) => {
    const cuts = sortedCuts(cutsOf(side, place.row, edge))
      .map(({ number, cut }) => ({ number, cut, y: base + way * cut.height }))
      .sort((one, other) => one.y - other.y || one.cut.x - other.cut.x);
    const arranged = arrangeCutNumbers(cuts, ...range);
    const outwards = edge === 'left' ? -1 : 1;
    const start = (edge === 'left' ? place.from : place.to) + outwards * place.numbersStart;
    const byNumber = new Map(cuts.map((each) => [each.number, each]));
    const drawn = arranged.numbered.map((numbered) => {
      const { number } = numbered.cut;
      const { cut, y } = byNumber.get(number)!;
      const id = `cut-${edge}-${side.overhang.side}-${number}`;
      return drawCutNumber(id, numbered, arranged, [cut.x + place.stack.left, y], start, outwards);
    });
    return withLeaders(`cut-leaders-${edge}-${side.overhang.side}`, drawn);
  });
}
