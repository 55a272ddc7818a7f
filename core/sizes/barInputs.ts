import { allOf, derive, type Figure, known, missing } from '../figures/figure.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { defaultLine, defaultOf, stated } from '../language/specification/defaults.ts';
import type { BarSpecification, Specification } from '../language/specification/specification.ts';
import type { Given, PerLayers } from '../language/specification/statements.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';

type LayerWord = 'width' | 'height' | 'strands';
type BarWord = 'corner' | 'coating' | 'endStraight' | 'endClearance' | 'jointStraight' | 'bendRadius';

/** What a layer's bars measure, meters; `height` is the whole bar, all its strands. */
export interface BarSize {
  /** Across the slot. */
  readonly width: number;
  /** Along the slot depth. */
  readonly height: number;
}

/** Bar width of a layer (from 0), m. */
export function barWidth(specification: Specification, layer: number): Figure<number> {
  return layerValue(specification, 'width', layer);
}

/** Bar height of a layer (from 0), m. */
export function barHeight(specification: Specification, layer: number): Figure<number> {
  return layerValue(specification, 'height', layer);
}

/** Radial strands of the bars of a layer (from 0), or the default. */
export function barStrands(specification: Specification, layer: number): Figure<number> {
  const word = barStatements.strands;
  const strands = layerValue(specification, 'strands', layer);
  return strands.known ? strands : known(defaultOf(word).value, defaultLine(word));
}

/** Radial strands of the bars of every layer. */
export function barStrandsOfLayers(specification: Specification, layers: number): Figure<readonly number[]> {
  return allOf(Array.from({ length: layers }, (_, layer) => barStrands(specification, layer)));
}

/** Width and height of a layer's bars. */
export function barSize(specification: Specification, layer: number): Figure<BarSize> {
  return derive(
    { width: barWidth(specification, layer), height: barHeight(specification, layer) },
    (size) => size,
  );
}

/** Radius of the bar edges, m. */
export function barCorner(specification: Specification): Figure<number> {
  return stated(barStatements, specification.bar, 'corner');
}

/** Coating on each face, m. */
export function barCoating(specification: Specification): Figure<number> {
  return stated(barStatements, specification.bar, 'coating');
}

/** A length of the bar ends, m. */
export function barEndLength(specification: Specification, key: BarWord): Figure<number> {
  return stated(barStatements, specification.bar, key);
}

/** Clearance of connecting pieces and rings, m: that between bar ends unless another is written. */
export function pieceClearance(bar: BarSpecification | undefined, endClearance: number): number {
  return bar?.pieceClearance?.value ?? endClearance;
}

/** The statement that gives a word for a layer: one that names the layer before one for all. */
export function layerStatement(
  bar: BarSpecification | undefined,
  key: LayerWord,
  layer: number,
): Given<PerLayers<number>> | undefined {
  const statements = bar?.[key] ?? [];
  return (
    statements.find((given) => given.value.layers?.includes(layer)) ??
    statements.find((given) => given.value.layers === null)
  );
}

function layerValue(specification: Specification, key: LayerWord, layer: number): Figure<number> {
  const statement = layerStatement(specification.bar, key, layer);
  if (statement) return known(statement.value.value);
  const some = (specification.bar?.[key] ?? []).length > 0;
  return missing(some ? `bar ${key} for layer ${layerLetter(layer)}` : `bar ${key}`);
}
