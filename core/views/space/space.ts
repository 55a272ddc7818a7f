import type { Facts } from '../../facts/facts.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import type { Steps } from '../../figures/steps.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, group, text, textSize } from '../../picture/make.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import type { Space } from '../../space/space.ts';
import type { Winding } from '../../winding/model.ts';
import { frameFor, legendRow, pagePicture, titleWords, windingWords } from '../chart/page.ts';
import type { LayoutInput } from '../layout/input.ts';
import { drawNotes } from '../layout/surroundings.ts';
import type { Frame, Room } from '../room.ts';
import { type NearPlace, nearPlaces } from './nearPlaces.ts';
import { type DrawingRoom, sceneSteps } from './scene.ts';

/** What the picture of the bars in space shows. */
export interface SpacePictureInput
  extends Pick<LayoutInput, 'winding' | 'title' | 'barPath' | 'barSource' | 'emphasis'> {
  readonly facts: Facts;
  /** Made in a third of the time, for a picture that follows the text. Default false. */
  readonly coarse?: boolean | undefined;
  /** The room that the page has. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** Title, text equivalent and notes of the bars in space, for whatever shows them. */
export interface SpaceWords {
  readonly title: string;
  readonly description: string;
  readonly notes: readonly string[];
}

/** What the drawing takes of a page that has no room of its own; the least in a panel, mm. */
const pageRoom: DrawingRoom = { across: 200, up: 170 };
const least = 80;
/** Between the drawing and its legend. */
const gap = 3;

/**
 * The bars as they stand in space, seen from far away above the connection side, hidden parts left out:
 * every bar, lead, connecting piece and ring of which anything is seen is one element. Words alone where
 * something about the bars is not known. In steps.
 */
export function* spaceSteps(input: SpacePictureInput): Steps<Picture> {
  const { facts, speech = inEnglish } = input;
  const figure = facts.space().space;
  const { connection } = facts;
  if (!figure.known) return notDrawn(input, figure.needs, speech);
  if (connection.kind !== 'connected') throw new RangeError('bars in space are joined');
  const space = figure.value;
  const frame = frameFor(input.room);
  const scene = yield* sceneSteps(input, space, connection.facts, roomOf(input, frame));
  const places = nearPlaces(facts, speech);
  const { bodies, shade, names, marks, seen } = yield* scene.draw(frame.margin, frame.top, { places });
  const bottom = frame.top + scene.height + gap;
  const legend = legendOf(input, space, frame.margin, bottom, speech);
  const page = {
    title: input.title,
    view: speech.say('bars in space'),
    facts: speech.say('{0}, seen from above the connection side', windingWords(input.winding, speech)),
    description: [describe(input.winding, space, seen, speech), ...placeNotes(places, speech)].join(' '),
    items: [
      group('bodies', 'frame', bodies),
      ...shade,
      group('names', 'terminal-name', names),
      ...(marks.length > 0 ? [group('places', 'fault-mark', marks)] : []),
      group('legend', 'legend-name', legend.items),
    ],
    width: Math.max(scene.width, legend.width) + 2 * frame.margin,
    bottom: bottom + legendRow,
    notes: [...placeNotes(places, speech), ...notesOf(space, speech)],
    speech,
  };
  return pagePicture(page, input.room);
}

function roomOf({ room }: SpacePictureInput, { margin, top, width }: Frame): DrawingRoom {
  if (!room || width === null) return pageRoom;
  const up = room.height - 2 * top - gap - legendRow;
  return { across: width - 2 * margin, up: Math.max(least, up) };
}

/** The words that go with bars that are shown from any side; null where they are not known. */
export function spaceWords(
  input: Pick<SpacePictureInput, 'title' | 'winding' | 'facts' | 'speech'>,
): SpaceWords | null {
  const figure = input.facts.space().space;
  if (!figure.known) return null;
  const { winding, title, speech = inEnglish } = input;
  const places = placeNotes(nearPlaces(input.facts, speech), speech);
  return {
    title: `${titleWords(title, speech)}: ${speech.say('bars in space')}`,
    description: [describe(winding, figure.value, null, speech), ...places].join(' '),
    notes: [
      ...places,
      `${windingWords(winding, speech)}.`,
      speech.say('Bars without coating; the stack is drawn plain between the radii of the bars.'),
      ...ringNotes(figure.value, speech),
      ...bendNotes(figure.value, speech),
    ],
  };
}

/** The phases with their colors. */
function legendOf(
  { winding }: SpacePictureInput,
  { rings }: Space,
  left: number,
  top: number,
  { say }: Speech,
) {
  const items: Primitive[] = [];
  let x = left;
  const swatch = (id: string, role: 'bar-section' | 'space-ring', words: string, phase?: number) => {
    const box = [x, top + 0.4, x + 4, top + 0.4, x + 4, top + 2.6, x, top + 2.6];
    items.push(
      filledShape(`legend-${id}`, role, [box], phase === undefined ? {} : { phase }),
      text(`legend-name-${id}`, 'legend-name', x + 5.2, top + baseLine, words),
    );
    x += 5.2 + textWidth(words, textSize) + 6;
  };
  for (const [phase, name] of winding.phases.names.entries())
    swatch(name, 'bar-section', say('phase {0}', name), phase);
  if (rings.length > 0) swatch('rings', 'space-ring', say('star and terminal rings'));
  return { items, width: x - 6 - left };
}

/** What is marked with which letter. */
export function placeNotes(places: readonly NearPlace[], { say }: Speech = inEnglish): readonly string[] {
  if (places.length === 0) return [];
  return [
    ...places.map(({ letter, words }) => `${letter}: ${words}`),
    say('A dashed circle: behind other parts.'),
  ];
}

function notesOf(space: Space, speech: Speech): readonly string[] {
  return [
    speech.say(
      'Orthographic, connection side up; hidden parts are left out. Bars without coating, their edges square; the stack is drawn plain between the radii of the bars.',
    ),
    ...ringNotes(space, speech),
    ...bendNotes(space, speech),
  ];
}

/** Which ring is which: they lie one above the other. */
function ringNotes({ rings }: Space, { say }: Speech): readonly string[] {
  return (['connection', 'far'] as const).flatMap((side) => {
    const own = rings.filter((ring) => ring.side === side);
    if (own.length < 2) return [];
    const names = own.map(({ name }) => name).join(', ');
    return [
      side === 'connection'
        ? say('Rings of the connection side, from the stack outwards: {0}.', names)
        : say('Rings of the far side, from the stack outwards: {0}.', names),
    ];
  });
}

function bendNotes({ bends }: Space, { say }: Speech): readonly string[] {
  if (!bends.assumed) return [];
  return [
    say(
      'Bend radius assumed, because the text does not give it: {0} mm. CAD files and bend lists need bar bend-radius.',
      fixedText(1000 * bends.edge, 1),
    ),
  ];
}

/** The text equivalent: how far the ends stand out, and what stands above them; `seen` null: from any side. */
function describe(winding: Winding, space: Space, seen: number | null, speech: Speech): string {
  const { say } = speech;
  const millimeters = (length: number) => `${fixedText(1000 * length, 1)} mm`;
  const bars = space.bars.filter((bar) => bar !== null).length;
  const planes = (['connection', 'far'] as const).flatMap((side) => {
    const plane = space.jointPlanes[side];
    if (plane === null) return [];
    const [lowest, highest] = [millimeters(plane.lowest), millimeters(plane.highest)];
    return [
      side === 'connection'
        ? say('The joints of the connection side end {0} to {1} above the stack.', lowest, highest)
        : say('The joints of the far side end {0} to {1} above the stack.', lowest, highest),
    ];
  });
  const extras = [
    ...(space.links.length === 1 ? [say('1 connecting piece')] : []),
    ...(space.links.length > 1 ? [say('{0} connecting pieces', space.links.length)] : []),
    ...(space.rings.length > 0 ? [say('rings {0}', space.rings.map(({ name }) => name).join(', '))] : []),
  ];
  const whose = windingWords(winding, speech);
  const last = layerLetter(winding.layers - 1);
  return [
    seen === null
      ? say('Bars in space of a winding with {0}.', whose)
      : say('Bars in space of a winding with {0}, seen from above the connection side.', whose),
    seen === null
      ? say('{0} bars in layers a to {1}.', bars, last)
      : say('{0} bars in layers a to {1}, {2} of them in sight.', bars, last, seen),
    say(
      'They stand out of the stack by {0} on the connection side and {1} on the far side.',
      millimeters(space.overhang.connection),
      millimeters(space.overhang.far),
    ),
    ...planes,
    ...(extras.length > 0 ? [say('Above the ends: {0}.', extras.join(', '))] : []),
  ].join(' ');
}

/** A page that says what the picture needs; in a panel where the drawing would be, too. */
function notDrawn(input: SpacePictureInput, needs: readonly string[], speech: Speech): Picture {
  const words = speech.say('Not drawn: the bars in space need {0}.', needs.map(speech.phrase).join(', '));
  const { room } = input;
  const { margin, top } = frameFor(room);
  const width = room?.width ?? 150;
  const drawn = room && drawNotes([words], margin, top, width - 2 * margin);
  const page = {
    title: input.title,
    view: speech.say('bars in space'),
    facts: windingWords(input.winding, speech),
    description: words,
    items: drawn?.items ?? [],
    width,
    bottom: Math.max(top + (drawn?.height ?? 0), room ? room.height - top : 0),
    notes: [words],
    speech,
  };
  return pagePicture(page, room);
}
