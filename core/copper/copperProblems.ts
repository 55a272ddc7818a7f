import { gapDiameter } from '../analysis/machineInputs.ts';
import { outsideFromSlots } from '../analysis/outsideDiameter.ts';
import { derive, type Figure } from '../figures/figure.ts';
import type { Range } from '../language/finding.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { barCorner, barSize, layerStatement } from '../sizes/barInputs.ts';
import { rowFill, rowFit } from '../sizes/fit.ts';
import { cornerFits } from '../sizes/section.ts';
import { slotLength, slotRows } from '../sizes/slotRows.ts';
import { endRoomOf } from '../space/ends/endRoom.ts';
import type { Winding } from '../winding/model.ts';

/** What is wrong with the copper, as data; lengths in m, layers from 0, at the statement to blame. */
export type BuildProblem = { readonly range: Range } & (
  | {
      readonly kind: 'bars-do-not-fit';
      readonly direction: 'width' | 'height';
      readonly layers: readonly number[];
      readonly needed: number;
      readonly available: number;
      readonly lacking: number;
    }
  | {
      readonly kind: 'corner-too-large';
      readonly layer: number;
      readonly corner: number;
      readonly most: number;
    }
  | {
      readonly kind: 'fill-too-high';
      readonly layers: readonly number[];
      readonly fill: number;
      readonly most: number;
    }
  | {
      /** Coated width plus clearance reaches the slot pitch. */
      readonly kind: 'bends-cannot-pass';
      readonly layer: number;
      readonly needed: number;
      readonly pitch: number;
      /** The clearance has to stay below this; null where even none would fit. */
      readonly clearanceThatFits: number | null;
    }
  | { readonly kind: 'bends-nearly-touch'; readonly layer: number; readonly sine: number }
  | {
      readonly kind: 'slot-wider-than-pitch';
      readonly layers: readonly number[];
      readonly width: number;
      readonly pitch: number;
    }
  | {
      /** Two gaps: bore, slots and outside do not add up. */
      readonly kind: 'diameters-disagree';
      readonly bore: number;
      readonly outside: number;
      readonly outsideFromSlots: number;
    }
);

/** Above this copper share of the slot, bars are rarely inserted without harm (common practice). */
const mostSlotFill = 0.8;
/** Sine of the bend angle above which neighboring bends nearly touch (own rule). */
const tightBend = 0.9;
const rounding = 1e-9;

interface Known {
  readonly areas: Figure<readonly number[]>;
  readonly radii: Figure<readonly number[]>;
}

/** Everything that cannot be built as written, in the order of the text's blocks. */
export function buildProblems(
  specification: Specification,
  winding: Winding,
  figures: Known,
): readonly BuildProblem[] {
  return [
    ...fitProblems(specification, winding),
    ...cornerProblems(specification, winding),
    ...fillProblems(specification, winding, figures.areas),
    ...pitchProblems(specification, winding, figures.radii),
    ...bendProblems(specification, winding, figures.radii),
    ...diameterProblems(specification),
  ];
}

function fitProblems(specification: Specification, winding: Winding): BuildProblem[] {
  const rows = slotRows(specification, winding);
  return (rows.known ? rows.value : []).flatMap((row) => {
    const fit = rowFit(specification, winding, row);
    if (!fit.known) return [];
    return (['width', 'height'] as const).flatMap((direction) => {
      const { needed, available } = fit.value[direction];
      if (needed <= available + rounding) return [];
      const range = layerStatement(specification.bar, direction, row.layers[0]!)!.statement;
      return [
        {
          kind: 'bars-do-not-fit' as const,
          range,
          direction,
          layers: row.layers,
          needed,
          available,
          lacking: needed - available,
        },
      ];
    });
  });
}

function cornerProblems(specification: Specification, winding: Winding): BuildProblem[] {
  const corner = barCorner(specification);
  const range = specification.bar?.corner?.statement;
  if (!corner.known || !range) return [];
  for (let layer = 0; layer < winding.layers; layer++) {
    const size = barSize(specification, layer);
    if (!size.known) continue;
    const { width, height } = size.value;
    if (cornerFits(width, height, corner.value)) continue;
    return [
      { kind: 'corner-too-large', range, layer, corner: corner.value, most: Math.min(width, height) / 2 },
    ];
  }
  return [];
}

function fillProblems(
  specification: Specification,
  winding: Winding,
  areas: Figure<readonly number[]>,
): BuildProblem[] {
  const rows = slotRows(specification, winding);
  if (!rows.known) return [];
  return rows.value.flatMap((row): BuildProblem[] => {
    const fill = rowFill(winding, row, areas);
    if (!fill.known || fill.value <= mostSlotFill || !row.slot) return [];
    const range = row.slot.width?.statement ?? row.slot.range;
    return [{ kind: 'fill-too-high', range, layers: row.layers, fill: fill.value, most: mostSlotFill }];
  });
}

/** The narrowest place of a slot row is its inner end: there must be some tooth left. */
function pitchProblems(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): BuildProblem[] {
  const rows = slotRows(specification, winding);
  if (!rows.known) return [];
  return rows.value.flatMap((row): BuildProblem[] => {
    const room = derive({ radii, width: slotLength(row, 'width') }, (given) => ({
      width: given.width,
      pitch: (2 * Math.PI * given.radii[row.layers[0]!]!) / winding.slots,
    }));
    if (!room.known || room.value.width < room.value.pitch) return [];
    return [
      {
        kind: 'slot-wider-than-pitch',
        range: row.slot!.width!.statement,
        layers: row.layers,
        ...room.value,
      },
    ];
  });
}

function bendProblems(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): BuildProblem[] {
  const range = specification.bar?.endClearance?.statement;
  if (!range) return [];
  const problems: BuildProblem[] = [];
  for (let layer = 0; layer < winding.layers; layer++) {
    const room = endRoomOf(specification, winding, radii, layer);
    if (!room.known) continue;
    const { coatedWidth, clearance, slotPitch: pitch } = room.value;
    const needed = coatedWidth + clearance;
    if (needed >= pitch) {
      const clearanceThatFits = pitch > coatedWidth ? pitch - coatedWidth : null;
      problems.push({ kind: 'bends-cannot-pass', range, layer, needed, pitch, clearanceThatFits });
    } else if (needed > tightBend * pitch) {
      problems.push({ kind: 'bends-nearly-touch', range, layer, sine: needed / pitch });
    }
  }
  return problems;
}

function diameterProblems(specification: Specification): BuildProblem[] {
  const outside = specification.machine?.outside;
  if (valueOrDefault(machineStatements, specification.machine, 'gap') !== 'both' || !outside) return [];
  const fromSlots = outsideFromSlots(specification);
  const bore = gapDiameter(specification, 'inner');
  if (!fromSlots.known || !bore.known) return [];
  const outsideFrom = fromSlots.value;
  if (Math.abs(outsideFrom - outside.value) <= 1e-6 + 1e-4 * outside.value) return [];
  return [
    {
      kind: 'diameters-disagree',
      range: outside.statement,
      bore: bore.value,
      outside: outside.value,
      outsideFromSlots: outsideFrom,
    },
  ];
}
