import { machineValue } from '../../analysis/machineInputs.ts';
import { allOf, deriveFigure, type Figure, known, missing } from '../../figures/figure.ts';
import { defaultLines, valueOrDefault } from '../../language/specification/defaults.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { barStatements } from '../../language/vocabulary/blocks/copper.ts';
import { layoutStatements } from '../../language/vocabulary/blocks/winding.ts';
import { barCoating, barCorner, barEndLength, barSize, pieceClearance } from '../../sizes/barInputs.ts';
import { layerRadii } from '../../sizes/slotRows.ts';
import type { Winding } from '../../winding/model.ts';
import type { Section } from '../section.ts';

/** A layer of bars: where it lies and what its bars measure. */
export interface LayerSizes {
  /** Mean radius, m. */
  readonly radius: number;
  /** Lean over the stack, radians, positive towards higher slot numbers at the far side. */
  readonly lean: number;
  readonly section: Section;
}

/** Which ends are joined by rings, and the rings' section. */
export interface RingSizes {
  readonly which: 'star' | 'terminals' | 'all';
  /** m. */
  readonly width: number;
  /** m. */
  readonly height: number;
}

/** What the bars of a winding are made from; lengths in m, as written. Null: not written. */
export interface EndSizes {
  readonly slots: number;
  readonly stack: number;
  /** From the axis outwards. */
  readonly layers: readonly LayerSizes[];
  /** Between stack and first bend. */
  readonly endStraight: number;
  /** Beyond the last bend. */
  readonly jointStraight: number;
  /** Between coated ends of a layer. */
  readonly endClearance: number;
  /** Inner radii of bends, edgewise and flatwise. */
  readonly bendRadius: number | null;
  readonly flatRadius: number | null;
  /** Most between the copper of joined bars. */
  readonly jointGap: number | null;
  /** All joints of a side end in one plane. */
  readonly levelPlane: boolean;
  /** Of leads and star ends beyond the joint plane. */
  readonly leadLength: number | null;
  readonly pieceWidth: number | null;
  readonly pieceHeight: number | null;
  /** Of pieces and rings above what is below them. */
  readonly pieceClearance: number;
  readonly rings: RingSizes | null;
}

/** The sizes of the bars and their ends, or the statements that would give them. */
export function endSizes(specification: Specification, winding: Winding): Figure<EndSizes> {
  const { bar } = specification;
  const layers = winding.lean.map((_, layer) => barSize(specification, layer));
  return deriveFigure(
    {
      stack: machineValue(specification, 'stack'),
      radii: layerRadii(specification, winding),
      bars: allOf(layers),
      corner: barCorner(specification),
      coating: barCoating(specification),
      endClearance: barEndLength(specification, 'endClearance'),
      endStraight: barEndLength(specification, 'endStraight'),
      jointStraight: barEndLength(specification, 'jointStraight'),
      rings: ringSizes(specification),
    },
    (given) =>
      known(
        {
          slots: winding.slots,
          stack: given.stack,
          layers: winding.lean.map((lean, layer) => ({
            radius: given.radii[layer]!,
            lean,
            section: { ...given.bars[layer]!, corner: given.corner, coating: given.coating },
          })),
          endStraight: given.endStraight,
          jointStraight: given.jointStraight,
          endClearance: given.endClearance,
          bendRadius: bar?.bendRadius?.value ?? null,
          flatRadius: bar?.flatRadius?.value ?? null,
          jointGap: bar?.jointGap?.value ?? null,
          levelPlane: valueOrDefault(barStatements, bar, 'jointPlane') === 'level',
          leadLength: bar?.leadLength?.value ?? null,
          pieceWidth: bar?.pieceWidth?.value ?? null,
          pieceHeight: bar?.pieceHeight?.value ?? null,
          pieceClearance: pieceClearance(bar, given.endClearance),
          rings: given.rings,
        },
        ...defaultLines(layoutStatements.skew, specification.layout?.skew),
      ),
  );
}

/**
 * How far leaning bars go on along their lean beyond the stack, over the stack's length: what joint tips
 * depend on. 0 where the text does not say.
 */
export function straightShare({ bar, machine }: Specification): number {
  const { endStraight } = bar ?? {};
  const { stack } = machine ?? {};
  return endStraight && stack && stack.value > 0 ? endStraight.value / stack.value : 0;
}

/** The rings that the text asks for; their section has no default. */
function ringSizes({ connect, bar }: Specification): Figure<RingSizes | null> {
  const which = connect?.rings?.value;
  if (which === undefined) return known(null);
  const { ringWidth, ringHeight } = bar ?? {};
  if (ringWidth && ringHeight) return known({ which, width: ringWidth.value, height: ringHeight.value });
  return missing(...(ringWidth ? [] : ['bar ring-width']), ...(ringHeight ? [] : ['bar ring-height']));
}
