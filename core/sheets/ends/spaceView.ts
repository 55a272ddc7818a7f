import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Space } from '../../space/space.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import { sceneOf } from '../../views/space/scene.ts';
import type { Block } from '../page/flow.ts';
import { drawHeading, headingHeight } from '../page/table.ts';
import { line, toBase } from '../page/text.ts';

const room = { across: 150, up: 150 } as const;

/** The bars as they stand in space, hidden parts left out. */
export function spaceView(
  input: LayoutInput,
  space: Space,
  connection: ConnectionFacts,
  section: string,
  most: number,
): Block {
  // Roughly: among everything else on a set of sheets it must not take long.
  const scene = sceneOf(input, space, connection, { ...room, across: Math.min(room.across, most) }, true);
  const height = headingHeight + scene.height + 5;
  return {
    section,
    width: Math.max(scene.width, 80),
    take: (left) => {
      if (left < height) return null;
      const draw = (x: number, y: number) => {
        const { bodies, shade, names } = scene.draw(x, y + headingHeight, {
          prefix: 'space-',
          onlyClear: true,
        });
        const words = 'Connection side up; orthographic, hidden parts left out.';
        const base = y + headingHeight + scene.height + 1 + toBase(1.8);
        return [
          ...drawHeading('space-heading', 'Bars in space', x, y),
          ...bodies,
          ...shade,
          ...names,
          line('space-note', 'sheet-text', x, base, words, { height: 1.8 }),
        ];
      };
      return { part: { height, draw }, rest: null };
    },
  };
}
