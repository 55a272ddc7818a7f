import { deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import { issueWords } from '../language/specification/issueWords.ts';
import { type BentBar, barKinds, bentBars } from '../space/cad/bentBars.ts';
import { type CadWish, cadProducts } from '../space/cad/cadModel.ts';
import type { CadModel } from '../space/cad/writeStep.ts';
import type { Space } from '../space/space.ts';
import { barName } from '../winding/model.ts';
import type { Facts } from './facts.ts';
import { pathsNeed } from './unjoined.ts';

/** What the shop makes: the kinds of bars, and the space they stand in; or what these need. */
export function shopBars(facts: Facts): {
  readonly space: Figure<Space>;
  readonly bars: Figure<readonly BentBar[]>;
} {
  const { connection } = facts;
  const { space } = facts.space();
  return {
    space,
    bars:
      connection.kind === 'connected'
        ? bentBars(space, connection.facts.barShapes())
        : missing(pathsNeed(connection)),
  };
}

/**
 * What the shop calls the bar in each place, by the name of the place: its kind, also where a bend radius is assumed and
 * there is no bend list; its shape where bars do not stand in space.
 */
export function shopNames(facts: Facts): ReadonlyMap<string, string> {
  const { connection } = facts;
  if (connection.kind !== 'connected') return new Map();
  const shapes = connection.facts.barShapes();
  const { space } = facts.space();
  if (space.known)
    return new Map(
      barKinds(space.value, shapes).flatMap(({ name, places }) =>
        places.flat().map((bar) => [barName(bar), name] as const),
      ),
    );
  return new Map(
    shapes.flatMap(({ number, bars: own }) => own.map((bar) => [barName(bar), String(number)] as const)),
  );
}

/** A winding for CAD programs, by its title. A shape that it does not have yields a model without products. */
export function shopModel(facts: Facts, title: string, wish: CadWish): Figure<CadModel> {
  const words = wish.state === 'before' ? 'Bars of a winding, before they are put in' : 'Bars of a winding';
  const { specification } = facts;
  const issue = issueWords(specification);
  return deriveFigure(shopBars(facts), ({ space, bars }) =>
    known({
      name: title,
      description: issue === null ? words : `${words}; ${issue}`,
      revision: specification.sheet?.revision?.value ?? null,
      date: specification.sheet?.date?.value ?? null,
      products: cadProducts(space, bars, wish),
    }),
  );
}
