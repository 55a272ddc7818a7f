import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { buildSpace } from '../../core/space/buildSpace.ts';
import type { Space, SpaceInput, SpaceResult } from '../../core/space/space.ts';
import { deriveWinding } from '../../core/winding/derive.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import type { Bar, Path, Winding } from '../../core/winding/model.ts';
import { keeping } from '../support/keeping.ts';
import { route } from '../support/remembered/route.ts';

/** What bars in space are made from, with the paths that their connections follow from. */
export interface JoinedInput extends SpaceInput {
  readonly paths: readonly Path[];
}

/** What the bars of a connected winding text are made from; throws where it is not connected. */
export function spaceInput(text: string): JoinedInput {
  const specification = specify(parse(text));
  const { winding, paths: written, findings } = deriveWinding(specification);
  if (!winding) throw new Error(`no winding: ${findings.map(({ message }) => message).join('; ')}`);
  const paths = written?.map(({ path }) => path) ?? routed(winding);
  return { specification, winding, paths, connections: connectionsOf(winding, paths) };
}

function routed(winding: Winding): readonly Path[] {
  const result = route(winding, { paths: winding.parallelPaths });
  if (!result.ok) throw new Error(`not connected: ${JSON.stringify(result.reason)}`);
  return result.paths;
}

const keep = keeping<SpaceResult>(40);

/** The bars of a text in space with what is wrong with them, made once. */
export function spaceResult(text: string): SpaceResult {
  return keep(text, () => buildSpace(spaceInput(text)));
}

/** The bars of a text in space; throws with what is missing. */
export function spaceOf(text: string): Space {
  return known(spaceResult(text));
}

export function known({ space, problems }: SpaceResult): Space {
  if (space.known) return space.value;
  throw new Error(`missing: ${space.needs.join(', ')}; ${JSON.stringify(problems)}`);
}

/** The same winding seen in a mirror: slots counted the other way round, bars leaning the other way. */
export function mirrored(input: JoinedInput): JoinedInput {
  const { slots, layers, table } = input.winding;
  const cells = Int8Array.from(table.cells);
  for (let layer = 0; layer < layers; layer++) cells.subarray(layer * slots, (layer + 1) * slots).reverse();
  const winding: Winding = {
    ...input.winding,
    table: { ...table, cells },
    lean: input.winding.lean.map((lean) => (lean === 0 ? 0 : -lean)),
    origin: { kind: 'paths' },
  };
  const bar = ({ slot, layer }: Bar): Bar => ({ slot: slots + 1 - slot, layer });
  const paths = input.paths.map((path) => ({
    ...path,
    bars: path.bars.map(bar),
    spans: path.spans.map((span) => -span),
  }));
  return { ...input, winding, paths, connections: connectionsOf(winding, paths) };
}

/** A machine of any size whose bars have room; sizes in mm. */
export interface Request {
  readonly slots: number;
  readonly poles: number;
  readonly layers: number;
  readonly span?: number;
  readonly paths: number;
  readonly form: 'hairpin' | 'straight';
  readonly gap: 'inner' | 'outer' | 'both';
  /** Slots over the stack, of the inner and the outer half of the layers. */
  readonly lean: readonly [number, number];
  /** Share of the slot pitch that bar width takes, and bar height over width. */
  readonly filled: number;
  readonly slender: number;
  /** More statements of the bar block, the slot block and the connect block. */
  readonly bar?: string;
  readonly slot?: string;
  readonly connect?: string;
}

/** With all rings; ends of layers a and d stand at one angle, in all three phases alike. */
export const ringsOfMixedRadius: Request = {
  slots: 48,
  poles: 8,
  layers: 4,
  span: 5,
  paths: 2,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  filled: 0.38,
  slender: 0.5,
  bar: 'bend-radius 3 mm lead-length 30 mm ring-width 6 mm ring-height 4 mm',
  connect: 'rings all',
};

const millimeters = (value: number) => `${value.toFixed(4)} mm`;

