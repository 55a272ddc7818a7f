import { barWords, insulationStatements, slotWords } from './blocks/copper.ts';
import { dutyWords } from './blocks/duty.ts';
import { blocksWords, fileWords, sheetWords } from './blocks/file.ts';
import { requireWords } from './blocks/limits.ts';
import { machineWords } from './blocks/machine.ts';
import { varyWords } from './blocks/vary.ts';
import { connectWords, layoutWords } from './blocks/winding.ts';
import type { BlockName, Role, VocabularyEntry } from './entry.ts';

export type { BlockName, Role, VocabularyEntry } from './entry.ts';

/** Every word of the language. */
export const vocabulary: readonly VocabularyEntry[] = [
  ...fileWords,
  ...blocksWords,
  ...machineWords,
  ...slotWords,
  ...barWords,
  ...Object.values(insulationStatements),
  ...layoutWords,
  ...connectWords,
  ...dutyWords,
  ...requireWords,
  ...varyWords,
  ...sheetWords,
];

const byKey = new Map(vocabulary.map((entry) => [`${entry.block} ${entry.role} ${entry.word}`, entry]));

/** Words that start a statement, by block. */
const statementsByBlock = new Map<string, Map<string, VocabularyEntry>>();
for (const entry of vocabulary) {
  if (entry.role !== 'statement' && entry.role !== 'quantity') continue;
  const words = statementsByBlock.get(entry.block) ?? new Map<string, VocabularyEntry>();
  words.set(entry.word, entry);
  statementsByBlock.set(entry.block, words);
}

/** The entry of a word in a block and role. */
export function vocabularyEntry(block: BlockName, role: Role, word: string): VocabularyEntry | undefined {
  return byKey.get(`${block} ${role} ${word}`);
}

/** The entry of a word that starts a statement (or a limit) in a block. */
export function statementEntry(block: BlockName, word: string): VocabularyEntry | undefined {
  return statementsByBlock.get(block)?.get(word);
}

/** The words that start a statement in a block, in the table's order, which is the canonical order. */
export function statementWords(block: BlockName): readonly string[] {
  return vocabulary
    .filter((entry) => entry.block === block && (entry.role === 'statement' || entry.role === 'quantity'))
    .map((entry) => entry.word);
}

/** The blocks in which a word starts a statement. */
export function statementBlocks(word: string): readonly BlockName[] {
  return vocabulary
    .filter((entry) => entry.word === word && entry.role === 'statement')
    .map((entry) => entry.block);
}

/** The words that open a block. */
export const blockNames: readonly BlockName[] = blocksWords.map((entry) => entry.word as BlockName);
