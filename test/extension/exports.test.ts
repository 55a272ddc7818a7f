// Takes its time: drives the extension with whole windings.

import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { pictureToDxf } from '../../core/picture/fileFormats.ts';
import { drawView } from '../../core/views/views.ts';
import { readPdf } from '../picture/readPdf.ts';
import { machineText } from '../space/machines.ts';
import { study } from '../support/study.ts';
import { activateOnStub, brokenText, fileFormatsAnew, soundText } from './activated.ts';
import { editorState, env, FileSystemError, openStubDocument, UIKind, Uri } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const run = (name: string, ...args: unknown[]) => editorState.commands.get(`slotwright.${name}`)?.(...args);
const text = (address: string) => new TextDecoder().decode(editorState.files.get(address));

/** Picks the item of a list whose value is this. */
const item = (value: string) => (items: readonly { readonly value: string }[]) =>
  items.find((one) => one.value === value);

describe('export of a drawing', () => {
  test.each([
    ['svg', /^<svg|^<\?xml/],
    ['pdf', /^%PDF-1\.7/],
    ['dxf', /^\s*0\r?\nSECTION/],
  ])('as %s, where the reader said', async (format, beginning) => {
    openStubDocument('pump.winding', soundText);
    const target = Uri.parse(`memory:/out/drawing.${format}`);
    let proposed: unknown;
    const save = (options: { readonly defaultUri: Uri }) => {
      proposed = options.defaultUri.toString();
      return target;
    };
    editorState.answers.push(item('layout'), item(format), save);
    await run('exportDrawing');
    expect(proposed).toBe(`memory:/pump-layout.${format}`);
    expect(text(target.toString())).toMatch(beginning);
    expect(editorState.information).toEqual([`Wrote drawing.${format}.`]);
  });

  const bent = (bar: string) =>
    machineText({
      slots: 6,
      poles: 2,
      paths: 1,
      filled: 0.3,
      slender: 0.4,
      lean: [0, 0],
      layers: 2,
      form: 'hairpin',
      gap: 'inner',
      bar,
    });

  test('as solids of the bars in space, which the handover package holds too', async () => {
    openStubDocument('hoist.winding', bent('bend-radius 3 mm'));
    for (const format of ['step', 'stl']) {
      const target = Uri.parse(`memory:/out/bars.${format}`);
      editorState.answers.push(item('space'), item(format), () => target);
      await run('exportDrawing');
    }
    expect(text('memory:/out/bars.step')).toMatch(/^ISO-10303-21;/);
    const stl = editorState.files.get('memory:/out/bars.stl')!;
    const count = new DataView(stl.buffer, stl.byteOffset).getUint32(80, true);
    expect(stl.length).toBe(84 + 50 * count);
    editorState.answers.push([Uri.parse('memory:/shop')], 'Open');
    await run('exportPackage');
    expect(text('memory:/shop/hoist-handover/hoist-bars.step')).toBe(text('memory:/out/bars.step'));
    expect(text('memory:/shop/hoist-handover/hoist-bars-before.step')).toContain('before it is put in');
  });

  test('triangles of many bars are asked about first, with their size', async () => {
    // Many bars of known sizes, and no load, whose losses and heat would be computed before.
    const text = readFileSync('examples/slipway-carriage.winding', 'utf8')
      .replace(/^(?:duty|require) \{[\s\S]*?^\}\n/gm, '')
      .replace(/^ *(?:speed|flux|current|voltage) .*\n/gm, '');
    openStubDocument('hoist.winding', text);
    editorState.answers.push(item('space'), item('stl'), () => Uri.parse('memory:/out/bars.stl'), undefined);
    await run('exportDrawing');
    expect(editorState.information).toEqual([
      'Triangles of 388 bars are many; their file takes about 25 MB.',
    ]);
    expect(editorState.files.size).toBe(0);
  });

  test('solids need a bend radius, and say so', async () => {
    openStubDocument('hoist.winding', bent(''));
    editorState.answers.push(item('space'), item('step'), () => Uri.parse('memory:/out/bars.step'));
    await run('exportDrawing');
    expect(editorState.errors.join()).toContain('the bars need bar bend-radius.');
    expect(editorState.files.size).toBe(0);
  });

  describe('what was written', () => {
    const exportTo = async (address: string, choice: string) => {
      openStubDocument('pump.winding', soundText);
      editorState.answers.push(item('phasors'), item('pdf'), () => Uri.parse(address), choice);
      await run('exportDrawing');
    };

    test('opens in a program of the same machine, or is revealed there', async () => {
      env.uiKind = UIKind.Desktop;
      const target = Uri.parse('file:/out/drawing.pdf');
      await exportTo('file:/out/drawing.pdf', 'Open');
      expect(editorState.choices).toEqual(['Open', 'Reveal']);
      expect(editorState.executed.at(-1)).toEqual(['outside', target]);
      await exportTo('file:/out/drawing.pdf', 'Reveal');
      expect(editorState.executed.at(-1)).toEqual(['revealFileInOS', target]);
      editorState.opensOutside = false;
      await exportTo('file:/out/drawing.pdf', 'Open');
      expect(editorState.information.at(-1)).toBe('Nothing on this system opens drawing.pdf.');
    });

    test('is shown in the list of files where files lie elsewhere, if it is there', async () => {
      editorState.folder = 'memory:/ferry';
      await exportTo('memory:/ferry/drawing.pdf', 'Reveal');
      expect(editorState.choices).toEqual(['Reveal']);
      expect(editorState.executed.at(-1)).toEqual([
        'revealInExplorer',
        Uri.parse('memory:/ferry/drawing.pdf'),
      ]);
      const before = editorState.executed.length;
      await exportTo('memory:/elsewhere/drawing.pdf', 'Open');
      expect(editorState.choices).toEqual([]);
      expect(editorState.executed).toHaveLength(before);
    });
  });

  test('a very large one is asked about first, with its size', async () => {
    const large = `winding "Barrage"\nmachine { slots 972 poles 108 phases 3 }\nlayout { layers 1 layer a +U -W +V repeat 324 }\n`;
    openStubDocument('barrage.winding', large);
    const save = () => Uri.parse('memory:/sheets.pdf');
    editorState.answers.push(item('sheet'), item('pdf'), save, undefined);
    await run('exportDrawing');
    expect(editorState.information).toEqual([
      expect.stringMatching(
        /^The handover sheets of 972 slots are \d+ sheets; their file takes about 1 MB\.$/,
      ),
    ]);
    expect(editorState.files.size).toBe(0);
    expect(editorState.errors).toEqual([]);
  });

  test('the handover sheets have one page a sheet', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.answers.push(item('sheet'), item('pdf'), () => Uri.parse('memory:/sheets.pdf'));
    await run('exportDrawing');
    const { pages } = await readPdf(editorState.files.get('memory:/sheets.pdf')!);
    expect(pages.length).toBeGreaterThan(1);
  });

  test.each([1, 2, 3])('Escape at question %i writes nothing', async (answered) => {
    openStubDocument('pump.winding', soundText);
    const answers = [item('layout'), item('svg'), () => Uri.parse('memory:/a.svg')];
    editorState.answers.push(...answers.slice(0, answered - 1));
    await run('exportDrawing');
    expect(editorState.files.size).toBe(0);
    expect(editorState.errors).toEqual([]);
  });

  test('a text without a winding, and no text at all, are explained', async () => {
    await run('exportDrawing');
    expect(editorState.information).toEqual(['Open a winding file to export it.']);
    openStubDocument('empty.winding', 'winding "Empty"');
    const asked: unknown[] = [];
    editorState.answers.push((items: unknown) => asked.push(items));
    for (const command of ['exportDrawing', 'exportSchedules', 'exportPackage']) await run(command);
    const told = 'Nothing to export: the text does not yield a winding. Its errors say why.';
    expect(editorState.errors).toEqual([told, told, told]);
    expect(asked).toEqual([]);
  });
});

