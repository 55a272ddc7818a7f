import type { Facts } from '../../facts/facts.ts';
import { listed, plural } from '../../language/lists.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, group, text, textSize } from '../../picture/make.ts';
import { fixedText } from '../../picture/numberText.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import type { Steps } from '../../picture/steps.ts';
import type { Space } from '../../space/space.ts';
import { layerLetter, type Winding } from '../../winding/model.ts';
import { frameFor, legendRow, pagePicture, windingWords } from '../chart/page.ts';
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
  const { facts } = input;
  const figure = facts.space().space;
  const { connection } = facts;
  if (!figure.known) return notDrawn(input, figure.needs);
  if (connection.kind !== 'connected') throw new RangeError('bars in space are joined');
  const space = figure.value;
  const frame = frameFor(input.room);
  const scene = yield* sceneSteps(input, space, connection.facts, roomOf(input, frame), input.coarse);
  const places = nearPlaces(facts);
  const { bodies, shade, names, marks, seen } = yield* scene.draw(frame.margin, frame.top, { places });
  const bottom = frame.top + scene.height + gap;
  const legend = legendOf(input, space, frame.margin, bottom);
  const page = {
    title: input.title,
    view: 'bars in space',
    facts: `${windingWords(input.winding)}, seen from above the connection side`,
    description: [describe(input.winding, space, seen), ...placeNotes(places)].join(' '),
    items: [
      group('bodies', 'frame', bodies),
      ...shade,
      group('names', 'terminal-name', names),
      ...(marks.length > 0 ? [group('places', 'fault-mark', marks)] : []),
      group('legend', 'legend-name', legend.items),
    ],
    width: Math.max(scene.width, legend.width) + 2 * frame.margin,
    bottom: bottom + legendRow,
    notes: [...placeNotes(places), ...notesOf(space)],
  };
  return pagePicture(page, input.room);
}

function roomOf({ room }: SpacePictureInput, { margin, top, width }: Frame): DrawingRoom {
  if (!room || width === null) return pageRoom;
  const up = room.height - 2 * top - gap - legendRow;
  return { across: width - 2 * margin, up: Math.max(least, up) };
}

/** The words that go with bars that are shown from any side; null where they are not known. */
export function spaceWords(input: Pick<SpacePictureInput, 'title' | 'winding' | 'facts'>): SpaceWords | null {
  const figure = input.facts.space().space;
  if (!figure.known) return null;
  const { winding, title } = input;
  const places = placeNotes(nearPlaces(input.facts));
  return {
    title: `${title === '' ? 'Winding without a title' : title}: bars in space`,
    description: [describe(winding, figure.value, null), ...places].join(' '),
    notes: [
      ...places,
      `${windingWords(winding)}.`,
      'Bars without coating; the stack is drawn plain between the radii of the bars.',
      ...ringNotes(figure.value),
      ...bendNotes(figure.value),
    ],
  };
}

/** The phases with their colors. */
function legendOf({ winding }: SpacePictureInput, { rings }: Space, left: number, top: number) {
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
    swatch(name, 'bar-section', `phase ${name}`, phase);
  if (rings.length > 0) swatch('rings', 'space-ring', 'star and terminal rings');
  return { items, width: x - 6 - left };
}

/** What is marked with which letter. */
export function placeNotes(places: readonly NearPlace[]): readonly string[] {
  if (places.length === 0) return [];
  return [
    ...places.map(({ letter, words }) => `${letter}: ${words}`),
    'A dashed circle: behind other parts.',
  ];
}

function notesOf(space: Space): readonly string[] {
  return [
    'Orthographic, connection side up; hidden parts are left out. Bars without coating, their edges square; the stack is drawn plain between the radii of the bars.',
    ...ringNotes(space),
    ...bendNotes(space),
  ];
}

/** Which ring is which: they lie one above the other. */
function ringNotes({ rings }: Space): readonly string[] {
  return (['connection', 'far'] as const).flatMap((side) => {
    const own = rings.filter((ring) => ring.side === side);
    if (own.length < 2) return [];
    return [`Rings of the ${side} side, from the stack outwards: ${own.map(({ name }) => name).join(', ')}.`];
  });
}

function bendNotes({ bends }: Space): readonly string[] {
  if (!bends.assumed) return [];
  return [
    `Bend radius assumed, because the text does not give it: ${fixedText(1000 * bends.edge, 1)} mm. CAD files and bend lists need bar bend-radius.`,
  ];
}

/** The text equivalent: how far the ends stand out, and what stands above them; `seen` null: from any side. */
function describe(winding: Winding, space: Space, seen: number | null): string {
  const millimetres = (length: number) => `${fixedText(1000 * length, 1)} mm`;
  const bars = space.bars.filter((bar) => bar !== null).length;
  const planes = (['connection', 'far'] as const).flatMap((side) => {
    const plane = space.jointPlanes[side];
    return plane === null
      ? []
      : [
          `joints of the ${side} side end ${millimetres(plane.lowest)} to ${millimetres(plane.highest)} above the stack`,
        ];
  });
  const extras = [
    ...(space.links.length > 0 ? [plural(space.links.length, 'connecting piece')] : []),
    ...(space.rings.length > 0 ? [`rings ${listed(space.rings.map(({ name }) => name))}`] : []),
  ];
  return [
    `Bars in space of a winding with ${windingWords(winding)}${seen === null ? '' : ', seen from above the connection side'}.`,
    `${bars} bars in layers a to ${layerLetter(winding.layers - 1)}${seen === null ? '' : `, ${seen} of them in sight`}.`,
    `They stand out of the stack by ${millimetres(space.overhang.connection)} on the connection side and ${millimetres(space.overhang.far)} on the far side.`,
    ...(planes.length > 0 ? [`The ${planes.join('; the ')}.`] : []),
    ...(extras.length > 0 ? [`Above the ends: ${extras.join(', ')}.`] : []),
  ].join(' ');
}

/** A page that says what the picture needs; in a panel where the drawing would be, too. */
function notDrawn(input: SpacePictureInput, needs: readonly string[]): Picture {
  const words = `Not drawn: the bars in space need ${needs.join(', ')}.`;
  const { room } = input;
  const { margin, top } = frameFor(room);
  const width = room?.width ?? 150;
  const drawn = room && drawNotes([words], margin, top, width - 2 * margin);
  const page = {
    title: input.title,
    view: 'bars in space',
    facts: windingWords(input.winding),
    description: words,
    items: drawn?.items ?? [],
    width,
    bottom: Math.max(top + (drawn?.height ?? 0), room ? room.height - top : 0),
    notes: [words],
  };
  return pagePicture(page, room);
}
