import { inEnglish, type Speech } from '../figures/speech.ts';
import { withMinus } from '../language/numbers.ts';
import { textWidth } from '../picture/fontMetrics.ts';
import { baseLine, pathShape, text, textSize } from '../picture/make.ts';
import type { PathShape, Picture, Primitive, Role, Subject, Text } from '../picture/picture.ts';
import type { LayoutInput } from '../views/layout/input.ts';
import { layoutPicture } from '../views/layout/layout.ts';
import { drawNotes } from '../views/layout/surroundings.ts';
import type { Room } from '../views/room.ts';
import { changedBars } from './bars.ts';
import { stacked } from './movePicture.ts';
import { canOverlay, change, overlayInput, singleInput } from './overlayInput.ts';
import { align } from './places.ts';
import { type Reviewed, type Wound, wound } from './reviewed.ts';
import type { ChangedBar } from './schema.ts';
import { placeWords } from './words.ts';

const margin = 6;
const mostListed = 60;

/**
 * The old winding laid over the new one: kept lines thin and gray, removed ones dashed, added ones wide.
 * Windings that cannot lie on each other (other slots or phases) stand one above the other; null for a
 * study stands for a file that is not there. Null where a text yields no slot table. A page that says itself what the
 * lines mean gives the `room` it has: then the picture has no legend, and its notes stand beside it.
 */
export function overlayPicture(
  old: Reviewed | null,
  now: Reviewed | null,
  speech: Speech = inEnglish,
  room?: Room,
): Picture | null {
  const [before, after] = [wound(old), wound(now)];
  if ((old && !before) || (now && !after)) return null;
  if (before && after && canOverlay(before.winding, after.winding)) {
    const { rotation } = align(before, after);
    const { input, oldNumbersFrom } = overlayInput(before, after, rotation);
    const bars = changedBars(before, after, { rotation, sameBars: false, samePaths: false });
    const turn =
      rotation === 0
        ? []
        : [speech.say('Renumbered: slot 1 of the old winding is slot {0} of the new one.', rotation + 1)];
    // A page goes through them one by one.
    const listed = room ? [] : barNotes(bars, speech);
    return restyled({ ...input, speech, room }, oldNumbersFrom, [...turn, ...listed], speech);
  }
  // Two of them stand in the room, one above the other.
  const half = room && before && after ? { ...room, height: room.height / 2 } : room;
  const alone = (side: Wound, code: number) =>
    restyled({ ...singleInput(side, code), speech, room: half }, Number.POSITIVE_INFINITY, [], speech);
  const pictures = [before && alone(before, change.removed), after && alone(after, change.added)].filter(
    (picture) => picture !== null,
  );
  return pictures.length === 0 ? null : stacked(pictures);
}

function barNotes(bars: readonly ChangedBar[], speech: Speech): readonly string[] {
  const { say } = speech;
  if (bars.length === 0) return [];
  const minus = (words: string | null) =>
    words === null ? say('empty') : withMinus(placeWords(words, speech));
  const listed = bars
    .slice(0, mostListed)
    .map(({ bar, old, new: now }) => `${bar} ${minus(old)} → ${minus(now)}`)
    .join('; ');
  const whole =
    bars.length > mostListed ? say('{0}; and {1} more', listed, bars.length - mostListed) : listed;
  return [
    bars.length === 1
      ? say('1 bar place changed: {0}.', whole)
      : say('{0} bar places changed: {1}.', bars.length, whole),
  ];
}

/** The layout with its lines drawn by what became of them, a legend of that, and further notes. */
function restyled(
  input: LayoutInput,
  oldNumbersFrom: number,
  notes: readonly string[],
  { say }: Speech,
): Picture {
  const picture = layoutPicture(input);
  const counts = { kept: 0, removed: 0, added: 0 };
  const inRoom = input.room !== undefined;
  const drawn = picture.items.filter(({ id }) => !(inRoom && id === 'legend'));
  const items = drawn.map((item): Primitive => {
    if (item.kind !== 'group') return item;
    if (item.id === 'legend') return { ...item, items: legend(item.items, say) };
    if (item.id === 'cuts')
      return { ...item, items: item.items.map((part) => cutNumber(part, oldNumbersFrom)) };
    const parts = item.items.flatMap((part) => changedParts(part, oldNumbersFrom));
    for (const { role } of parts) {
      if (role === 'kept-line') counts.kept++;
      if (role === 'removed-line') counts.removed++;
      if (role === 'added-line') counts.added++;
    }
    return { ...item, items: parts.sort((a, b) => drawingOrder(a.role) - drawingOrder(b.role)) };
  });
  const marked = items.some((item) => item.kind === 'group' && item.items.some(isOldCutNumber));
  const marks = () =>
    say(
      'Numbers at the cut edges are those of the joints: plain in the new winding, with {0} in the old one.',
      oldMark,
    );
  const said = marked ? [marks(), ...notes] : notes;
  const lines = inRoom
    ? { items: [], height: 0 }
    : drawNotes(said, margin, picture.height - margin, Math.min(picture.width - 2 * margin, 240));
  const title = picture.title.slice(0, picture.title.lastIndexOf(': '));
  const kept = counts.kept === 1 ? say('1 line kept') : say('{0} lines kept', counts.kept);
  return {
    ...picture,
    title: `${title}: ${say('comparison')}`,
    description: `${say('The old winding laid over the new one: {0}, {1} removed, {2} added.', kept, counts.removed, counts.added)} ${picture.description}`,
    height: picture.height + lines.height,
    ...(inRoom && { notes: said }),
    items: [
      ...items,
      ...(lines.items.length > 0
        ? [
            {
              kind: 'group' as const,
              id: 'changes',
              role: 'note' as const,
              items: lines.items.map((item, i) => ({ ...item, id: `change-${i + 1}` })),
            },
          ]
        : []),
    ],
  };
}