describe('export of schedules', () => {
  test('all of them, beside the winding', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/lists')]);
    await run('exportSchedules', pump.uri);
    const names = ['slots', 'bars', 'joints', 'leads', 'factors', 'bends', 'field'].map(
      (table) => `memory:/lists/pump-${table}.csv`,
    );
    expect([...editorState.files.keys()].sort()).toEqual(names.sort());
    expect(text('memory:/lists/pump-bars.csv').trimEnd().split('\r\n')).toHaveLength(25);
  });

  test('of the winding in the panel, where that has the focus', async () => {
    openStubDocument('pump.winding', soundText);
    await run('showLayoutPanel');
    editorState.active = undefined;
    editorState.panels[0]!.focus(true);
    editorState.answers.push([Uri.parse('memory:/lists')]);
    await run('exportSchedules');
    expect(text('memory:/lists/pump-slots.csv')).toMatch(/^slot,/);
  });
});

describe('the handover package', () => {
  const folder = 'memory:/shop/pump-handover';

  test('holds everything, and the manifest tells the hash of each file', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')], 'Open');
    await run('exportPackage');
    const manifest = JSON.parse(text(`${folder}/manifest.json`));
    const names: string[] = manifest.files.map(({ file }: { readonly file: string }) => file);
    expect([...editorState.files.keys()].sort()).toEqual(
      [...names, 'manifest.json'].map((name) => `${folder}/${name}`).sort(),
    );
    expect(names).toHaveLength(13);
    for (const { file, what, bytes, sha256 } of manifest.files) {
      expect(what).toMatch(/^[a-z].{5,}/);
      const content = editorState.files.get(`${folder}/${file}`)!;
      expect(content.length).toBe(bytes);
      expect(createHash('sha256').update(content).digest('hex')).toBe(sha256);
    }
    expect(text(`${folder}/pump.winding`)).toBe(soundText);
    const report = JSON.parse(text(`${folder}/pump-report.json`));
    expect(report).toEqual(JSON.parse(JSON.stringify(study(soundText).report())));
    expect(manifest.errors).toBe(0);
    expect(String(editorState.executed.at(-1)?.[1])).toBe(`${folder}/pump-report.md`);
  });

  test('of a winding with errors is told with the stamp that its sheets bear', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    expect(editorState.information.at(-1)).toBe('Wrote the handover package pump-handover: 14 files.');
    openStubDocument('failing.winding', `${soundText}\nrequire { winding-factor >= 1 }\n`);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    expect(editorState.information.at(-1)).toBe(
      'Wrote the handover package failing-handover: 14 files. Not released: 1 error.',
    );
  });

  test('is the same again, byte for byte, and asks before it replaces', async () => {
    end();
    end = activateOnStub(undefined, { fileFormats: fileFormatsAnew });
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    const before = new Map(editorState.files);
    editorState.answers.push([Uri.parse('memory:/shop')], 'Replace');
    await run('exportPackage');
    expect(editorState.files.size).toBe(before.size);
    for (const [address, bytes] of editorState.files)
      expect(Buffer.from(bytes).equals(Buffer.from(before.get(address)!)), address).toBe(true);
    editorState.files.set(`${folder}/manifest.json`, new Uint8Array());
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    expect(editorState.files.get(`${folder}/manifest.json`)).toHaveLength(0);
  });

  test.each(['-layout.dxf', '-sheets.pdf'])('canceled at %s, it has written nothing', async (ending) => {
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    editorState.progress = (message) => message.endsWith(ending);
    await run('exportPackage');
    expect(editorState.files.size).toBe(0);
    expect(editorState.errors).toEqual([]);
  });

  test('canceled while it is written, it leaves neither files nor its folder', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    let writes = 0;
    editorState.failing = (call) => {
      if (call === 'rename' && ++writes === 3) editorState.cancel();
    };
    await run('exportPackage');
    expect(writes).toBe(3);
    expect([...editorState.files.keys(), ...editorState.folders]).toEqual([]);
    expect(editorState.errors).toEqual([]);
    expect(editorState.information).toEqual([]);
  });

  test('holds the section in full size', async () => {
    const sized = `${soundText.replace('phases 3', 'phases 3\n  bore 162 mm')}\nslot { width 9 mm depth 20 mm }\nbar { width 7 mm height 8 mm }\n`;
    openStubDocument('pump.winding', sized);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    const { facts, title, specification } = study(sized);
    const picture = drawView({ facts: facts!, title, specification }, 'section', { fullSize: true });
    expect(picture.scale).toBeGreaterThan(0);
    expect(text(`${folder}/pump-section.dxf`)).toBe(
      pictureToDxf(picture, { phaseNames: facts!.winding.phases.names }),
    );
  });

  test('a winding with errors says so on every sheet and in the manifest', async () => {
    openStubDocument('pump.winding', `${soundText}\nrequire { winding-factor harmonic 1 >= 0.999 }\n`);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    expect(JSON.parse(text(`${folder}/manifest.json`)).errors).toBe(1);
    const { pages } = await readPdf(editorState.files.get(`${folder}/pump-sheets.pdf`)!);
    for (const page of pages) expect(page.selectable).toContain('NOT RELEASED');
  });

  test('an export waits until the paths are found', async () => {
    end();
    let time = 0;
    const waiting: (() => void)[] = [];
    const passing = () => {
      time += 100;
      return time;
    };
    end = activateOnStub({ now: passing, later: (work) => waiting.push(work) });
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    const exported = run('exportPackage');
    await vi.waitFor(() => expect(editorState.working).toBe(true));
    expect(editorState.files.size).toBe(0);
    while (waiting.length > 0) waiting.shift()?.();
    await exported;
    expect(JSON.parse(text(`${folder}/pump-report.json`)).paths).toHaveLength(3);
  });

  test('a reader who does not want to wait for the paths gets nothing', async () => {
    end();
    let time = 0;
    const passing = () => {
      time += 100;
      return time;
    };
    end = activateOnStub({ now: passing, later: () => {} });
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    const exported = run('exportPackage');
    await vi.waitFor(() => expect(editorState.working).toBe(true));
    editorState.cancel();
    await exported;
    expect(editorState.files.size).toBe(0);
    expect(editorState.errors).toEqual([]);
  });

  test('a broken text is not exported', async () => {
    openStubDocument('pump.winding', brokenText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    expect(editorState.files.size).toBe(0);
    expect(editorState.errors).toHaveLength(1);
  });
});

