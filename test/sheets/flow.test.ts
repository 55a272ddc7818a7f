import { expect, test } from 'vitest';
import { type Block, type Content, flow } from '../../core/sheets/page/flow.ts';

const area = { left: 0, top: 0, right: 300, bottom: 200 };

/** A block that is not split. */
function whole(section: string, width: number, height: number): Content {
  const part = { height, draw: () => [] };
  return {
    kind: 'block',
    block: { section, width, take: (room) => (room < height ? null : { part, rest: null }) },
  };
}

/** A block that may be cut at any height. */
function long(section: string, width: number, height: number): Content {
  const block = (left: number): Block => ({
    section,
    width,
    take: (room) => {
      if (room <= 0) return null;
      const taken = Math.min(room, left);
      return {
        part: { height: taken, draw: () => [] },
        rest: taken < left ? block(left - taken) : null,
      };
    },
  });
  return { kind: 'block', block: block(height) };
}

/** The same, where it may stand before what comes before it. */
function goingBack(content: Content): Content {
  return content.kind === 'block' ? { ...content, block: { ...content.block, goesBack: true } } : content;
}

function placed(contents: readonly Content[]) {
  return flow(contents, area).map((parts) =>
    parts.map(({ section, left, top, part }) => [section, left, top, part.height]),
  );
}

test('blocks go on beside narrow ones below a wide one before they take another sheet', () => {
  expect(
    placed([
      whole('tests', 200, 60),
      whole('limits', 90, 100),
      whole('cautions', 90, 90),
      whole('source', 90, 110),
    ]),
  ).toEqual([
    [
      ['tests', 0, 0, 60],
      ['limits', 0, 66, 100],
      ['cautions', 98, 66, 90],
      ['source', 208, 0, 110],
    ],
  ]);
});

test('whole columns are taken first where that needs no more sheets', () => {
  expect(placed([whole('conventions', 160, 100), whole('list', 70, 90), whole('machine', 80, 180)])).toEqual([
    [
      ['conventions', 0, 0, 100],
      ['list', 0, 106, 90],
      ['machine', 168, 0, 180],
    ],
  ]);
});

test('what is split goes on in a whole column', () => {
  expect(placed([whole('wide', 200, 100), long('joints', 80, 250)])).toEqual([
    [
      ['wide', 0, 0, 100],
      ['joints', 0, 106, 74],
      ['joints', 208, 0, 176],
    ],
  ]);
});

test('what fits on a sheet is kept whole where that takes no more sheets, in another column or on the next sheet', () => {
  expect(placed([whole('wide', 200, 100), long('joints', 80, 190)])).toEqual([
    [
      ['wide', 0, 0, 100],
      ['joints', 208, 0, 190],
    ],
  ]);
  const next = [whole('wide', 290, 100), long('winding', 140, 110), whole('figure', 290, 80)];
  expect(placed(next)).toEqual([
    [['wide', 0, 0, 100]],
    [
      ['winding', 0, 0, 110],
      ['figure', 0, 116, 80],
    ],
  ]);
});

test('it is split where that saves a sheet', () => {
  expect(placed([whole('wide', 290, 100), long('winding', 140, 150)])).toEqual([
    [
      ['wide', 0, 0, 100],
      ['winding', 0, 106, 82],
      ['winding', 148, 106, 68],
    ],
  ]);
});

test('a text goes back to room further left before it takes another sheet', () => {
  const before = [whole('leads', 180, 40), whole('tests', 180, 50), whole('cautions', 110, 180)];
  const text = whole('warnings', 100, 70);
  const sheet = [
    ['leads', 0, 0, 40],
    ['tests', 0, 46, 50],
    ['cautions', 188, 0, 180],
  ];
  expect(placed([...before, goingBack(text)])).toEqual([[...sheet, ['warnings', 0, 102, 70]]]);
  expect(placed([...before, text])).toEqual([sheet, [['warnings', 0, 0, 70]]]);
  // What follows goes on where it would.
  expect(placed([...before, goingBack(text), whole('rest', 100, 10)])).toEqual([
    [...sheet, ['warnings', 0, 102, 70], ['rest', 188, 186, 10]],
  ]);
});

test('nothing lies on anything', () => {
  let placed = 0;
  const wrong: string[] = [];
  for (let seed = 1; seed <= 60; seed++) {
    let state = seed;
    const upTo = (most: number): number => {
      state = (state * 48271) % 2147483647;
      return 1 + (state % most);
    };
    const contents = Array.from({ length: 12 }, (_, index) => {
      const content = (upTo(3) === 1 ? long : whole)(`${index}`, upTo(300), upTo(190));
      return upTo(3) === 1 ? goingBack(content) : content;
    });
    const widths = contents.map((content) => (content.kind === 'block' ? content.block.width : 0));
    for (const parts of flow(contents, area)) {
      const boxes = parts.map(({ section, left, top, part }) => ({
        left,
        top,
        right: left + widths[Number(section)]!,
        bottom: top + part.height,
      }));
      placed += boxes.length;
      for (const [index, one] of boxes.entries()) {
        if (!(one.right <= area.right && one.bottom <= area.bottom))
          wrong.push(`seed ${seed}: out of the area`);
        for (const other of boxes.slice(0, index)) {
          const beside = one.left >= other.right || other.left >= one.right;
          if (!(beside || one.top >= other.bottom || other.top >= one.bottom))
            wrong.push(`seed ${seed}: on another`);
        }
      }
    }
  }
  expect(wrong).toEqual([]);
  expect(placed).toBeGreaterThan(500);
});

test('words for blocks that are larger than a sheet take no sheets of their own', () => {
  const contents = [whole('list', 70, 90), whole('shapes', 400, 50), whole('shapes', 90, 300)];
  const [first, ...others] = placed(contents);
  expect(others).toEqual([]);
  expect(first!.map(([section, , , height]) => [section, height])).toEqual([
    ['list', 90],
    ['shapes', 4],
    ['shapes', 4],
  ]);
});

test('what may go back also takes room beside what comes before it and above what comes after', () => {
  const before = [whole('machine', 200, 60), whole('winding', 120, 120), whole('figure', 140, 120)];
  const firstSheet = [
    ['machine', 0, 0, 60],
    ['winding', 0, 66, 120],
    ['figure', 128, 66, 120],
  ];
  expect(placed([...before, goingBack(whole('slots', 90, 60))])).toEqual([
    [...firstSheet, ['slots', 208, 0, 60]],
  ]);
  // A millimeter higher it would come nearer to the figure than blocks do.
  expect(placed([...before, goingBack(whole('slots', 90, 61))])).toEqual([firstSheet, [['slots', 0, 0, 61]]]);
});
