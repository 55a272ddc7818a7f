// Takes its time: draws all views of all examples.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { type FigurePath, figureRegister } from '../../core/figures/register.ts';
import { inEnglish, type Speech } from '../../core/figures/speech.ts';
import * as copperKinds from '../../core/findings/copper/findingKinds.ts';
import * as ruleKinds from '../../core/findings/rules.ts';
import * as textKinds from '../../core/language/textFindingKinds.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { assumptionsOf } from '../../core/report/assumptions.ts';
import { designFigures, factorTableRows } from '../../core/report/figures.ts';
import { compare } from '../../core/review/compare.ts';
import { overlayPicture } from '../../core/review/overlay.ts';
import { shapeRows } from '../../core/review/shapeRows.ts';
import { spaceChange } from '../../core/review/space/spaceChange.ts';
import { details, headline } from '../../core/review/summary.ts';
import { scheduleTable, scheduleTables } from '../../core/tables/schedule.ts';
import { heldText, reasonText } from '../../core/variants/words.ts';
import { spaceWords } from '../../core/views/space/space.ts';
import { drawView, viewNames } from '../../core/views/views.ts';
import * as layoutKinds from '../../core/winding/layoutFindingKinds.ts';
import * as pathKinds from '../../core/winding/paths/pathFindingKinds.ts';
import { figures } from '../../extension/german/engine/figures.ts';
import { models, phrase } from '../../extension/german/engine/phrases.ts';
import { sentences } from '../../extension/german/engine/sentences.ts';
import { german } from '../../extension/german/main.ts';
import { flat, troublesOf } from '../picture/checkPicture.ts';
import { generatedFerry } from '../review/texts.ts';
import { smallHairpins } from '../space/machines.ts';
import { projectFolder, soundExamples } from '../support/files.ts';
import { study } from '../support/study.ts';

/** Every sentence that the engine says through a surface's speech. */
function saidSentences(): readonly string[] {
  const folder = join(projectFolder, 'core');
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  return files.flatMap((name) => {
    const source = readFileSync(join(folder, name), 'utf8');
    return [...source.matchAll(/\bsay\(\s*(?:'((?:[^'\\]|\\.)*)'|"((?:[^"\\]|\\.)*)")/g)].map(
      ([, single, double]) =>
        (single ?? double)!.replaceAll(/\\u([0-9a-f]{4})/g, (_, code) =>
          String.fromCharCode(Number.parseInt(code, 16)),
        ),
    );
  });
}

const blanks = (sentence: string) => [...sentence.matchAll(/\{\d+\}/g)].map(([mark]) => mark).sort();

const bracketed = (words: string) => `‹${words}›`;

/** A language in which everything that is said stands in brackets. */
const marking: Speech = {
  name: 'marked',
  say: (english, ...values) => bracketed(inEnglish.say(english, ...values)),
  figure: (path) => bracketed(inEnglish.figure(path)),
  model: (_, english) => bracketed(english),
  phrase: bracketed,
  refusal: (_, english) => bracketed(english),
};

/** What stands outside of all brackets. */
function unsaid(text: string): string {
  let [left, depth] = ['', 0];
  for (const letter of text) {
    if (letter === '‹') depth++;
    if (depth === 0) left += letter;
    if (letter === '›') depth--;
  }
  return left;
}

const subjects = soundExamples.map(({ name, text }) => {
  const { facts, title, specification } = study(text);
  if (facts === null) throw new Error(`${name} yields no winding`);
  return { name, title, specification, facts };
});

function wordsOf(picture: Picture): readonly string[] {
  const drawn = flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
  // What is wrapped stands in rows that follow each other.
  return [picture.title, picture.description, ...(picture.notes ?? []), drawn.join('\n')];
}

/** Words of the text itself: its title, names of points. */
function ownWords({ title, facts }: (typeof subjects)[number]): readonly string[] {
  return [title, ...(facts.duty()?.points ?? []).map(({ name }) => name)];
}

const room = { width: 216, height: 100 };

