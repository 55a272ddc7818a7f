// What the editor loads only when a table is imported: the entry of a bundle of its own. The formatter, with the words
// of the language, is with the engine.
export { troubleWords } from './grid.ts';
export { connectionWords } from './head.ts';
export { readWinding } from './readWinding.ts';