/** The winding text of a request. */
export function machineText(request: Request): string {
  const { slots, poles, layers, form, gap, lean } = request;
  const pitch = 10;
  const bore = (slots * pitch) / Math.PI;
  const width = request.filled * pitch;
  const height = request.slender * width;
  const letters = Array.from({ length: layers }, (_, layer) => String.fromCharCode(97 + layer));
  const half = Math.ceil(layers / 2);
  const rows = lean[0] === lean[1] ? [letters] : [letters.slice(0, half), letters.slice(half)];
  const depths = rows.map((row) => row.length * (height + 0.2) + 2);
  const outside = bore + 2 * depths.reduce((sum, depth) => sum + depth, 2);
  const gaps = { inner: 'gap inner', outer: 'gap outer', both: 'gap both' }[gap];
  const diameters =
    gap === 'outer'
      ? `outside ${millimeters(outside)}`
      : `bore ${millimeters(bore)} ${gap === 'both' ? `outside ${millimeters(outside)}` : ''}`;
  const blocks = rows.map(
    (row, index) =>
      `slot ${rows.length > 1 ? row.join(' ') : ''} { width ${millimeters(width + 0.3)} depth ${millimeters(depths[index]!)} opening 1 mm opening-height 1 mm ${request.slot ?? ''} }`,
  );
  const skews = rows.map(
    (row, index) => `skew ${row.join(' ')} ${lean[index]! >= 0 ? '+' : ''}${lean[index]} slot`,
  );
  return `winding "Bars in space"
machine { slots ${slots} poles ${poles} phases 3 ${gaps} ${diameters} stack 80 mm }
${blocks.join('\n')}
bar { width ${millimeters(width)} height ${millimeters(height)} corner 0.3 mm coating 0.1 mm form ${form}
  end-straight 12 mm end-clearance 0.5 mm joint-straight 12 mm ${request.bar ?? ''} }
layout { layers ${layers} span ${request.span ?? Math.floor(slots / poles)}
  ${skews.join('\n  ')}
}
connect { star route paths ${request.paths}
  ${request.connect ?? ''}
}
`;
}

/** Two-layer hairpins of 6 slots a pole pair, quickly measured; `bar` and `connect` say what else they have. */
export function smallHairpins(bar = '', connect?: string, polePairs = 1): string {
  return machineText({
    slots: 6 * polePairs,
    poles: 2 * polePairs,
    paths: 2,
    filled: 0.45,
    slender: 0.8,
    layers: 2,
    form: 'hairpin',
    gap: 'inner',
    lean: [0, 0],
    bar: `bend-radius 3 mm flat 2 mm lead-length 15 mm${bar}`,
    ...(connect === undefined ? {} : { connect }),
  });
}

/** Straight bars between two rotors, whose connecting pieces stand among joint tips that are near each other; mm. */
export const buoyHub = ({
  clearance,
  bore = 176,
}: {
  readonly clearance: number;
  readonly bore?: number;
}) => `winding "Buoy hub"

machine { gap both slots 36 poles 8 phases 3 bore ${bore} mm stack 60 mm }

slot a b { width 6.6 mm depth 13.5 mm opening 2.6 mm opening-height 0.8 mm liner 0.3 mm }
slot c d { width 6.8 mm depth 12 mm opening 2.8 mm opening-height 0.9 mm liner 0.3 mm }

bar {
  form straight width 5.6 mm height a b 6 mm height c d 5 mm corner 0.6 mm coating 0.1 mm
  end-straight 9 mm bend-radius 5.6 mm end-clearance ${clearance} mm joint-straight 9 mm
}

layout { layers 4 span 4 skew a b +1 slot skew c d -1 slot }
connect { delta }
`;

/** A fan whose three connecting pieces are as wide as a half of the bore. */
export const sluiceFan = `winding "Sluice fan"
machine { slots 12  poles 2  phases 3  bore 115 mm  stack 90 mm }
slot { width 27 mm  depth 10 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 25.5 mm  height 3.35 mm  end-straight 6 mm  end-clearance 2 mm
  joint-straight 6 mm  bend-radius 6 mm flat 4 mm
}
layout { layers 2  span 6 }
connect { star  route paths 1 }
`;
