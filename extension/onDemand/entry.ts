// What the extension loads when it is first needed: the entry of a bundle of its own.

export { compareCommitted, compareShown, compareWindings } from './comparison/commands.ts';
export { createComparisonPanel } from './comparison/host.ts';
export { completionsAt } from './completions.ts';
export { exportDrawing } from './exporting/drawing.ts';
export { exportPackage, exportSchedules } from './exporting/folder.ts';
export { hoverAt } from './hovers.ts';
export { newWinding } from './newWinding/newWinding.ts';
export { createLayoutPanels } from './panelHost.ts';
