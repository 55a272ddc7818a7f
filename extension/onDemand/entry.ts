// What the extension loads when it is first needed: the entry of a bundle of its own.

export { compareCommitted, compareShown, compareWindings } from './compareCommands.ts';
export { createComparisonPanel } from './comparisonHost.ts';
export { completionsAt } from './completions.ts';
export { drawShown } from './drawShown.ts';
export { exportDrawing } from './exportDrawing.ts';
export { exportPackage, exportSchedules } from './exportFolder.ts';
export { hoverAt } from './hovers.ts';
export { marksAt, marksOf, nextBar, textOf } from './marks.ts';
export { nameOf } from './names.ts';
export { newWinding } from './newWinding/newWinding.ts';
export { createLayoutPanels } from './panelHost.ts';