function drawingOrder(role: Role): number {
  // Thin dashes show on a wide line; a wide line would hide them.
  if (role.startsWith('added')) return 1;
  return role.startsWith('removed') ? 2 : 0;
}

/** Stands behind the old winding's joint numbers. */
const oldMark = '*';

/** A number at a cut edge as its own winding has it; names of terminals and star points are those of both. */
function cutNumber(part: Primitive, oldNumbersFrom: number): Primitive {
  if (part.kind !== 'text' || part.role !== 'cut-number' || !(Number(part.text) >= oldNumbersFrom))
    return part;
  const number = String(Number(part.text) - oldNumbersFrom);
  const id = `removed-${part.id.replace(part.text, number)}`;
  return text(id, 'cut-number', part.x, part.y, number + oldMark, { anchor: part.anchor, size: part.size });
}

function isOldCutNumber(part: Primitive): boolean {
  return part.kind === 'text' && part.role === 'cut-number' && part.text.endsWith(oldMark);
}

type ChangeName = 'kept' | 'removed' | 'added';
const names: Readonly<Record<number, ChangeName>> = {
  [change.kept]: 'kept',
  [change.removed]: 'removed',
  [change.added]: 'added',
};

/** A primitive as it is drawn by what became of it; a bar that was replaced is drawn twice, side by side. */
function changedParts(part: Primitive, oldNumbersFrom: number): readonly Primitive[] {
  const code = part.path;
  if (code === undefined || part.kind === 'group') return [part];
  if (part.kind === 'text') return [changedText(part, code)];
  if (part.kind !== 'path') return [part];
  if (code !== change.replaced) return [changedShape(part, names[code]!, oldNumbersFrom)];
  if (part.filled) return [changedShape(shifted(part, replacedShift), 'added', oldNumbersFrom)];
  return [
    {
      ...changedShape(shifted(part, -replacedShift), 'removed', 0),
      id: `removed-${part.id}`,
      subject: undefined,
    },
    changedShape(shifted(part, replacedShift), 'added', oldNumbersFrom),
  ];
}

const replacedShift = 0.4;

function shifted(shape: PathShape, by: number): PathShape {
  const parts = shape.parts.map((points) => points.map((value, i) => (i % 2 === 0 ? value + by : value)));
  return { ...shape, parts };
}

function changedText(part: Text, code: number): Primitive {
  const plain = { ...part, phase: undefined, path: undefined };
  if (code === change.kept) return plain;
  return { ...plain, role: code === change.removed ? 'removed-name' : 'added-name' };
}

function changedShape(part: PathShape, name: ChangeName, oldNumbersFrom: number): PathShape {
  const plain = { ...part, phase: undefined, path: undefined };
  const role = `${name}-${part.filled ? 'mark' : 'line'}` as Role;
  const joint = part.subject && 'joint' in part.subject ? part.subject.joint : undefined;
  if (joint === undefined || joint < oldNumbersFrom) return { ...plain, role };
  const number = joint - oldNumbersFrom;
  const id = 'terminal' in part.subject! || 'star' in part.subject! ? part.id : `joint-${number}`;
  return { ...plain, role, id: `removed-${id}`, subject: { ...part.subject, joint: number } as Subject };
}

/** The legend of a comparison in the place of the phases'. */
function legend(replaced: readonly Primitive[], say: Speech['say']): readonly Primitive[] {
  const legendWords: readonly (readonly [ChangeName, string])[] = [
    ['kept', say('kept')],
    ['removed', say('removed: in the old winding only')],
    ['added', say('added: in the new winding only')],
  ];
  const first = replaced.find((item) => item.kind === 'text');
  const y = first?.kind === 'text' ? first.y : baseLine;
  const sample = 14;
  let x = margin;
  return legendWords.flatMap(([name, words]) => {
    const line = pathShape(`legend-line-${name}`, `${name}-line`, [[x, y - 0.9, x + sample, y - 0.9]]);
    const label = text(`legend-${name}`, 'legend-name', x + sample + 1.5, y, words);
    x += sample + 1.5 + textWidth(words, textSize) + 6;
    return [line, label];
  });
}
