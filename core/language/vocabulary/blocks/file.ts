import { textOf } from '../../specification/reading.ts';
import { plain, statement, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

/** Words outside blocks. */
export const fileWords: readonly VocabularyEntry[] = [
  statement('file', 'winding', {
    pattern: 'text',
    meaning: 'Name of the winding; it heads reports and drawings.',
    example: 'winding "Harbor ferry pod drive, stator B"',
  }),
];

/** Words that open a block. */
export const blocksWords: readonly VocabularyEntry[] = [
  ...plain('file', 'block', {
    machine: [
      'The machine around the winding: slots, poles, phases, sizes, speed.',
      'machine { slots 48  poles 8  phases 3 }',
    ],
    slot: [
      'The slot; once for each group of layers where layers lie in separate slot rows.',
      'slot { width 4.6 mm  depth 15.2 mm }',
    ],
    bar: ['The copper bar: section, metal, form and ends.', 'bar { width 3.6 mm  height 3 mm }'],
    insulation: ['Limits for the voltages between bars.', 'insulation { turn-voltage 400 V }'],
    layout: [
      'Which phase and sense lies in each place: generated from a coil span, or written row by row.',
      'layout { layers 4  span 6 }',
    ],
    connect: ['How bars are joined into paths and phases.', 'connect { star  route paths 2 }'],
    duty: [
      'The duty cycle: points of speed and torque or current that follow each other again and again.',
      'duty { point "climb" speed 900 rpm torque 150 Nm for 2 min }',
    ],
    require: [
      'Acceptance limits; a failed limit is an error.',
      'require { winding-factor harmonic 1 >= 0.93 }',
    ],
    vary: [
      'Values to try, and what to keep of them: which winding at all. Everything else leaves it out of account.',
      'vary { machine slots 36 to 72 by 6  rank least differential-leakage }',
    ],
    sheet: [
      'The fields of the title block and the notes of the handover sheet.',
      'sheet { number "EW-104"  revision "B" }',
    ],
  }),
];

/** Statements of the sheet block, in canonical order. */
export const sheetStatements = statementsOf('sheet', {
  owner: {
    pattern: 'text',
    read: textOf,
    meaning: 'Legal owner of the drawing.',
    example: 'owner "Estuary Drives workshop"',
  },
  number: {
    pattern: 'text',
    read: textOf,
    meaning: 'Identification number of the drawing.',
    example: 'number "EW-104-B"',
    recommendedLength: 16,
  },
  title: {
    pattern: 'text',
    read: textOf,
    meaning: "Title of the drawing; without it the winding's.",
    example: 'title "Ferry pod stator winding"',
    recommendedLength: 25,
  },
  revision: {
    pattern: 'text',
    read: textOf,
    meaning: 'Revision index.',
    example: 'revision "B"',
    recommendedLength: 2,
  },
  date: {
    pattern: 'date',
    read: textOf,
    meaning: 'Date of issue, year-month-day.',
    example: 'date "2026-05-01"',
  },
  drawnBy: {
    pattern: 'text',
    read: textOf,
    meaning: 'Who made the drawing.',
    example: 'drawn-by "Winding office"',
    recommendedLength: 20,
  },
  approvedBy: {
    pattern: 'text',
    read: textOf,
    meaning: 'Who approved the drawing.',
    example: 'approved-by "Head of shop"',
    recommendedLength: 20,
  },
  documentType: {
    pattern: 'text',
    read: textOf,
    meaning: 'Type of document.',
    example: 'document-type "Winding drawing"',
    default: '"Winding drawing"',
    recommendedLength: 30,
  },
  status: {
    pattern: 'text',
    read: textOf,
    meaning: 'Document status.',
    example: 'status "In work"',
    recommendedLength: 20,
  },
  sheetSize: {
    pattern: 'sheet-size',
    read: textOf,
    meaning: 'Sheet size after ISO 5457: A4, A3, A2, A1 or A0.',
    example: 'sheet-size A3',
    default: 'A3',
  },
  language: {
    pattern: 'text',
    read: textOf,
    meaning: 'Language code of the sheet.',
    example: 'language "en"',
    recommendedLength: 4,
  },
  notes: {
    word: 'note',
    pattern: 'text',
    read: textOf,
    meaning: 'A note on the sheet.',
    example: 'note "Clean bare ends before joining."',
    repeatable: true,
  },
});

/** Words of the sheet block. */
export const sheetWords: readonly VocabularyEntry[] = [...Object.values(sheetStatements)];
