import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { actionsIn, activateOnStub, soundText } from './activated.ts';
import { openStubDocument, workspace } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

/** The text with the remedy of this title, or beginning, taken where the code stands; stops are left as proposed. */
async function mended(text: string, code: string, title: string): Promise<string> {
  const document = openStubDocument('pump.winding', text);
  const found = study(text).findings.filter((each) => each.code === code);
  const actions = (await Promise.all(found.map(({ range }) => actionsIn(document, range)))).flat();
  const action = actions.find((each) => each.title.startsWith(title));
  if (!action?.edit) throw new Error(`no '${title}' among: ${actions.map((each) => each.title).join('; ')}`);
  await workspace.applyEdit(action.edit);
  return document.getText();
}

const codes = (text: string) => study(text).findings.map(({ code }) => code);
const plain = soundText.slice(0, soundText.indexOf('connect'));
const connected = (lines: string) => `${plain}connect {\n  star\n  ${lines}\n}\n`;

// Each: the code, the wrong text, and the remedy taken.
test.each([
  ['title-missing', plain.slice(plain.indexOf('machine')), 'Name the winding'],
  ['block-missing', plain.slice(0, plain.indexOf('layout')), "Add 'layers 2'"],
  ['block-missing', plain.replace(/machine \{[\s\S]*?\}\n/, ''), "Add 'slots 48'"],
  ['statement-missing', plain.replace('  poles  2\n', ''), "Add 'poles"],
  ['statement-missing', plain.replace('  layers 2\n', ''), "Add 'layers 2'"],
  ['layout-undetermined', plain.replace('  span   5\n', ''), "Add 'span 6'"],
  ['layout-refused', plain.replace('slots  12', 'slots  13'), "Write 'slots 12'"],
  ['layout-refused', plain.replace('layers 2', 'layers 3'), "Write 'layers 2'"],
  ['layout-refused', plain.replace('span   5', 'span   12'), "Write 'span 6'"],
  ['connection-missing', connected('').replace('star', ''), "Add 'star'"],
  ['phases-need-angle', plain.replace('phases 3', 'phases 6'), "Add 'apart 30 edeg'"],
  ['statement-repeated', plain.replace('  poles  2\n', '  poles  2\n  poles  4\n'), "Remove 'poles"],
  ['connection-repeated', connected('delta'), "Remove 'delta'"],
  [
    'statements-exclude-each-other',
    connected('route paths 1\n  path U 1 from U1 1a +5b to N'),
    "Remove 'route",
  ],
  ['brace-unexpected', `${plain}}\n`, "Remove '}'"],
  ['block-not-closed', plain.trimEnd().slice(0, -1), "Add '}'"],
  ['string-not-closed', plain.replace('trial"', 'trial'), "Add '\"'"],
  [
    'path-number-repeated',
    connected('path U 1 from U1 1a +6b to N\n  path U 1 from U1 2a +6b to N'),
    "Write 'path U 2'",
  ],
  ['terminal-wrong', connected('path U 1 from V1 1a +6b to N'), "Write 'U1'"],
  ['terminal-wrong', connected('path U 1 from U1 1a +6b to U2'), "Write 'N'"],
  ['path-end-side', connected('path U 1 from U1 1a to N'), "Add 'far'"],
  ['limit-not-computable', `${plain}require { line-voltage <= 5 V }\n`, 'Add '],
  ['routing-refused', connected('route paths 5'), "Write 'route paths"],
])('%s is mended at a stroke', async (code, text, title) => {
  expect(codes(text)).toContain(code);
  const before = codes(text).filter((each) => each === code).length;
  const after = codes((await mended(text, code, title)).replace('¦', ''));
  expect(after.filter((each) => each === code).length).toBeLessThan(before);
});

describe('a remedy', () => {
  test('of a limit adds what it needs in the blocks that take it, made where there are none', async () => {
    const text = await mended(`${plain}require { slot-fill <= 70 % }\n`, 'limit-not-computable', 'Add ');
    expect(text).toMatch(/\nslot \{\n {2}\S.*\n/);
    expect(text).toMatch(/\nbar \{\n {2}\S.*\n/);
    expect(codes(text).filter((code) => /unexpected|unknown|wrong/.test(code))).toEqual([]);
  });

  test('keeps what else stands on a line and in a block', async () => {
    const text = 'winding "x"\nmachine { slots 12  phases 3 } # the pump\nlayout { layers 2 span 5 }\n';
    expect(await mended(text, 'statement-missing', "Add 'poles")).toContain(
      'machine { slots 12  phases 3 poles ',
    );
  });
});