describe('pictures and key figures in the language of a surface', () => {
  test('every sentence has its German words, with the same blanks, and none is left over', () => {
    const said = new Set(saidSentences());
    expect(said.size).toBeGreaterThan(200);
    expect([...said].filter((sentence) => sentences[sentence] === undefined)).toEqual([]);
    expect(Object.keys(sentences).filter((sentence) => !said.has(sentence))).toEqual([]);
    for (const [english, own] of Object.entries(sentences))
      expect([own, blanks(own)]).toEqual([own, blanks(english)]);
  });

  test('no sentence is put together beforehand', () => {
    const folder = join(projectFolder, 'core');
    const odd = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (name) =>
        name.endsWith('.ts') &&
        /(?<!: \(|\.\.\.)\bsay\(\s*(?!['"\s)])/.test(readFileSync(join(folder, name), 'utf8')),
    );
    expect(odd).toEqual([]);
  });

  test('every figure has a name of its own', () => {
    const paths = Object.keys(figureRegister) as FigurePath[];
    expect(Object.keys(figures).sort()).toEqual([...paths].sort());
    expect(new Set(Object.values(figures)).size).toBe(paths.length);
  });

  test('nothing in a picture, in its text equivalent and its notes passes by', () => {
    for (const subject of subjects)
      for (const view of viewNames) {
        // Words of the bars in space are the same in a small drawing.
        const sizes = { coarse: true, room: view === 'space' ? { width: 90, height: 80 } : room };
        const picture = drawView(subject, view, { ...sizes, speech: marking });
        const own = ownWords(subject);
        const left = wordsOf(picture)
          .map((words) => unsaid(own.reduce((text, each) => text.replaceAll(each, ''), words)))
          // Sources of models are titles of books; units and names of terminals are no words.
          .map((words) =>
            words.replaceAll(/\(.*\)/g, '').replaceAll(/\b(?:Nm|kNm|rad|MPa|rpm|kW|min)\b/g, ''),
          )
          .filter((words) => /[A-Za-z]{3,}/.test(words));
        expect([subject.name, view, left]).toEqual([subject.name, view, []]);
      }
  });

  test('nothing passes by in what a comparison comes to, and every assumption has German words', () => {
    const limit = (text: string, line: string) => text.replace(/\n?$/, `\nrequire { ${line} }\n`);
    const plain = 'winding "A"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\n';
    const texts = [
      plain,
      plain.replace('span 5', 'span 6'),
      plain.replace('slots 12', 'slots 13'),
      limit(plain, 'winding-factor >= 0.99'),
      `${plain}connect { star }\n`,
    ];
    for (const old of texts)
      for (const now of texts) {
        const comparison = compare(study(old), study(now));
        const told = [
          headline(comparison, 'changed', marking),
          ...details(comparison, 'changed', marking),
          ...shapeRows(comparison.shapes, marking).map(({ shape }) => shape),
        ];
        expect(told.map(unsaid).filter((left) => /[A-Za-z]{3,}/.test(left))).toEqual([]);
        expect(comparison.notes.filter((note) => phrase(note) === note)).toEqual([]);
      }
    const assumed = subjects.flatMap(({ specification, facts }) => assumptionsOf(specification, facts));
    const english = [...new Set(assumed)].filter((line) => phrase(line) === line);
    // What is a word of the language with its value stays as it is written.
    expect(english.filter((line) => /\b(?:the|of|are|is|not|with)\b/.test(line))).toEqual([]);
  });

  test('nor in the windings laid over each other', () => {
    const plain = generatedFerry.replace('span   6', 'span   5');
    const other = generatedFerry.replace('slots   48', 'slots 72').replace('span   6', 'span 9');
    for (const now of [plain, generatedFerry, other]) {
      const picture = overlayPicture(study(generatedFerry), study(now), marking)!;
      const left = wordsOf(picture)
        .map((words) => unsaid(words.replaceAll('Harbor ferry pod drive, stator B', '')))
        .filter((words) => /[A-Za-z]{3,}/.test(words));
      expect(left).toEqual([]);
    }
  });

  test('nor in the bars in space of two windings', () => {
    const text = smallHairpins();
    const bent = spaceChange(
      study(text),
      study(text.replace('bend-radius 3 mm', 'bend-radius 3.5 mm').replace('Bars in space', '')),
      { coarse: true, speech: marking },
    );
    if (bent.kind !== 'changed') throw new Error(bent.kind);
    const words = wordsOf(bent.picture).map((each) => unsaid(each.replaceAll('Bars in space', '')));
    expect(words.filter((left) => /[A-Za-z]{3,}/.test(left))).toEqual([]);
    const unknown = spaceChange(study(text), study(text.replace('end-straight 12 mm', '')), {
      speech: marking,
    });
    expect(unknown.kind === 'unknown' && unsaid(unknown.why)).toBe('');
  });

  test('nor among key figures, waves and the words of bars in space', () => {
    for (const subject of subjects) {
      const told = designFigures(subject.facts, marking).flatMap(({ label, value, help }) => [
        label,
        value,
        help ?? '',
      ]);
      const waves = factorTableRows(subject.facts, marking).map(({ direction }) => direction);
      const { winding } = subject.facts;
      const space = spaceWords({ ...subject, winding, speech: marking });
      const words = [
        ...told,
        ...waves,
        space?.title.replace(subject.title, '') ?? '',
        ...(space?.notes ?? []),
      ];
      expect(words.map(unsaid).filter((left) => /[A-Za-z]{3,}/.test(left))).toEqual([]);
    }
  });

  test('headings of tables, and cells of one of few words, have German words', () => {
    for (const { facts } of subjects)
      for (const table of scheduleTables) {
        if (table === 'field') continue;
        const { columns, cells } = scheduleTable(facts, table);
        for (const [index, { heading }] of columns.entries()) {
          const symbol = /^(?:[a-z]|[a-z] sense)$/;
          const same = heading !== 'position' && symbol.test(heading);
          if (!same) expect([heading, phrase(heading)]).not.toEqual([heading, heading]);
          if (!['side', 'kind', 'end', 'separate piece', 'operation', 'ends'].includes(heading)) continue;
          const words = new Set(cells.map((row) => row[index]).filter((cell) => cell !== null));
          for (const cell of words)
            expect([heading, cell, phrase(String(cell))]).not.toEqual([heading, cell, cell]);
        }
      }
  });

  test('nor in what stays equal between variants, and in why some of them make no winding', () => {
    const holds = (['gap-flux-density', 'flux'] as const).flatMap((field) =>
      (['torque', 'current'] as const).flatMap((load) =>
        (['shares', 'sizes'] as const).flatMap((room) =>
          [null, 12.5].map((torque) => ({ field, load, room, torque, unsettled: [] })),
        ),
      ),
    );
    for (const hold of holds) expect(unsaid(heldText({ hold }, marking))).toBe('; ; ');
    const modules = [layoutKinds, pathKinds, copperKinds, ruleKinds];
    const codes = modules
      .flatMap((module) => Object.values(module))
      .flatMap((kind) =>
        typeof kind === 'object' && 'code' in kind && kind.severity === 'error' ? [kind.code] : [],
      )
      // Insulation is checked of no variant.
      .filter((code) => code !== 'insulation-stressed');
    expect(codes.length).toBeGreaterThan(30);
    const told = [
      ...codes,
      ...[textKinds.blockMissing, textKinds.statementMissing, textKinds.statementsExclude].map(
        ({ code }) => code,
      ),
      ...[textKinds.phasesApartMissing, textKinds.phasesApartUnexpected].map(({ code }) => code),
      ...[textKinds.layerOutside, textKinds.layerRepeated].map(({ code }) => code),
      ...['no-pole-pitch', 'span-below-1', 'no-winding'],
      'layout-refused: odd-layers',
      'route-refused: none-met',
    ];
    for (const reason of told) {
      expect(unsaid(reasonText(reason, marking))).toMatch(/^(?:: )?$/);
      const own = reasonText(reason, german.speech);
      expect([reason, own]).not.toEqual([reason, reasonText(reason)]);
      expect([reason, own]).toEqual([reason, expect.not.stringMatching(/\b(?:the|of|is|are|and|has)\b/)]);
    }
  });

  describe('drawn with German words', () => {
    const english = /\b(?:the|of|is|are|and|not|by|with|from|needs?|drawn|default|assumed)\b/;
    const left = new Set<string>();
    const noting: Speech = {
      ...german.speech,
      name: 'noted',
      model: (path, words) => {
        if (models[path] === undefined) left.add(`model of ${path}`);
        return words;
      },
      phrase: (words) => {
        const own = phrase(words);
        if (english.test(own)) left.add(own);
        return own;
      },
    };
    const troubles: string[] = [];
    beforeAll(() => {
      for (const subject of subjects)
        for (const view of viewNames)
          for (const width of [100, 216]) {
            const size = { width, height: 100 };
            const picture = drawView(subject, view, { coarse: true, room: size, speech: noting });
            for (const trouble of troublesOf(picture))
              troubles.push(`${subject.name}, ${view}, ${width} mm wide: ${trouble}`);
          }
    });

    test('models and assumptions below charts, needs and parts of bars are said in German', () => {
      expect([...left]).toEqual([]);
    });

    test('nothing overlaps or is cut, in a wide panel and in a narrow one', () => {
      expect(troubles).toEqual([]);
    });
  });

  test('without a speech everything is English, byte for byte as on paper', () => {
    const [subject] = subjects;
    for (const view of viewNames)
      expect(drawView(subject!, view, { room, speech: inEnglish })).toEqual(
        drawView(subject!, view, { room }),
      );
  });
});
