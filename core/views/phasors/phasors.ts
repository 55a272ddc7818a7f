import { inEnglish, type Speech } from '../../figures/speech.ts';
import { fixed } from '../../language/numbers.ts';
import { drawingTitle, group, textRow } from '../../picture/make.ts';
import type { Picture } from '../../picture/picture.ts';
import type { Path, Winding } from '../../winding/model.ts';
import { frameFor, pagePicture, windingWords } from '../chart/page.ts';
import type { LayoutInput } from '../layout/input.ts';
import type { Frame, Room } from '../room.ts';
import { type PhasorChain, phasorChains } from './chains.ts';
import { drawDiagram, phaseSums } from './diagram.ts';
import { drawRows, layerOrder, sumWords } from './rows.ts';
import { drawStar, starNumbers, starSize } from './star.ts';

/** What the phasor view shows. */
export interface PhasorsInput extends Pick<LayoutInput, 'winding' | 'title' | 'barSource' | 'emphasis'> {
  /** Paths that are known; null: chains go by phases, layer by layer. */
  readonly paths: readonly Path[] | null;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/**
 * Star of slots with the phases' sectors, EMF phasors of all phases, and every path's chain bar by bar
 * (`data-bar`), of the fundamental. One bar's EMF without skew is the unit.
 */
export function phasorsPicture(input: PhasorsInput): Picture {
  const { winding, emphasis, barSource, speech = inEnglish } = input;
  const { say } = speech;
  const chains = phasorChains(winding, input.paths);
  const sums = phaseSums(winding, chains);
  const frame = frameFor(input.room);
  const { margin } = frame;
  const { star: starAt, diagram: diagramAt, width, bottom } = arrange(winding, frame);
  const star = drawStar(winding, starAt.x, starAt.y, starAt.radius);
  const rowsTop = bottom + 4;
  const rows = drawRows({
    winding,
    chains,
    sums,
    emphasis,
    barSource,
    left: margin,
    top: rowsTop + textRow + 2,
    width: width - 2 * margin,
    speech,
  });
  const byPaths = input.paths !== null && input.paths.length > 0;
  const titles = [
    drawingTitle('star-title', margin, starAt.top, say('Star of slots')),
    drawingTitle(
      'diagram-title',
      diagramAt.left,
      diagramAt.top,
      byPaths ? say('EMF of the paths, in EMFs of one bar') : say('EMF of the phases, in EMFs of one bar'),
    ),
    drawingTitle(
      'rows-title',
      margin,
      rowsTop,
      byPaths ? say('Paths bar by bar from the line terminal') : say('Phases bar by bar'),
    ),
  ];
  const page = {
    title: input.title,
    view: say('phasors'),
    facts: windingWords(winding, speech),
    description: describe(input, chains, speech),
    items: [
      group('titles', 'chart-title', titles),
      group('star', 'slot-phasor', star.items),
      group('diagram', 'phasor', drawDiagram(winding, chains, emphasis, diagramAt)),
      group('rows', 'phasor', rows.items),
    ],
    width,
    bottom: rows.bottom,
    notes: phasorNotes(input, star.rings, byPaths, speech),
    speech,
  };
  return pagePicture(page, input.room);
}

/** A round drawing: its middle and radius, and where its title stands. */
interface RoundPlace {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly left: number;
  readonly top: number;
}

/** Star and diagram beside each other; in a panel too narrow for that the diagram stands below the star, both in the middle. */
function arrange(
  winding: Winding,
  frame: Frame,
): {
  readonly star: RoundPlace;
  readonly diagram: RoundPlace;
  readonly width: number;
  readonly bottom: number;
} {
  const { margin, top } = frame;
  const head = textRow + 2;
  const inner = (frame.width ?? Infinity) - 2 * margin;
  const size = starSize(winding, inner / 2 - 2);
  const radius = Math.max(36, Math.min(56, size.radius - 6));
  const height = 2 * Math.max(size.radius, radius + 5);
  const middle = top + head + height / 2;
  const starX = margin + size.radius + 2;
  const star = { x: starX, y: middle, radius: size.radius, left: margin, top };
  const diagramX = starX + size.radius + 14 + radius + 4;
  const beside = diagramX + radius + 8 + margin;
  if (frame.width === null || beside <= frame.width) {
    const diagram = { x: diagramX, y: middle, radius, left: diagramX - radius - 4, top };
    const width = frame.width ?? Math.max(beside, 220);
    return { star, diagram, width, bottom: top + head + height };
  }
  const below = top + head + 2 * size.radius + 4;
  const small = Math.min(radius, inner / 2 - 8);
  return {
    star: { ...star, x: frame.width / 2, y: top + head + size.radius },
    diagram: { x: frame.width / 2, y: below + head + small + 5, radius: small, left: margin, top: below },
    width: frame.width,
    bottom: below + head + 2 * small + 10,
  };
}

function phasorNotes(
  input: PhasorsInput,
  rings: readonly string[],
  byPaths: boolean,
  { say }: Speech,
): readonly string[] {
  const { winding } = input;
  const { rays, alike, listed } = starNumbers(winding);
  const notes = [
    say(
      'Slot s lags slot 1 by p (s \u2212 1) 360\u00b0/Q = (s \u2212 1) {0}\u00b0; lagging is clockwise, slot 1 points up. Fundamental, order {1}.',
      fixed((360 * winding.polePairs) / winding.slots, 2),
      winding.polePairs,
    ),
  ];
  if (alike > 1 && !listed)
    notes.push(
      say('Slots {0} apart lie on one ray: 1, {1}, and so on, {2} slots each.', rays, rays + 1, alike),
    );
  if (rings.length > 1 || winding.layers > 1)
    notes.push(say('Rings from inside, by layers: {0}.', rings.join('; ')));
  notes.push(
    byPaths
      ? say(
          'Each row is turned so that the mean of its phase\u2019s paths points to the right; behind it stand length, quotient to the number of bars (the winding factor where all paths agree) and angle against that mean.',
        )
      : say(
          'The bars follow each other by layers {0}, in each by slots; behind each row stand its length and the quotient to the number of bars (the winding factor).',
          layerOrder(winding),
        ),
  );
  if (skewed(winding)) notes.push(say('Bars are shortened by their skew factors.'));
  return notes;
}

function skewed({ lean, rotorSkew }: Winding): boolean {
  return rotorSkew.angle !== 0 || lean.some((each) => each !== 0);
}

/** The text equivalent: step of the star, and each chain's sum. */
function describe(input: PhasorsInput, chains: readonly PhasorChain[], speech: Speech): string {
  const { say } = speech;
  const { winding } = input;
  const sums = phaseSums(winding, chains);
  const words = chains.map((chain) => {
    const name = winding.phases.names[chain.phase]!;
    const what = chain.path === null ? name : say('{0} path {1}', name, chain.path);
    return `${what}: ${sumWords(chain, sums[chain.phase]!, speech)}`;
  });
  const step = fixed((360 * winding.polePairs) / winding.slots, 2);
  return [
    say('Phasors of a winding with {0}.', windingWords(winding, speech)),
    say(
      'Star of slots with {0} rays, {1} electrical degrees from slot to slot.',
      starNumbers(winding).rays,
      step,
    ),
    say('Sums of the EMF phasors in EMFs of one bar: {0}.', words.join('; ')),
  ].join(' ');
}
