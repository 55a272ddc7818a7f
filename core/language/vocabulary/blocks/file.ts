import { plain, statement, type VocabularyEntry } from '../entry.ts';

/** Words outside blocks. */
export const fileWords: readonly VocabularyEntry[] = [
  statement(
    'file',
    'winding',
    'text',
    'Name of the winding; it heads reports and drawings.',
    'winding "Harbor ferry pod drive, stator B"',
  ),
];

/** Words that open a block. */
export const blocksWords: readonly VocabularyEntry[] = [
  plain(
    'file',
    'block',
    'machine',
    'The machine around the winding: slots, poles, phases, sizes, speed.',
    'machine { slots 48  poles 8  phases 3 }',
  ),
  plain(
    'file',
    'block',
    'slot',
    'The slot; once for each group of layers where layers lie in separate slot rows.',
    'slot { width 4.6 mm  depth 15.2 mm }',
  ),
  plain(
    'file',
    'block',
    'bar',
    'The copper bar: section, metal, form and ends.',
    'bar { width 3.6 mm  height 3 mm }',
  ),
  plain(
    'file',
    'block',
    'insulation',
    'Limits for the voltages between bars.',
    'insulation { turn-voltage 400 V }',
  ),
  plain(
    'file',
    'block',
    'layout',
    'Which phase and sense lies in each place: generated from a coil span, or written row by row.',
    'layout { layers 4  span 6 }',
  ),
  plain(
    'file',
    'block',
    'connect',
    'How bars are joined into paths and phases.',
    'connect { star  route paths 2 }',
  ),
  plain(
    'file',
    'block',
    'duty',
    'The duty cycle: points of speed and torque or current that follow each other again and again.',
    'duty { point "climb" speed 900 rpm torque 150 Nm for 2 min }',
  ),
  plain(
    'file',
    'block',
    'require',
    'Acceptance limits; a failed limit is an error.',
    'require { winding-factor harmonic 1 >= 0.93 }',
  ),
  plain(
    'file',
    'block',
    'vary',
    'Values to try, and what to keep of them: which winding at all. Everything else leaves it out of account.',
    'vary { machine slots 36 to 72 by 6  rank least differential-leakage }',
  ),
  plain(
    'file',
    'block',
    'sheet',
    'The fields of the title block and the notes of the handover sheet.',
    'sheet { number "EW-104"  revision "B" }',
  ),
];

/** Words of the sheet block. */
export const sheetWords: readonly VocabularyEntry[] = [
  statement('sheet', 'owner', 'text', 'Legal owner of the drawing.', 'owner "Estuary Drives workshop"'),
  statement('sheet', 'number', 'text', 'Identification number of the drawing.', 'number "EW-104-B"', {
    recommendedLength: 16,
  }),
  statement(
    'sheet',
    'title',
    'text',
    "Title of the drawing; without it the winding's.",
    'title "Ferry pod stator winding"',
    { recommendedLength: 25 },
  ),
  statement('sheet', 'revision', 'text', 'Revision index.', 'revision "B"', { recommendedLength: 2 }),
  statement('sheet', 'date', 'date', 'Date of issue, year-month-day.', 'date "2026-05-01"'),
  statement('sheet', 'drawn-by', 'text', 'Who made the drawing.', 'drawn-by "Winding office"', {
    recommendedLength: 20,
  }),
  statement('sheet', 'approved-by', 'text', 'Who approved the drawing.', 'approved-by "Head of shop"', {
    recommendedLength: 20,
  }),
  statement('sheet', 'document-type', 'text', 'Type of document.', 'document-type "Winding drawing"', {
    default: '"Winding drawing"',
    recommendedLength: 30,
  }),
  statement('sheet', 'status', 'text', 'Document status.', 'status "In work"', { recommendedLength: 20 }),
  statement(
    'sheet',
    'sheet-size',
    'sheet-size',
    'Sheet size after ISO 5457: A4, A3, A2, A1 or A0.',
    'sheet-size A3',
  ),
  statement('sheet', 'language', 'text', 'Language code of the sheet.', 'language "en"', {
    recommendedLength: 4,
  }),
  statement('sheet', 'note', 'text', 'A note on the sheet.', 'note "Clean bare ends before joining."', {
    repeatable: true,
  }),
];