describe('an export that cannot be written', () => {
  const folder = 'memory:/shop/pump-handover';
  const full = new FileSystemError('Unknown', 'no space left on device');

  /** The files of a package. */
  let addresses: readonly string[];
  beforeAll(async () => {
    end = activateOnStub();
    openStubDocument('pump.winding', soundText);
    editorState.answers.push([Uri.parse('memory:/shop')]);
    await run('exportPackage');
    addresses = [...editorState.files.keys()];
    end();
  });

  /** Exports the package over one that is there already, while calls fail as planned. */
  async function replaced(failing: typeof editorState.failing) {
    openStubDocument('pump.winding', soundText);
    for (const address of addresses) editorState.files.set(address, old(address));
    editorState.failing = failing;
    editorState.answers.push([Uri.parse('memory:/shop')], 'Replace');
    await run('exportPackage');
  }
  const old = (address: string) => new TextEncoder().encode(`old ${address}`);
  /** Names of the files that are not what they were, and what they hold. */
  const changed = () =>
    [...editorState.files]
      .filter(([address, bytes]) => new TextDecoder().decode(bytes) !== `old ${address}`)
      .map(([address]) => address.slice(folder.length + 1));
  /** Fails calls of these kinds to files with this ending: the nth of them, and so many in all. */
  const failingFrom = (nth: number, count: number, kinds: readonly string[], ending: string) => {
    let calls = 0;
    return (call: string, uri: Uri) => {
      if (!kinds.includes(call) || !uri.toString().endsWith(ending)) return;
      calls++;
      if (calls >= nth && calls < nth + count) throw full;
    };
  };

  test.each([
    ['the disk is full at the first file', failingFrom(1, 1, ['writeFile'], '.tmp')],
    ['the disk is full at the last file', failingFrom(13, 1, ['writeFile'], '.tmp')],
    [
      'the last file can neither take its place nor be written',
      failingFrom(1, 2, ['rename', 'writeFile'], '/manifest.json'),
    ],
  ])('where %s, leaves every old file as it was', async (_, failing) => {
    await replaced(failing);
    expect(changed()).toEqual([]);
    expect(editorState.files.size).toBe(14);
    expect(editorState.errors).toEqual([
      'The export failed: Unknown: no space left on device. No file was changed.',
    ]);
  });

  test('leaves neither files nor a folder where there was none', async () => {
    for (const place of ['.tmp', '/pump-report.md']) {
      end();
      end = activateOnStub();
      openStubDocument('pump.winding', soundText);
      editorState.answers.push([Uri.parse('memory:/shop')]);
      editorState.failing = (call, uri) => {
        if (call !== 'delete' && call !== 'stat' && uri.toString().endsWith(place)) throw full;
      };
      await run('exportPackage');
      expect([...editorState.files.keys(), ...editorState.folders]).toEqual([]);
      expect(editorState.errors).toEqual([
        'The export failed: Unknown: no space left on device. No file was changed.',
      ]);
    }
  });

  test('says exactly what it left where nothing can be put back', async () => {
    let broken = false;
    await replaced((call, uri) => {
      broken ||= call === 'rename' && uri.toString().endsWith('/pump-slots.csv');
      if (broken) throw full;
    });
    const [said, unfinished] = editorState.errors[0]!.split(' To be deleted: ');
    expect(said).toBe(
      'The export failed: Unknown: no space left on device. Written all the same: pump.winding, pump-sheets.pdf, pump-layout.dxf, pump-section.dxf. Cut off: pump-slots.csv.',
    );
    const temporaries = changed().filter((name) => name.endsWith('.tmp'));
    expect(unfinished!.replace(/\.$/, '').split(', ').sort()).toEqual(temporaries.sort());
    expect(text(`${folder}/pump.winding`)).toBe(soundText);
    const left = changed().filter((name) => !name.endsWith('.tmp'));
    expect(left.sort()).toEqual([
      'pump-layout.dxf',
      'pump-section.dxf',
      'pump-sheets.pdf',
      'pump-slots.csv',
      'pump.winding',
    ]);
  });

  test('writes where a file system renames nothing, and through links', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.failing = (call) => {
      if (call === 'rename') throw new FileSystemError('Unavailable', 'no rename here');
    };
    editorState.answers.push([Uri.parse('memory:/lists')]);
    await run('exportSchedules');
    expect(editorState.errors).toEqual([]);
    expect([...editorState.files.keys()].filter((name) => name.endsWith('.tmp'))).toEqual([]);
    expect(text('memory:/lists/pump-slots.csv')).toMatch(/^slot,/);
    editorState.failing = () => undefined;
    editorState.files.set('memory:/lists/pump-slots.csv', old('x'));
    editorState.links.add('memory:/lists/pump-slots.csv');
    editorState.answers.push([Uri.parse('memory:/lists')]);
    await run('exportSchedules');
    expect(text('memory:/lists/pump-slots.csv')).toMatch(/^slot,/);
    expect([...editorState.links]).toEqual(['memory:/lists/pump-slots.csv']);
  });

  test('a drawing is no winding, and no export replaces the winding it is made from', async () => {
    const pump = openStubDocument('shop/pump-handover/pump.winding', soundText);
    editorState.answers.push(item('layout'), item('svg'), () => pump.uri);
    await run('exportDrawing');
    expect(editorState.errors).toEqual([
      'A drawing cannot replace a winding. Choose a name that ends with .svg.',
    ]);
    editorState.answers.push([Uri.parse('memory:/shop')], 'Replace');
    await run('exportPackage');
    expect(editorState.errors.at(-1)).toBe(
      'The export failed: pump.winding is the winding itself. Choose another place.',
    );
    expect(editorState.files.size).toBe(0);
  });

  test('a folder in the way and a place that takes no files are told', async () => {
    openStubDocument('pump.winding', soundText);
    editorState.folders.add('memory:/lists').add('memory:/lists/pump-bars.csv');
    editorState.answers.push([Uri.parse('memory:/lists')], [Uri.parse('frozen:/lists')]);
    await run('exportSchedules');
    await run('exportSchedules');
    expect(editorState.errors).toEqual([
      'The export failed: pump-bars.csv is a folder, not a file. No file was changed.',
      'The export failed: Files cannot be written there. Choose another folder.',
    ]);
    expect(editorState.files.size).toBe(0);
  });
});
