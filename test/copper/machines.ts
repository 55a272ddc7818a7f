import { differentialLeakageOverStack } from '../../core/analysis/differentialLeakage.ts';
import { type EmfResult, emf } from '../../core/analysis/emf/emf.ts';
import { gapPermeance } from '../../core/analysis/emf/gaps.ts';
import { factorSpectrum, meanSquareFactor, windingFactor } from '../../core/analysis/factors/factors.ts';
import { machineValue, phaseCurrent } from '../../core/analysis/machineInputs.ts';
import { occupationProblems } from '../../core/balance/occupation.ts';
import { pathLoading } from '../../core/balance/pathLoading.ts';
import { phaseBalances } from '../../core/balance/voltages.ts';
import { equalCurrents } from '../../core/copper/carriedCurrents.ts';
import { type CopperResult, copper } from '../../core/copper/copper.ts';
import type { CopperProblem } from '../../core/copper/copperFigures.ts';
import { type CopperParts, copperParts, problemsOfCopper } from '../../core/copper/copperFigures.ts';
import type { CopperInput } from '../../core/copper/geometryFigures.ts';
import { known, missing, orNull } from '../../core/figures/figure.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { buildSpace } from '../../core/space/buildSpace.ts';
import { deriveWinding } from '../../core/winding/derive.ts';
import { type Connections, connectionsOf } from '../../core/winding/joints/joints.ts';
import type { Path } from '../../core/winding/model.ts';
import { keeping } from '../support/keeping.ts';
import { route } from '../support/remembered/route.ts';
import { type Told, told } from '../support/told.ts';

/** Everything of one text that the copper is computed from, and the results. */
export interface Examined {
  readonly input: CopperInput;
  readonly copper: Told<CopperResult>;
  readonly problems: readonly CopperProblem[];
  readonly emf: Told<EmfResult>;
}

const keep = keeping<Examined>(60);

/** Copper and EMF of a winding text, connected where it says how, made once; throws where it yields no winding. */
export function examine(text: string): Examined {
  return keep(text, () => examineAnew(text));
}

function examineAnew(text: string): Examined {
  const input = copperInput(text);
  const { winding, specification } = input;
  const parts = partsOf(input);
  const result = copper(input, parts);
  const square = meanSquareFactor(winding, factorSpectrum(winding), winding.polePairs);
  return {
    input,
    copper: told('copper', result),
    problems: problemsOfCopper(input, parts.basis, parts.losses),
    emf: told(
      'emf',
      emf({
        winding,
        specification,
        windingFactor: input.windingFactor,
        meanSquareFactor: square,
        differentialLeakage: differentialLeakageOverStack(winding, square),
        copperLoss: result.fundamentalLoss,
        harmonicFactor: (harmonic) => windingFactor(winding, harmonic * winding.polePairs),
      }),
    ),
  };
}

/** The parts of the copper with the currents that the paths carry. */
export function partsOf(input: CopperInput): CopperParts {
  const { winding, specification, connected } = input;
  const paths = orNull(connected)?.paths;
  return copperParts(input, (impedances) =>
    paths
      ? pathLoading({
          winding,
          paths,
          balances: () => phaseBalances(winding, paths),
          unequalLayers: () => occupationProblems(winding, paths).length > 0,
          impedances: () => impedances,
          // What the hand values of these tests leave out.
          endInductances: () => missing('ends'),
          gapPermeance: () => gapPermeance(specification, winding),
          flux: machineValue(specification, 'flux'),
          current: phaseCurrent(specification, winding),
        }).carried
      : equalCurrents,
  );
}

/** The paths and joints of a winding that is connected. */
export function joinedIn({ connected }: CopperInput): {
  readonly paths: readonly Path[];
  readonly connections: Connections;
} {
  if (!connected.known) throw new Error(`not connected: ${connected.needs.join()}`);
  return connected.value;
}

export function copperInput(text: string): CopperInput {
  const specification = specify(parse(text));
  const { winding, paths: written, findings } = deriveWinding(specification);
  if (!winding) throw new Error(`no winding: ${findings.map((each) => each.message).join('; ')}`);
  const severe = findings.filter(({ severity }) => severity === 'error');
  let paths: readonly Path[] | null = written?.map(({ path }) => path) ?? null;
  if ((specification.connect?.paths.length ?? 0) > 0) {
    if (severe.length > 0) throw new Error(severe.map((each) => each.message).join('; '));
  } else if (specification.connect) {
    const result = route(winding, { paths: winding.parallelPaths });
    if (result.ok) paths = result.paths;
  }
  const unsaid = missing('connect route or written paths');
  const connections = paths && connectionsOf(winding, paths);
  return {
    winding,
    specification,
    connected: paths && connections ? known({ paths, connections }) : unsaid,
    space: connections ? buildSpace({ specification, winding, connections }).space : unsaid,
    windingFactor: windingFactor(winding, winding.polePairs),
  };
}

/** A ferry drive with every statement that bears on its copper, one a line, none left to a default. */
export const ferryDrive = `winding "Harbor ferry pod drive"
machine {
  slots 48
  poles 8
  phases 3
  gap inner
  bore 162 mm
  stack 96 mm
  air-gap 0.9 mm
  magnet-height 4 mm
  magnet-permeability 1.06
  carter on
  speed 3600 rpm
  flux 4.1 mWb
  current 210 A
  winding-temperature 120 degC
  end-temperature 90 degC
}
slot {
  width 4.6 mm
  depth 15.2 mm
  opening 1.2 mm
  opening-height 0.8 mm
  wedge 1 mm
  liner 0.25 mm
  side-conductance 12 W/(m K)
}
bar {
  width 3.6 mm
  height 3 mm
  strands 1
  corner 0.5 mm
  coating 0.09 mm
  metal copper
  form hairpin
  end-straight 6 mm
  end-clearance 0.6 mm
  joint-straight 8 mm
}
layout {
  layers 4
  span 6
  skew all 0 deg
}
connect {
  star
  route paths 2
}
`;

/** A crossed-bar drive between two rotors: two slot rows whose bars lean opposite ways. */
export const crossedDrive = ferryDrive
  .replace('gap inner', 'gap both')
  .replace('bore 162 mm', 'bore 162 mm\n  outside 199.2 mm')
  .replace('slot {', 'slot a b {')
  .replace('depth 15.2 mm', 'depth 8.9 mm')
  .replace(
    'bar {',
    'slot c d { width 4.6 mm  depth 8.1 mm  opening 1.2 mm  opening-height 0.8 mm  wedge 0.5 mm }\nbar {',
  )
  .replace('wedge 1 mm', 'wedge 0.5 mm')
  .replace('skew all 0 deg', 'skew a b +1 slot\n  skew c d -1 slot');

/** The text with one statement (a whole line starting with these words) replaced, or left out. */
export function withLine(text: string, start: string, line: string | null): string {
  const lines = text.split('\n');
  const index = lines.findIndex((each) => each.trim().startsWith(start));
  if (index < 0) throw new Error(`no line starts with ${start}`);
  return [...lines.slice(0, index), ...(line === null ? [] : [line]), ...lines.slice(index + 1)].join('\n');
}
