import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Steps } from '../../figures/steps.ts';
import type { Space } from '../../space/space.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import type { NearPlace } from '../../views/space/nearPlaces.ts';
import { sceneSteps } from '../../views/space/scene.ts';
import { placeNotes } from '../../views/space/space.ts';
import type { Block } from '../page/flow.ts';
import { drawHeading, headingHeight } from '../page/table.ts';
import { line, linePitch, toBase, wrapped } from '../page/text.ts';

const room = { across: 150, up: 150 } as const;

/** The bars as they stand in space, hidden parts left out; what collides or comes too near is marked, and listed below; in steps. */
export function* spaceView(
  input: LayoutInput,
  space: Space,
  connection: ConnectionFacts,
  section: string,
  most: number,
  places: readonly NearPlace[],
): Steps<Block> {
  // Roughly: among everything else on a set of sheets it must not take long.
  const across = Math.min(room.across, most);
  const scene = yield* sceneSteps({ ...input, coarse: true }, space, connection, { ...room, across });
  const width = Math.max(scene.width, 80);
  const notes = ['Connection side up; orthographic, hidden parts left out.', ...placeNotes(places)].flatMap(
    (words) => wrapped(words, 1.8, width),
  );
  const pitch = linePitch(1.8);
  const height = headingHeight + scene.height + 1.5 + notes.length * pitch;
  return {
    section,
    width,
    take: (left) => {
      if (left < height) return null;
      const draw = function* (x: number, y: number) {
        const { bodies, shade, names, marks } = yield* scene.draw(x, y + headingHeight, {
          prefix: 'space-',
          places,
        });
        const base = y + headingHeight + scene.height + 1 + toBase(1.8);
        return [
          ...drawHeading('space-heading', 'Bars in space', x, y),
          ...bodies,
          ...shade,
          ...names,
          ...marks,
          ...notes.map((words, index) =>
            line(`space-note-${index + 1}`, 'sheet-text', x, base + index * pitch, words, { height: 1.8 }),
          ),
        ];
      };
      return { part: { height, draw }, rest: null };
    },
  };
}
